using System.Collections.Immutable;

namespace RollRide.Numerics;

/// <summary>Which share of a result's variance each input makes (Sobol indices).</summary>
/// <param name="First">First order: the share that would vanish if this input alone were fixed, by input.</param>
/// <param name="Total">Total: the share with all its interactions with other inputs, by input.</param>
public sealed record VarianceIndices(ImmutableArray<double> First, ImmutableArray<double> Total)
{
    /// <summary>Estimates the indices from two independent samples A and B and their mixtures.</summary>
    /// <param name="a">Results of sample A.</param>
    /// <param name="b">Results of sample B.</param>
    /// <param name="mixed">For each input the results of A with that input taken from B.</param>
    /// <remarks>
    /// Sample plan after Saltelli et al., Computer Physics Communications 181, 2010; estimators after Jansen, Computer Physics
    /// Communications 117, 1999: <c>S_i = 1 − Σ(f_B − f_ABi)²/(2NV)</c>, <c>T_i = Σ(f_A − f_ABi)²/(2NV)</c> (from memory). An
    /// estimate of a small index may come out slightly negative. Without any variance all are NaN.
    /// </remarks>
    public static VarianceIndices Estimate(ReadOnlySpan<double> a, ReadOnlySpan<double> b, IReadOnlyList<double[]> mixed)
    {
        ArgumentNullException.ThrowIfNull(mixed);
        var count = a.Length;
        if (b.Length != count || count < 2 || mixed.Any(sample => sample.Length != count))
            throw new ArgumentException("All samples must have the same count of results, at least 2.", nameof(mixed));
        double[] both = [.. a, .. b];
        // Of equal values the variance is not zero but what rounding leaves.
        var variance = both.Max() > both.Min() ? MathNet.Numerics.Statistics.ArrayStatistics.PopulationVariance(both) : 0;
        var first = ImmutableArray.CreateBuilder<double>(mixed.Count);
        var total = ImmutableArray.CreateBuilder<double>(mixed.Count);
        foreach (var sample in mixed)
        {
            first.Add(variance > 0 ? 1 - (MeanSquare(b, sample) / (2 * variance)) : double.NaN);
            total.Add(variance > 0 ? MeanSquare(a, sample) / (2 * variance) : double.NaN);
        }

        return new VarianceIndices(first.ToImmutable(), total.ToImmutable());
    }

    private static double MeanSquare(ReadOnlySpan<double> x, double[] y)
    {
        var sum = 0.0;
        for (var i = 0; i < x.Length; i++)
            sum += (x[i] - y[i]) * (x[i] - y[i]);
        return sum / x.Length;
    }
}
