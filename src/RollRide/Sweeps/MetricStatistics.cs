using MathNet.Numerics.Statistics;

namespace RollRide.Sweeps;

/// <summary>How one metric is spread over the variants of a group.</summary>
/// <param name="Count">Variants in which it is defined.</param>
/// <param name="Mean">Mean.</param>
/// <param name="Deviation">Standard deviation, of a sample; NaN for fewer than two values.</param>
/// <param name="Minimum">Least value.</param>
/// <param name="Percentile5">Value below which 5 % lie.</param>
/// <param name="Median">Value below which half lie.</param>
/// <param name="Percentile95">Value below which 95 % lie.</param>
/// <param name="Maximum">Greatest value.</param>
public sealed record MetricStatistics(
    int Count, double Mean, double Deviation, double Minimum, double Percentile5, double Median, double Percentile95, double Maximum)
{
    /// <summary>Takes the statistics of some values.</summary>
    /// <param name="values">The values; NaN is passed over.</param>
    /// <remarks>Percentiles by linear interpolation between order statistics, type 7 of Hyndman and Fan 1996, as spreadsheets have it.</remarks>
    public static MetricStatistics Of(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Where(value => !double.IsNaN(value))];
        Array.Sort(sorted);
        double At(double share) => SortedArrayStatistics.QuantileCustom(sorted, share, QuantileDefinition.R7);
        return new MetricStatistics(
            sorted.Length, ArrayStatistics.Mean(sorted), ArrayStatistics.StandardDeviation(sorted), At(0), At(0.05), At(0.5), At(0.95), At(1));
    }
}
