using MathNet.Numerics.Distributions;

namespace RollRide.Studies;

/// <summary>A mean and the half-width of the 95 % confidence interval about it.</summary>
/// <param name="Mean">Mean.</param>
/// <param name="HalfWidth">Half the interval: the true mean lies within mean ± this in 95 of 100 such studies.</param>
public readonly record struct MeanInterval(double Mean, double HalfWidth)
{
    /// <summary>Whether 0 lies outside the interval: of a difference, that it is more than chance.</summary>
    public bool IsMoreThanChance => Math.Abs(Mean) > HalfWidth;

    /// <summary>About how many runs would show that the mean is more than chance, if it stays what it is: the interval narrows with <c>1/√n</c>.</summary>
    /// <param name="runs">How many runs the interval rests on.</param>
    /// <returns>Infinite for a mean of 0.</returns>
    public double RunsToTell(int runs) => Math.Ceiling(runs * HalfWidth * HalfWidth / (Mean * Mean));

    /// <summary>Of independent values, by Student's t-distribution: <c>t s/√n</c>.</summary>
    /// <param name="values">Two or more.</param>
    public static MeanInterval Of(IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Count < 2) throw new ArgumentException(FormattableString.Invariant($"An interval needs two values or more; there are {values.Count}."), nameof(values));
        var mean = values.Average();
        var deviation = Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / (values.Count - 1));
        var t = StudentT.InvCDF(0, 1, values.Count - 1, 0.975);
        return new MeanInterval(mean, t * deviation / Math.Sqrt(values.Count));
    }
}
