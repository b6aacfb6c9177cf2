using System.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace RollRide.Dynamics;

/// <summary>Linear motion about rest of something that swings, over one damper coefficient.</summary>
internal interface ILinearMotion
{
    /// <summary>Number of coordinates <c>n</c>.</summary>
    int Coordinates { get; }

    /// <summary>
    /// The state matrix <c>A</c> of <c>ẏ = A y</c>: the coordinates, their rates, and then the strokes of dampers in top mounts, left and right
    /// next to each other. Where a damper has no coefficient its mount has nothing to carry, and is left out.
    /// </summary>
    /// <param name="coefficient">The damper coefficient, N·s/m; 0 or more.</param>
    Matrix<double> Motion(double coefficient);

    /// <summary>Displacements as roots of kinetic energy: their squares add up to twice that energy over the square of the frequency.</summary>
    /// <param name="displacements">The coordinates; receives the roots.</param>
    void Weigh(Span<Complex> displacements);

    /// <summary>The displacements of which <see cref="Weigh"/> makes these.</summary>
    /// <param name="weighted">The roots; receives the coordinates.</param>
    void Unweigh(Span<Complex> weighted);
}
