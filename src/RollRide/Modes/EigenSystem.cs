using System.Numerics;
using MathNet.Numerics.Providers.LinearAlgebra;
using RollRide.Dynamics;

namespace RollRide.Modes;

/// <summary>All eigenvalues of a linear motion at one damper coefficient, with the displacements that belong to each.</summary>
internal sealed class EigenSystem
{
    // Eigenvalue solvers return a double real root as a pair with an imaginary part near the square root of rounding.
    private const double RealTolerance = 1e-7;

    // Without damping the real part is rounding alone, some 1e-16 of the largest eigenvalue.
    private const double UndampedTolerance = 1e-12;

    // Left and right cancel to rounding where a symmetric vehicle has no coupling between heave and roll.
    private const double CouplingTolerance = 1e-13;

    // Relative distance of two eigenvalues beyond which their modes cannot be mistaken for each other from one setting to the next.
    private const double FarApart = 0.5;

    private EigenSystem(Complex[] values, Complex[][] weighted)
    {
        Values = values;
        Weighted = weighted;
        IsWellSeparated = AreWellSeparated();
    }

    /// <summary>The eigenvalues; complex ones stand in conjugate pairs.</summary>
    public Complex[] Values { get; }

    /// <summary>
    /// For each eigenvalue the displacements times the root of their mass (<see cref="ILinearMotion.Weigh"/>), of unit length: the squares are shares of kinetic energy.
    /// </summary>
    public Complex[][] Weighted { get; }

    /// <summary>Whether every motion oscillates, and modes that share a coordinate have natural frequencies far apart.</summary>
    public bool IsWellSeparated { get; }

    /// <summary>
    /// Solves the eigenproblem. States that do not act on each other, as heave and roll of a symmetric vehicle, are solved
    /// apart: their motions stay pure even where their eigenvalues are the same.
    /// </summary>
    /// <param name="linear">What swings.</param>
    /// <param name="coefficient">The damper coefficient, N·s/m; 0 or more.</param>
    public static EigenSystem Solve(ILinearMotion linear, double coefficient)
    {
        var matrix = linear.Motion(coefficient);
        var (count, a) = (matrix.RowCount, matrix.AsColumnMajorArray());
        for (var stroke = 2 * linear.Coordinates; stroke < count; stroke += 2)
            SeparateStrokes(a, count, stroke);
        var values = new Complex[count];
        var weighted = new Complex[count][];
        var found = 0;
        var groups = Groups(a, count);
        Span<int> states = stackalloc int[count];
        for (var first = 0; first < count; first++)
        {
            if (Array.IndexOf(groups, groups[first]) < first)
                continue;
            var size = 0;
            for (var i = first; i < count; i++)
            {
                if (groups[i] == groups[first])
                    states[size++] = i;
            }

            var block = states[..size];
            var part = new double[size * size];
            for (var j = 0; j < size; j++)
            {
                for (var i = 0; i < size; i++)
                    part[(j * size) + i] = a[(block[j] * count) + block[i]];
            }

            // The provider is called directly: the matrix classes around it would double the cost.
            var (vectors, eigenvalues) = (new double[size * size], new Complex[size]);
            LinearAlgebraControl.Provider.EigenDecomp(false, size, part, vectors, eigenvalues, new double[size * size]);
            for (var k = 0; k < size; k++)
            {
                values[found] = WithoutRounding(eigenvalues[k]);
                weighted[found++] = Weigh(linear, block, eigenvalues[k].Imaginary, vectors, k);
            }
        }

        return new EigenSystem(values, weighted);
    }

    /// <summary>Modal assurance criterion of two motions, weighted with the mass, 0 to 1: 1 for the same shape, 0 for orthogonal ones.</summary>
    /// <param name="index">Index of a motion here.</param>
    /// <param name="other">The other system.</param>
    /// <param name="otherIndex">Index of a motion there.</param>
    public double AssuranceCriterion(int index, EigenSystem other, int otherIndex)
    {
        var product = Complex.Zero;
        for (var i = 0; i < Weighted[index].Length; i++)
            product += Complex.Conjugate(Weighted[index][i]) * other.Weighted[otherIndex][i];
        return MagnitudeSquared(product);
    }

    private bool AreWellSeparated()
    {
        Span<double> sizes = stackalloc double[Values.Length];
        for (var i = 0; i < Values.Length; i++)
        {
            if (Values[i].Imaginary == 0)
                return false;
            sizes[i] = Values[i].Magnitude;
            for (var j = 0; j < i; j++)
            {
                if (Values[j] != Complex.Conjugate(Values[i]) && Math.Abs(sizes[i] - sizes[j]) < FarApart * (sizes[i] + sizes[j]) && AssuranceCriterion(i, this, j) > 0)
                    return false;
            }
        }

        return true;
    }

