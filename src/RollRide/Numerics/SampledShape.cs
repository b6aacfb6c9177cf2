using MathNet.Numerics.Interpolation;

namespace RollRide.Numerics;

/// <summary>
/// A smooth curve through samples: monotone piecewise cubic (F. N. Fritsch, R. E. Carlson, Monotone piecewise cubic
/// interpolation, SIAM J. Numer. Anal. 17, 1980), so it does not overshoot the samples; a straight line through two.
/// Immutable. It is meant for the range of its samples; beyond them the end piece is extended.
/// </summary>
public sealed class SampledShape : ISignalShape
{
    private readonly IInterpolation _curve;

    /// <summary>Makes the curve from a copy of the samples.</summary>
    /// <param name="positions">Positions counted from the start of the piece (s or m): two or more, finite, strictly ascending.</param>
    /// <param name="values">The value at each position; finite, as many as positions.</param>
    /// <exception cref="ArgumentException">The samples are too few, not finite, not ascending, or not as many.</exception>
    public SampledShape(IReadOnlyList<double> positions, IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(positions);
        ArgumentNullException.ThrowIfNull(values);
        if (positions.Count < 2)
        {
            throw new ArgumentException($"A sampled curve needs 2 samples or more; there are {positions.Count}.", nameof(positions));
        }

        if (values.Count != positions.Count)
        {
            throw new ArgumentException($"There are {positions.Count} positions but {values.Count} values.", nameof(values));
        }

        for (int i = 0; i < positions.Count; i++)
        {
            if (!double.IsFinite(positions[i])) throw new ArgumentException($"Position {i + 1} is not a finite number.", nameof(positions));
            if (!double.IsFinite(values[i])) throw new ArgumentException($"Value {i + 1} is not a finite number.", nameof(values));
            if (i > 0 && positions[i] <= positions[i - 1])
            {
                throw new ArgumentException(
                    $"Positions must ascend; number {i + 1}, {positions[i]:R}, follows {positions[i - 1]:R}.", nameof(positions));
            }
        }

        double[] x = [.. positions], y = [.. values];
        _curve = x.Length == 2 ? LinearSpline.InterpolateSorted(x, y) : CubicSpline.InterpolatePchipSorted(x, y);
    }

    /// <inheritdoc/>
    public double Value(double u) => _curve.Interpolate(u);

    /// <inheritdoc/>
    public double Rate(double u) => _curve.Differentiate(u);
}
