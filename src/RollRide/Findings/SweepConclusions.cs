using System.Globalization;
using MathNet.Numerics.Distributions;
using RollRide.Metrics;
using RollRide.Sweeps;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What a practitioner concludes from a sweep, in words, from its numbers.</summary>
public static class SweepConclusions
{
    /// <summary>Draws the conclusions.</summary>
    /// <param name="analysis">What the sweep found.</param>
    /// <returns>One sentence per item.</returns>
    public static IReadOnlyList<string> Of(SweepAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        return [.. OnFailures(analysis), .. OnWheelLift(analysis), .. OnTargets(analysis), .. OnSpread(analysis), .. OnRange(analysis), .. OnDrivers(analysis), .. OnSamplesLeftOut(analysis)];
    }

    private static IEnumerable<string> OnFailures(SweepAnalysis analysis)
    {
        var failed = analysis.Groups.Where(group => group.Failed > 0).ToArray();
        if (failed.Length > 0)
            yield return $"Runs failed: {Join(failed.Select(group => Invariant($"{group.Failed} of {group.Variants} with “{group.Name}”")))}; the column failure of the table says why. They count as missing every target.";
    }

    private static IEnumerable<string> OnWheelLift(SweepAnalysis analysis)
    {
        var lifting = analysis.Groups.Where(group => Lasts(group, SweepMetric.CornerLiftOffTime)).ToArray();
        if (lifting.Length > 0)
            yield return $"A WHEEL LIFTS in the corner in some variants with {Join(lifting.Select(group => $"“{group.Name}”"))}: rollover risk.";
        var hopping = analysis.Groups.Except(lifting).Where(group => Lasts(group, PhaseMetric.LiftOffTime.Key)).ToArray();
        if (hopping.Length > 0)
            yield return $"Driving straight a wheel leaves the road in some variants with {Join(hopping.Select(group => $"“{group.Name}”"))}. During such a hop that side has no grip.";

        static bool Lasts(SweepGroup group, string time) => group.Metrics.Single(finding => finding.Metric.Key == time).Statistics is { Count: > 0, Maximum: > 0 };
    }

    private static IEnumerable<string> OnTargets(SweepAnalysis analysis)
    {
        foreach (var (target, load) in from target in analysis.Plan.Targets from load in ByLoad(analysis) select (target, load))
        {
            var metric = analysis.Plan.Metrics.First(metric => metric.Key == target.Metric);
            var misses = load
                .Select(group => (group.Layout, Miss: group.Metrics.First(finding => finding.Metric == metric).Misses.First(miss => miss.Target == target)))
                .OrderBy(miss => miss.Miss.Misses)
                .ToArray();
            var words = Ends(misses).GroupBy(miss => Words(miss.Miss, analysis.Plan.Design.IsSampled))
                .Select(same => string.Format(CultureInfo.InvariantCulture, same.Key, string.Join(" and ", same.Select(miss => $"“{miss.Layout}”"))));
            yield return $"Target “{metric.Label} {target.Words}{Unit(metric)}”{In(load)}: {Join(words)}.";
        }
    }

    /// <summary>How many miss it with layouts, to be named at {0}; of samples also what that says of the vehicles they stand for.</summary>
    private static string Words(TargetMiss miss, bool isSampled)
    {
        var runs = isSampled ? "samples" : "variants";
        var (low, high) = isSampled ? ShareInterval.Of(miss.Misses, miss.Of) : default;
        string Share(FormattableString of) => isSampled ? Invariant($" ({Invariant(of)}, with 95 % confidence)") : "";
        if (miss.Misses == 0)
            return Invariant($"met by all {miss.Of} {runs} with {{0}}") + Share($"at most {100 * high:F1} % of the vehicles miss it");
        return miss.Misses == miss.Of
            ? Invariant($"missed by all {miss.Of} {runs} with {{0}}") + Share($"{100 * low:F1} % or more of the vehicles miss it")
            : Invariant($"missed by {miss.Misses} of {miss.Of} {runs} with {{0}}") + Share($"{100 * low:F1} to {100 * high:F1} % of the vehicles miss it");
    }

    private static IEnumerable<string> OnSpread(SweepAnalysis analysis)
    {
        foreach (var (metric, load) in from metric in analysis.Plan.Shown from load in ByLoad(analysis) select (metric, load))
        {
            var spreads = load
                .Select(group => (group.Layout, group.Metrics.First(finding => finding.Metric == metric).Statistics))
                .Where(spread => spread.Statistics.Count > 0)
                .OrderBy(spread => spread.Statistics.Median)
                .ToArray();
            if (spreads.Length == 0)
                continue;
            var ranges = Ends(spreads).Select(spread => analysis.Plan.Design.IsSampled
                ? $"{Number(metric, spread.Statistics.Percentile5)} to {Number(metric, spread.Statistics.Percentile95)}{Unit(metric)} with “{spread.Layout}”"
                : $"{Number(metric, spread.Statistics.Minimum)} to {Number(metric, spread.Statistics.Maximum)}{Unit(metric)} with “{spread.Layout}”");
            yield return $"{metric.Label}{In(load)}{(analysis.Plan.Design.IsSampled ? ", 90 % of the samples" : "")}: {Join(ranges)}.";
        }
    }

    /// <summary>How many of all vehicles lie between the ends of the samples.</summary>
    private static IEnumerable<string> OnRange(SweepAnalysis analysis)
    {
        if (!analysis.Plan.Design.IsSampled)
            yield break;
        var fewest = analysis.Groups.Min(group => group.Metrics.Where(finding => analysis.Plan.Shown.Contains(finding.Metric)).Min(finding => finding.Statistics.Count));
        if (fewest >= 3)
            yield return Invariant($"For each metric, at least {100 * (1 - ShareInterval.Upper(1, fewest, 0.95)):F1} % of the vehicles lie between the least and the greatest of {fewest} samples, with 95 % confidence.");
    }

