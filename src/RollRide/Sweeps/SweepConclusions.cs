using System.Globalization;

namespace RollRide.Sweeps;

/// <summary>What a practitioner concludes from a sweep, in words, from its numbers.</summary>
public static class SweepConclusions
{
    /// <summary>Draws the conclusions.</summary>
    /// <param name="analysis">What the sweep found.</param>
    /// <returns>One sentence an item.</returns>
    public static IReadOnlyList<string> Of(SweepAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        return [.. OnFailures(analysis), .. OnWheelLift(analysis), .. OnTargets(analysis), .. OnSpread(analysis), .. OnDrivers(analysis)];
    }

    private static IEnumerable<string> OnFailures(SweepAnalysis analysis)
    {
        var failed = analysis.Groups.Where(group => group.Failed > 0).ToArray();
        if (failed.Length > 0)
            yield return $"Runs failed: {Join(failed.Select(group => Text($"{group.Failed} of {group.Variants} with '{group.Name}'")))}; the column failure of the table says why. They count as missing every target.";
    }

    private static IEnumerable<string> OnWheelLift(SweepAnalysis analysis)
    {
        var lifting = analysis.Groups.Where(group => group.Metrics.Single(finding => finding.Metric.Key == "liftOffTime_s").Statistics is { Count: > 0, Maximum: > 0 }).ToArray();
        if (lifting.Length > 0)
            yield return $"A WHEEL LIFTS in some variants with {Join(lifting.Select(group => $"'{group.Name}'"))}: rollover risk.";
    }

    private static IEnumerable<string> OnTargets(SweepAnalysis analysis)
    {
        var of = analysis.Plan.Design.IsSampled ? "of all vehicles" : "of the variants";
        foreach (var target in analysis.Plan.Targets)
        {
            var metric = analysis.Plan.Metrics.First(metric => metric.Key == target.Metric);
            var misses = analysis.Groups
                .Select(group => (group.Name, group.Metrics.First(finding => finding.Metric == metric).Misses.First(miss => miss.Target == target).Share))
                .ToArray();
            yield return $"The target '{metric.Label} {target.Words}{Unit(metric)}' is missed by {Join(misses.Select(miss => Text($"{100 * miss.Share:F1} % {of} with '{miss.Name}'")))}.";
        }
    }

    private static IEnumerable<string> OnSpread(SweepAnalysis analysis)
    {
        foreach (var metric in analysis.Plan.Shown)
        {
            var spreads = analysis.Groups
                .Select(group => (group.Name, group.Metrics.First(finding => finding.Metric == metric).Statistics))
                .Where(spread => spread.Statistics.Count > 0)
                .Select(spread => analysis.Plan.Design.IsSampled
                    ? $"{Number(metric, spread.Statistics.Percentile5)} to {Number(metric, spread.Statistics.Percentile95)}{Unit(metric)} with '{spread.Name}'"
                    : $"{Number(metric, spread.Statistics.Minimum)} to {Number(metric, spread.Statistics.Maximum)}{Unit(metric)} with '{spread.Name}'")
                .ToArray();
            if (spreads.Length > 0)
                yield return $"{metric.Label}{(analysis.Plan.Design.IsSampled ? ", 90 % of all vehicles" : "")}: {Join(spreads)}.";
        }
    }

    private static IEnumerable<string> OnDrivers(SweepAnalysis analysis)
    {
        if (analysis.Plan.Parameters.Length < 2)
            yield break;
        for (var shown = 0; shown < analysis.Plan.Shown.Length; shown++)
        {
            var metric = analysis.Plan.Shown[shown];
            var drivers = Enumerable.Range(0, analysis.Groups.Length)
                .Select(g => DriverOf(analysis, shown, g))
                .OfType<string>()
                .ToArray();
            if (drivers.Length > 0)
                yield return $"{metric.Label} is driven most {Join(drivers)}.";
        }
    }

    private static string? DriverOf(SweepAnalysis analysis, int shown, int group)
    {
        var metric = analysis.Plan.Shown[shown];
        var name = analysis.Groups[group].Name;
        var (state, layout) = (group / analysis.Plan.Layouts.Length, group % analysis.Plan.Layouts.Length);
        if (analysis.SwingsOf(shown, state, layout) is [{ Extent: > 0 } swing, ..])
            return $"with '{name}' by {swing.Parameter.Name}, {Number(metric, swing.Lowest)} to {Number(metric, swing.Highest)}{Unit(metric)} from its lowest to its highest level";
        var influences = analysis.Groups[group].Metrics.First(finding => finding.Metric == metric).Influences;
        if (influences.Where(influence => influence.FirstOrder is { } index && !double.IsNaN(index)).MaxBy(influence => influence.FirstOrder) is { } first)
            return Text($"with '{name}' by {first.Parameter.Name}, which makes {100 * first.FirstOrder:F0} % of its variance");
        return influences.Where(influence => !double.IsNaN(influence.RankCorrelation)).MaxBy(influence => Math.Abs(influence.RankCorrelation)) is { } strongest
            ? Text($"with '{name}' by {strongest.Parameter.Name}, rank correlation {strongest.RankCorrelation:F2}")
            : null;
    }

    private static string Unit(SweepMetric metric) => metric.Unit.Length == 0 ? "" : " " + metric.Unit;

    private static string Number(SweepMetric metric, double value) => value.ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture);

    private static string Join(IEnumerable<string> parts) => string.Join("; ", parts);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
