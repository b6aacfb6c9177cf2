using System.Collections.Immutable;
using MathNet.Numerics.Statistics;
using RollRide.Numerics;

namespace RollRide.Sweeps;

/// <summary>Measures what drives a metric in the points of a sampled or fully combined design.</summary>
/// <remarks>Thread-safe. The ranks of the inputs are found once for all metrics.</remarks>
internal sealed class InfluenceMeter
{
    private readonly SweepPlan _plan;
    private readonly int[] _points;
    private readonly double[][] _inputs;
    private readonly double[][] _ranks;

    public InfluenceMeter(SweepPlan plan)
    {
        _plan = plan;
        // One at a time there is no sample to correlate: the tornado chart tells what drives a metric.
        _points = plan.Design is OneAtATime ? [] : [.. Enumerable.Range(0, (int)plan.Design.Count).Where(i => plan.Design.CountsInStatistics(i))];
        _inputs = [.. plan.Parameters.Select(_ => new double[_points.Length])];
        var values = new double[plan.Parameters.Length];
        for (var i = 0; i < _points.Length; i++)
        {
            plan.Design.Point(_points[i], values);
            for (var p = 0; p < values.Length; p++)
                _inputs[p][i] = values[p];
        }

        _ranks = [.. _inputs.Select(Ranks)];
    }

    /// <summary>Measures the influence of every parameter.</summary>
    /// <param name="values">The metric in every point of the design; NaN where it is not defined.</param>
    public ImmutableArray<InputInfluence> Measure(double[] values)
    {
        if (_points.Length == 0)
            return [];
        double[] own = [.. _points.Select(i => values[i])];
        var correlations = Correlations(own);
        var points = own.Count(value => !double.IsNaN(value));
        var blockLength = (_plan.Design as SensitivitySamples)?.BlockLength;
        var whole = blockLength is { } block ? WholeSamples(values, block) : null;
        var indices = whole is { Length: >= 2 } ? Indices(values, whole, blockLength!.Value) : null;
        // Without `?.`: the tool for mutation tests makes code of it here that does not compile.
        return [.. _plan.Parameters.Select((parameter, p) => new InputInfluence(
            parameter, correlations[p], points, indices is null ? null : indices.First[p], indices is null ? null : indices.Total[p], whole?.Length))];
    }

    private double[] Correlations(double[] values)
    {
        int[] defined = [.. Enumerable.Range(0, values.Length).Where(i => !double.IsNaN(values[i]))];
        if (defined.Length < 2)
            return [.. _inputs.Select(_ => double.NaN)];
        var ranks = Ranks([.. defined.Select(i => values[i])]);
        return [.. _inputs.Select((input, p) => Correlation.Pearson(
            defined.Length == values.Length ? _ranks[p] : Ranks([.. defined.Select(i => input[i])]), ranks))];
    }

    /// <summary>The samples that count: those of which all runs that belong together gave a value.</summary>
    private static int[] WholeSamples(double[] values, int blockLength) =>
        [.. Enumerable.Range(0, values.Length / blockLength).Where(s => !values.AsSpan(s * blockLength, blockLength).ContainsAnyExceptInRange(double.MinValue, double.MaxValue))];

    private static VarianceIndices Indices(double[] values, int[] samples, int blockLength)
    {
        double[] At(int place) => [.. samples.Select(sample => values[(sample * blockLength) + place])];
        return VarianceIndices.Estimate(At(0), At(1), [.. Enumerable.Range(2, blockLength - 2).Select(At)]);
    }

    /// <summary>Ranks, equal values sharing the mean of theirs; the values stay as they are.</summary>
    private static double[] Ranks(double[] values) => ArrayStatistics.RanksInplace([.. values], RankDefinition.Average);
}
