using RollRide.Metrics;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>Roll that has not settled when the corner from rest is no longer followed, in words.</summary>
public static class SettlingWords
{
    /// <summary>A settling time that is longer than the corner was followed, as a number in a table: <c>&gt; 10.4</c>.</summary>
    /// <param name="followed">How long it was followed, s.</param>
    public static string Beyond(double followed) => Invariant($"> {followed:F1}");

    /// <summary>What a table shows of a figure of the corner from rest in place of its number: of the settling time of roll that has not settled, that it takes longer than it was followed; null for all else.</summary>
    /// <param name="metric">The figure.</param>
    /// <param name="study">The case.</param>
    /// <param name="run">The run.</param>
    public static string? InPlaceOf(RollMetric metric, StudyCase study, RunMetrics run)
    {
        ArgumentNullException.ThrowIfNull(metric);
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(run);
        return metric == RollMetric.RollSettlingTime && run.RollResponse is { IsUnsettled: true } ? Beyond(study.Manoeuvre.Cornering.Alone.Duration) : null;
    }

    /// <summary>That it has not settled, after the subject of the sentence.</summary>
    /// <param name="study">The case.</param>
    internal static string NotSettled(StudyCase study) =>
        Invariant($"not settled to within 5 % of the steady angle in the {study.Manoeuvre.Cornering.Alone.Duration:F1} s for which the corner is followed");
}
