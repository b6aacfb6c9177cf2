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
                .OrderBy(miss => miss.Share)
                .ToArray();
            yield return $"The target '{metric.Label} {target.Words}{Unit(metric)}' is missed by {Join(Ends(misses).Select(miss => Text($"{100 * miss.Share:F1} % {of} with '{miss.Name}'")))}.";
        }
    }

    private static IEnumerable<string> OnSpread(SweepAnalysis analysis)
    {
        foreach (var metric in analysis.Plan.Shown)
        {
            var spreads = analysis.Groups
                .Select(group => (group.Name, group.Metrics.First(finding => finding.Metric == metric).Statistics))
                .Where(spread => spread.Statistics.Count > 0)
                .OrderBy(spread => spread.Statistics.Median)
                .ToArray();
            if (spreads.Length == 0)
                continue;
            var ranges = Ends(spreads).Select(spread => analysis.Plan.Design.IsSampled
                ? $"{Number(metric, spread.Statistics.Percentile5)} to {Number(metric, spread.Statistics.Percentile95)}{Unit(metric)} with '{spread.Name}'"
                : $"{Number(metric, spread.Statistics.Minimum)} to {Number(metric, spread.Statistics.Maximum)}{Unit(metric)} with '{spread.Name}'");
            yield return $"{metric.Label}{(analysis.Plan.Design.IsSampled ? ", 90 % of all vehicles" : "")}: {Join(ranges)}.";
        }
    }

    private static IEnumerable<string> OnDrivers(SweepAnalysis analysis)
    {
        if (analysis.Plan.Parameters.Length < 2)
            yield break;
        for (var shown = 0; shown < analysis.Plan.Shown.Length; shown++)
        {
            var drivers = Enumerable.Range(0, analysis.Groups.Length)
                .Select(group => DriverOf(analysis, shown, group))
                .OfType<Driver>()
                .GroupBy(driver => driver.Parameter)
                .Select(same => $"by {same.Key} with {string.Join(", ", same.Select(driver => $"'{driver.Group}'"))} ({same.First().Strength}{(same.Count() > 1 ? " with the first" : "")})")
                .ToArray();
            if (drivers.Length > 0)
                yield return $"{analysis.Plan.Shown[shown].Label} is driven most {Join(drivers)}.";
        }
    }

    private static Driver? DriverOf(SweepAnalysis analysis, int shown, int place)
    {
        var metric = analysis.Plan.Shown[shown];
        var group = analysis.Groups[place];
        if (analysis.SwingsOf(shown, place / analysis.Plan.Layouts.Length, place % analysis.Plan.Layouts.Length) is [{ Extent: > 0 } swing, ..])
            return new Driver(swing.Parameter.Name, group.Name, $"{Number(metric, swing.Lowest)} at its lowest level, {Number(metric, swing.Highest)}{Unit(metric)} at its highest");
        var influences = group.Metrics.First(finding => finding.Metric == metric).Influences;
        if (influences.Where(influence => influence.FirstOrder is { } index && !double.IsNaN(index)).MaxBy(influence => influence.FirstOrder) is { } first)
            return new Driver(first.Parameter.Name, group.Name, Text($"{100 * first.FirstOrder:F0} % of the variance"));
        return influences.Where(influence => !double.IsNaN(influence.RankCorrelation)).MaxBy(influence => Math.Abs(influence.RankCorrelation)) is { } strongest
            ? new Driver(strongest.Parameter.Name, group.Name, Text($"rank correlation {strongest.RankCorrelation:F2}"))
            : null;
    }

    /// <summary>All of a few, or the two ends of many: the files hold the rest.</summary>
    private static T[] Ends<T>(T[] ordered)
    {
        const int few = 4;
        return ordered.Length <= few ? ordered : [ordered[0], ordered[^1]];
    }

    private static string Unit(SweepMetric metric) => metric.Unit.Length == 0 ? "" : " " + metric.Unit;

    private static string Number(SweepMetric metric, double value) => value.ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture);

    private static string Join(IEnumerable<string> parts) => string.Join("; ", parts);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private sealed record Driver(string Parameter, string Group, string Strength);
}