    private static IEnumerable<string> OnDrivers(SweepAnalysis analysis)
    {
        if (analysis.Plan.Parameters.Length < 2)
            yield break;
        var names = new ParameterNames(analysis.Plan.Parameters);
        for (var shown = 0; shown < analysis.Plan.Shown.Length; shown++)
        {
            var drivers = Enumerable.Range(0, analysis.Groups.Length)
                .Select(group => DriverOf(analysis, shown, group))
                .OfType<Driver>()
                .GroupBy(driver => driver.Parameter)
                .Select(same => $"by “{names.InSentence(same.Key)}” with {(same.Count() == analysis.Groups.Length && same.Count() > 1 ? "every layout" + (same.Any(driver => driver.LoadState is not null) ? " in every load state" : "") : string.Join(", ", same.Select(driver => $"“{driver.Group}”")))} ({same.First().Strength}{(same.Count() > 1 ? $" with “{same.First().Group}”" : "")})")
                .ToArray();
            if (drivers.Length > 0)
                yield return $"{analysis.Plan.Shown[shown].Label} is driven most {Join(drivers)}.";
        }
    }

    private static Driver? DriverOf(SweepAnalysis analysis, int shown, int place)
    {
        var metric = analysis.Plan.Shown[shown];
        var group = analysis.Groups[place];
        var finding = group.Metrics.First(finding => finding.Metric == metric);
        if (!(finding.Statistics.Maximum - finding.Statistics.Minimum >= 0.5 * Math.Pow(10, -metric.Decimals)))
            return null;
        if (analysis.SwingsOf(shown, place / analysis.Plan.Layouts.Length, place % analysis.Plan.Layouts.Length) is [{ Extent: > 0 } swing, ..])
            return new Driver(swing.Parameter, group.Name, group.LoadState, $"{Number(metric, swing.Lowest)} at its lowest level, {Number(metric, swing.Highest)}{Unit(metric)} at its highest{(swing.TurnsRound ? $", {Number(metric, swing.Base)}{Unit(metric)} as the scenario stands" : "")}");
        if (finding.Influences.Where(influence => influence.FirstOrder is { } index && !double.IsNaN(index)).MaxBy(influence => influence.FirstOrder) is { } first)
        {
            return first.FirstOrder > ChanceOf(first.Samples!.Value, finding.Influences.Length)
                ? new Driver(first.Parameter, group.Name, group.LoadState, Invariant($"some {100 * Math.Min(1, first.FirstOrder.Value):F0} % of the variance, estimated from {first.Samples} samples"))
                : null;
        }

        return finding.Influences.Where(influence => !double.IsNaN(influence.RankCorrelation)).MaxBy(influence => Math.Abs(influence.RankCorrelation)) is { } strongest
            && (!analysis.Plan.Design.IsSampled || Math.Abs(strongest.RankCorrelation) > ChanceOf(strongest.Points, finding.Influences.Length))
            ? new Driver(strongest.Parameter, group.Name, group.LoadState, Invariant($"rank correlation {strongest.RankCorrelation:F2}"))
            : null;
    }

    /// <summary>
    /// What the largest of several rank correlations reaches by chance alone in one sweep of twenty: a rank correlation without any
    /// connection has a standard deviation of 1/√(n − 1), and each of the inputs has its chance (Bonferroni). The estimate of a
    /// first-order index scatters by about as much.
    /// </summary>
    private static double ChanceOf(int samples, int inputs) => Normal.InvCDF(0, 1, 1 - (0.05 / (2 * inputs))) / Math.Sqrt(samples - 1);

    private static IEnumerable<string> OnSamplesLeftOut(SweepAnalysis analysis)
    {
        if (analysis.Plan.Design is not SensitivitySamples design)
            yield break;
        var incomplete = analysis.Groups
            .Select(group => (group.Name, Least: group.Metrics.Where(finding => analysis.Plan.Shown.Contains(finding.Metric)).Min(finding => finding.Influences[0].Samples)))
            .Where(group => group.Least < design.Samples)
            .ToArray();
        if (incomplete.Length > 0)
        {
            yield return $"The Sobol indices rest on fewer samples than were drawn: {Join(incomplete.Select(group => Invariant($"{group.Least} of {design.Samples} with “{group.Name}”")))}. "
                + "A sample counts only if all its runs gave a value, so they speak for the vehicles whose runs did.";
        }
    }

    /// <summary>The layouts of each load state by themselves: two layouts are compared at equal load.</summary>
    private static IEnumerable<IGrouping<string?, SweepGroup>> ByLoad(SweepAnalysis analysis) => analysis.Groups.GroupBy(group => group.LoadState);

    private static string In(IGrouping<string?, SweepGroup> load) => load.Key is null ? "" : $" in load state “{load.Key}”";

    /// <summary>All of a few, or the two ends of many: the files hold the rest.</summary>
    private static T[] Ends<T>(T[] ordered)
    {
        const int few = 4;
        return ordered.Length <= few ? ordered : [ordered[0], ordered[^1]];
    }

    private static string Unit(SweepMetric metric) => metric.Unit.Length == 0 ? "" : " " + metric.Unit;

    private static string Number(SweepMetric metric, double value) => value.ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture);

    private static string Join(IEnumerable<string> parts) => string.Join("; ", parts);

    private sealed record Driver(SweepParameter Parameter, string Group, string? LoadState, string Strength);
}
