using System.Collections.Immutable;
using System.Numerics;
using MathNet.Numerics.LinearAlgebra;
using RollRide.Dynamics;

namespace RollRide.Modes;

/// <summary>All eigenvalues of a linearised half-car at one damper coefficient, with the displacements that belong to each.</summary>
internal sealed class EigenSystem
{
    private const int Coordinates = HalfCarState.Rates;

    // Eigenvalue solvers return a double real root as a pair with an imaginary part near the square root of rounding.
    private const double RealTolerance = 1e-7;

    private EigenSystem(ImmutableArray<Complex> values, ImmutableArray<Complex[]> weighted)
    {
        Values = values;
        Weighted = weighted;
    }

    /// <summary>The eigenvalues; complex ones stand in conjugate pairs.</summary>
    public ImmutableArray<Complex> Values { get; }

    /// <summary>
    /// For each eigenvalue the displacements times the root of their mass, of unit length: the squares are shares of kinetic energy.
    /// </summary>
    public ImmutableArray<Complex[]> Weighted { get; }

    /// <summary>Solves the eigenproblem.</summary>
    public static EigenSystem Solve(LinearHalfCar linear, double coefficient)
    {
        var evd = linear.StateMatrix(coefficient).Evd(Symmetricity.Asymmetric);
        var n = evd.EigenValues.Count;
        var values = new Complex[n];
        var weighted = new Complex[n][];
        for (var k = 0; k < n; k++)
        {
            var value = evd.EigenValues[k];
            var isReal = value.Imaginary == 0;

            // Of a complex pair, columns k and k + 1 hold the real and imaginary part of the first one's vector.
            var (re, im, sign) = isReal ? (k, -1, 0) : value.Imaginary > 0 ? (k, k + 1, 1) : (k - 1, k, -1);
            var vector = new Complex[Coordinates];
            var length = 0.0;
            for (var i = 0; i < Coordinates; i++)
            {
                vector[i] = new Complex(evd.EigenVectors[i, re], isReal ? 0 : sign * evd.EigenVectors[i, im])
                    * Math.Sqrt(linear.Mass[i, i]);
                length += vector[i].Real * vector[i].Real + (vector[i].Imaginary * vector[i].Imaginary);
            }

            // A top mount's own relaxation moves the stroke alone; it keeps a zero vector and overlaps with nothing.
            var scale = length > 0 ? 1 / Math.Sqrt(length) : 0;
            for (var i = 0; i < Coordinates; i++)
                vector[i] *= scale;
            values[k] = Math.Abs(value.Imaginary) <= RealTolerance * value.Magnitude ? value.Real : value;
            weighted[k] = vector;
        }

        return new EigenSystem([.. values], [.. weighted]);
    }

    /// <summary>How alike two motions are, 0 to 1 (the modal assurance criterion with the mass as weight).</summary>
    public double Overlap(int index, EigenSystem other, int otherIndex)
    {
        var product = Complex.Zero;
        for (var i = 0; i < Coordinates; i++)
            product += Complex.Conjugate(Weighted[index][i]) * other.Weighted[otherIndex][i];
        return (product.Real * product.Real) + (product.Imaginary * product.Imaginary);
    }
}
