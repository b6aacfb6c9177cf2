using System.Numerics;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using MathNet.Numerics.LinearAlgebra.Factorization;
using RollRide.Dynamics;

namespace RollRide.Modes;

/// <summary>All eigenvalues of a linearised half-car at one damper coefficient, with the displacements that belong to each.</summary>
internal sealed class EigenSystem
{
    private const int Coordinates = HalfCarState.Rates;

    // Eigenvalue solvers return a double real root as a pair with an imaginary part near the square root of rounding.
    private const double RealTolerance = 1e-7;

    // Without damping the real part is rounding alone, some 1e-16 of the largest eigenvalue.
    private const double UndampedTolerance = 1e-12;

    // Left and right cancel to rounding where a symmetric vehicle has no coupling between heave and roll.
    private const double CouplingTolerance = 1e-13;

    // Relative distance of two modes that no change from one setting to the next bridges, see SwingsFarApart.
    private const double FarApart = 0.5;

    private EigenSystem(Complex[] values, Complex[][] weighted)
    {
        Values = values;
        Weighted = weighted;
        SwingsFarApart = FindFarApart();
    }

    /// <summary>The eigenvalues; complex ones stand in conjugate pairs.</summary>
    public Complex[] Values { get; }

    /// <summary>
    /// For each eigenvalue the displacements times the root of their mass, of unit length: the squares are shares of kinetic energy.
    /// </summary>
    public Complex[][] Weighted { get; }

    /// <summary>Whether every motion swings, at a size of its eigenvalue far from that of all others that share a coordinate with it.</summary>
    public bool SwingsFarApart { get; }

    /// <summary>
    /// Solves the eigenproblem. States that do not act on each other, as heave and roll of a symmetric vehicle, are solved
    /// apart: their motions stay pure even where their eigenvalues are the same.
    /// </summary>
    public static EigenSystem Solve(LinearHalfCar linear, double coefficient)
    {
        // A damper without a coefficient leaves its top mount nothing to carry.
        var a = coefficient == 0 ? linear.WithRigidMounts().StateMatrix(0) : linear.StateMatrix(coefficient);
        if (a.RowCount > HalfCarState.Count)
            SeparateStrokes(a);
        var values = new Complex[a.RowCount];
        var weighted = new Complex[a.RowCount][];
        var count = 0;
        foreach (var block in Blocks(a))
        {
            var part = new DenseMatrix(block.Length, block.Length);
            for (var i = 0; i < block.Length; i++)
            {
                for (var j = 0; j < block.Length; j++)
                    part[i, j] = a[block[i], block[j]];
            }

            var evd = part.Evd(Symmetricity.Asymmetric);
            for (var k = 0; k < block.Length; k++)
            {
                values[count] = WithoutRounding(evd.EigenValues[k]);
                weighted[count++] = Weigh(linear, block, evd, k);
            }
        }

        return new EigenSystem(values, weighted);
    }

    /// <summary>How alike two motions are, 0 to 1 (the modal assurance criterion with the mass as weight).</summary>
    public double Overlap(int index, EigenSystem other, int otherIndex)
    {
        var product = Complex.Zero;
        for (var i = 0; i < Coordinates; i++)
            product += Complex.Conjugate(Weighted[index][i]) * other.Weighted[otherIndex][i];
        return (product.Real * product.Real) + (product.Imaginary * product.Imaginary);
    }

    private bool FindFarApart()
    {
        for (var i = 0; i < Values.Length; i++)
        {
            var own = Values[i].Magnitude;
            if (Values[i].Imaginary == 0)
                return false;
            for (var j = 0; j < i; j++)
            {
                var other = Values[j].Magnitude;
                if (Values[j] != Complex.Conjugate(Values[i]) && Math.Abs(own - other) < FarApart * (own + other) && Overlap(i, this, j) > 0)
                    return false;
            }
        }

        return true;
    }

    /// <summary>
    /// Replaces the strokes of the left and the right damper by their mean and half their difference: heave works the one, roll the
    /// other.
    /// </summary>
    private static void SeparateStrokes(Matrix<double> a)
    {
        const int Left = HalfCarState.LeftStroke;
        const int Right = Left + 1;
        for (var i = 0; i < a.RowCount; i++)
            (a[i, Left], a[i, Right]) = (a[i, Left] + a[i, Right], a[i, Left] - a[i, Right]);
        for (var j = 0; j < a.ColumnCount; j++)
            (a[Left, j], a[Right, j]) = ((a[Left, j] + a[Right, j]) / 2, (a[Left, j] - a[Right, j]) / 2);
    }

    /// <summary>Groups the states that act on each other.</summary>
    private static IEnumerable<int[]> Blocks(Matrix<double> a)
    {
        var group = new int[a.RowCount];
        for (var i = 0; i < group.Length; i++)
            group[i] = i;
        for (var i = 0; i < group.Length; i++)
        {
            var largest = 0.0;
            for (var j = 0; j < group.Length; j++)
                largest = Math.Max(largest, Math.Abs(a[i, j]));
            var threshold = CouplingTolerance * largest;
            for (var j = 0; j < group.Length; j++)
            {
                if (Math.Abs(a[i, j]) <= threshold || group[i] == group[j])
                    continue;
                var (kept, merged) = (group[i], group[j]);
                for (var k = 0; k < group.Length; k++)
                {
                    if (group[k] == merged)
                        group[k] = kept;
                }
            }
        }

        for (var first = 0; first < group.Length; first++)
        {
            if (Array.IndexOf(group, group[first]) < first)
                continue;
            var states = new List<int>();
            for (var i = first; i < group.Length; i++)
            {
                if (group[i] == group[first])
                    states.Add(i);
            }

            yield return states.ToArray();
        }
    }

    private static Complex WithoutRounding(Complex value) =>
        Math.Abs(value.Imaginary) <= RealTolerance * value.Magnitude ? value.Real
        : Math.Abs(value.Real) <= UndampedTolerance * value.Magnitude ? new Complex(0, value.Imaginary)
        : value;

    /// <summary>The displacements of eigenvalue k of a block, times the root of their mass, of unit length.</summary>
    private static Complex[] Weigh(LinearHalfCar linear, int[] block, Evd<double> evd, int k)
    {
        // Of a complex pair, columns k and k + 1 hold the real and imaginary part of the first one's vector.
        var imaginary = evd.EigenValues[k].Imaginary;
        var (re, im, sign) = imaginary == 0 ? (k, k, 0) : imaginary > 0 ? (k, k + 1, 1) : (k - 1, k, -1);
        var vector = new Complex[Coordinates];
        var square = 0.0;
        for (var i = 0; i < block.Length; i++)
        {
            if (block[i] >= Coordinates)
                continue;
            var value = new Complex(evd.EigenVectors[i, re], sign * evd.EigenVectors[i, im]) * Math.Sqrt(linear.Mass[block[i], block[i]]);
            square += (value.Real * value.Real) + (value.Imaginary * value.Imaginary);
            vector[block[i]] = value;
        }

        // A top mount's own relaxation moves the stroke alone; it keeps a zero vector and overlaps with nothing.
        var scale = square > 0 ? 1 / Math.Sqrt(square) : 0;
        for (var i = 0; i < Coordinates; i++)
            vector[i] *= scale;
        return vector;
    }
}
