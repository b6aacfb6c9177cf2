using System.Collections.Immutable;
using RollRide.Metrics;

namespace RollRide.Studies;

/// <summary>The run of one layout over the road of one seed.</summary>
/// <param name="Seed">The seed.</param>
/// <param name="Metrics">Figures of the run and its phases.</param>
/// <param name="Ride">Figures of the ride, without their spectra.</param>
public sealed record SeededRun(int Seed, RunMetrics Metrics, RideMetrics Ride)
{
    /// <summary>The run over the same road mirrored, told as in a mirror; null where the sides of the vehicle are the same.</summary>
    public SeededRun? Mirrored { get; init; }

    /// <summary>The figures of the run, and of the mirrored one where that gives others.</summary>
    public IEnumerable<RunMetrics> BothWays => Mirrored is null ? [Metrics] : [Metrics, Mirrored.Metrics];
}

/// <summary>The runs of one layout over all seeds.</summary>
/// <param name="Layout">Name of the layout.</param>
/// <param name="Runs">One run per seed, seeds ascending.</param>
public sealed record SeededRuns(string Layout, ImmutableArray<SeededRun> Runs)
{
    /// <summary>Mean and interval of a figure over the seeds.</summary>
    /// <param name="figure">The figure; null where it is not defined.</param>
    /// <returns>Null where it is not defined in every run.</returns>
    public MeanInterval? Of(Func<SeededRun, double?> figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        var values = Runs.Select(figure).OfType<double>().Where(double.IsFinite).ToArray();
        return values.Length == Runs.Length ? MeanInterval.Of(values) : null;
    }

    /// <summary>The difference from another layout road by road, which tells more than their two means: every layout met the same roads.</summary>
    /// <param name="other">The layout that is subtracted.</param>
    /// <param name="figure">The figure, defined in every run of both.</param>
    public MeanInterval DifferenceFrom(SeededRuns other, Func<SeededRun, double?> figure)
    {
        ArgumentNullException.ThrowIfNull(other);
        return MeanInterval.Of([.. Runs.Zip(other.Runs, (own, others) => (figure(own) - figure(others))!.Value)]);
    }
}