    /// <summary>
    /// Replaces the strokes of the left and the right damper by their mean and half their difference: heave works the one, roll the
    /// other.
    /// </summary>
    private static void SeparateStrokes(double[] a, int count, int first)
    {
        var left = a.AsSpan(first * count, count);
        var right = a.AsSpan((first + 1) * count, count);
        for (var i = 0; i < count; i++)
            (left[i], right[i]) = (left[i] + right[i], left[i] - right[i]);
        for (var j = 0; j < a.Length; j += count)
            (a[j + first], a[j + first + 1]) = ((a[j + first] + a[j + first + 1]) / 2, (a[j + first] - a[j + first + 1]) / 2);
    }

    /// <summary>For each state the group of states that act on each other.</summary>
    private static int[] Groups(double[] a, int count)
    {
        var groups = new int[count];
        for (var i = 0; i < count; i++)
            groups[i] = i;
        for (var i = 0; i < count; i++)
        {
            var largest = 0.0;
            for (var j = 0; j < count; j++)
                largest = Math.Max(largest, Math.Abs(a[(j * count) + i]));
            var threshold = CouplingTolerance * largest;
            for (var j = 0; j < count; j++)
            {
                if (Math.Abs(a[(j * count) + i]) <= threshold || groups[i] == groups[j])
                    continue;
                var (kept, merged) = (groups[i], groups[j]);
                for (var k = 0; k < count; k++)
                {
                    if (groups[k] == merged)
                        groups[k] = kept;
                }
            }
        }

        return groups;
    }

    private static Complex WithoutRounding(Complex value) =>
        Math.Abs(value.Imaginary) <= RealTolerance * value.Magnitude ? value.Real
        : Math.Abs(value.Real) <= UndampedTolerance * value.Magnitude ? new Complex(0, value.Imaginary)
        : value;

    /// <summary>The displacements of eigenvalue k of a block, times the root of their mass, of unit length.</summary>
    private static Complex[] Weigh(ILinearMotion linear, ReadOnlySpan<int> block, double imaginary, double[] vectors, int k)
    {
        // Of a complex pair, columns k and k + 1 hold the real and imaginary part of the first one's vector.
        var (re, im, sign) = imaginary == 0 ? (k, k, 0) : imaginary > 0 ? (k, k + 1, 1) : (k - 1, k, -1);
        var coordinates = linear.Coordinates;
        var vector = new Complex[coordinates];
        for (var i = 0; i < block.Length; i++)
        {
            if (block[i] < coordinates)
                vector[block[i]] = new Complex(vectors[(re * block.Length) + i], sign * vectors[(im * block.Length) + i]);
        }

        linear.Weigh(vector);
        var square = 0.0;
        foreach (var displacement in vector)
            square += MagnitudeSquared(displacement);

        // A top mount's own relaxation moves the stroke alone; it keeps a zero vector and overlaps with nothing.
        var scale = square > 0 ? 1 / Math.Sqrt(square) : 0;
        for (var i = 0; i < coordinates; i++)
            vector[i] *= scale;
        return vector;
    }

    /// <summary>The upper eigenvalue of a conjugate pair, or the slower of two real ones, with its index, and the other one.</summary>
    /// <param name="pair">The two, as indices.</param>
    public (int First, Complex Value, Complex Partner) Ordered((int First, int Second) pair)
    {
        var (a, b) = (Values[pair.First], Values[pair.Second]);
        return a.Imaginary < 0 || (a.Imaginary == 0 && a.Real < b.Real) ? (pair.Second, b, a) : (pair.First, a, b);
    }

    /// <summary>The eigenvalue nearest to the conjugate of another one.</summary>
    /// <param name="index">The other one.</param>
    public int ConjugateOf(int index)
    {
        var (nearest, least) = (-1, double.PositiveInfinity);
        for (var k = 0; k < Values.Length; k++)
        {
            var distance = Magnitude(Values[k] - Complex.Conjugate(Values[index]));
            if (k != index && distance < least)
                (nearest, least) = (k, distance);
        }

        return nearest;
    }

    /// <summary>The magnitude, faster than <see cref="Complex.Magnitude"/>, which guards against overflow.</summary>
    public static double Magnitude(Complex z) => Math.Sqrt(MagnitudeSquared(z));

    /// <summary>The square of the magnitude.</summary>
    public static double MagnitudeSquared(Complex z) => (z.Real * z.Real) + (z.Imaginary * z.Imaginary);
}
