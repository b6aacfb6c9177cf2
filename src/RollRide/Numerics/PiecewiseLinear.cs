using System.Collections.Immutable;
using System.Globalization;

namespace RollRide.Numerics;

/// <summary>
/// A continuous function through points joined by straight lines; beyond the ends the end slopes are extended.
/// Immutable and thread-safe.
/// </summary>
public sealed class PiecewiseLinear : ISmoothFunction
{
    // Segment k is slope[k]·x + offset[k]; it holds between knot[k − 1] and knot[k], the inner points.
    private readonly double[] _knot;
    private readonly double[] _slope;
    private readonly double[] _offset;

    private PiecewiseLinear(ImmutableArray<double> x, ImmutableArray<double> y)
    {
        X = x;
        Y = y;
        var segments = x.Length - 1;
        _slope = new double[segments];
        _offset = new double[segments];
        for (var k = 0; k < segments; k++)
        {
            _slope[k] = (y[k + 1] - y[k]) / (x[k + 1] - x[k]);

            // A segment that starts or ends at the origin passes through it exactly, so that no force appears at rest.
            _offset[k] = (x[k] == 0 && y[k] == 0) || (x[k + 1] == 0 && y[k + 1] == 0) ? 0 : y[k] - (_slope[k] * x[k]);
        }

        _knot = x.AsSpan()[1..^1].ToArray();
    }

    /// <summary>The abscissae of the points, strictly ascending.</summary>
    public ImmutableArray<double> X { get; }

    /// <summary>The ordinates of the points.</summary>
    public ImmutableArray<double> Y { get; }

    /// <summary>Makes the function through the given points.</summary>
    /// <param name="x">Abscissae, strictly ascending and finite; at least two.</param>
    /// <param name="y">Ordinates, finite; as many.</param>
    /// <exception cref="ArgumentException">Too few points, unequal counts, or a point that is not finite or not ascending.</exception>
    public static PiecewiseLinear Through(IReadOnlyList<double> x, IReadOnlyList<double> y)
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        if (x.Count != y.Count)
            throw new ArgumentException($"There are {x.Count} abscissae but {y.Count} ordinates.", nameof(y));
        if (x.Count < 2)
            throw new ArgumentException("At least two points are needed.", nameof(x));
        for (var i = 0; i < x.Count; i++)
        {
            if (!double.IsFinite(x[i]) || !double.IsFinite(y[i]))
                throw new ArgumentException($"Point {i + 1} is not finite.", nameof(x));
            if (i > 0 && x[i] <= x[i - 1])
            {
                throw new ArgumentException(
                    string.Create(CultureInfo.InvariantCulture, $"Point {i + 1} ({x[i]}) does not come after point {i} ({x[i - 1]})."),
                    nameof(x));
            }
        }

        return new PiecewiseLinear([.. x], [.. y]);
    }

    /// <summary>The value at <paramref name="x"/>. Allocates nothing.</summary>
    public double Value(double x)
    {
        var k = Segment(x);
        return (_slope[k] * x) + _offset[k];
    }

    /// <summary>The slope at <paramref name="x"/>; at a point where it jumps, the mean of both sides.</summary>
    public double Slope(double x)
    {
        var k = Segment(x);
        return k < _knot.Length && x == _knot[k] ? 0.5 * (_slope[k] + _slope[k + 1]) : _slope[k];
    }

    /// <summary>The straight pieces by themselves.</summary>
    internal StraightPieces Pieces => field ??= StraightPieces.Of(_knot, _slope, _offset);

    (double Value, double First) ISmoothFunction.At(double x) => (Value(x), Slope(x));

    double ISmoothFunction.SecondAt(double x) => 0;

    /// <summary>The index of the straight segment in which <paramref name="x"/> lies, 0 for the first.</summary>
    private int Segment(double x)
    {
        // Tables have a dozen points: counting without a branch beats a binary search.
        var k = 0;
        foreach (var knot in _knot)
            k += x > knot ? 1 : 0;
        return k;
    }
}
