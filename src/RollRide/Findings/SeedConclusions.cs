using System.Globalization;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Findings;

/// <summary>What runs over many random roads say of the layouts, in words.</summary>
public static class SeedConclusions
{
    // Nobody runs more roads for a difference as small as that; common practice, no source.
    private const int MostRoads = 200;

    /// <summary>Draws the conclusions of a comparison: over all random roads where there are several, and from its one run otherwise.</summary>
    /// <param name="result">What the layouts did on the scenario's road.</param>
    /// <param name="layouts">The runs of each layout over the same seeds; none if empty.</param>
    /// <returns>One sentence per item, the most important first.</returns>
    public static IReadOnlyList<string> OfComparison(ComparisonResult result, IReadOnlyList<SeededRuns> layouts)
    {
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(layouts);
        if (layouts.Count == 0)
            return Conclusions.Of(result);
        SeededRuns[] ranked = [.. layouts.Where(layout => result.Candidates.Any(candidate => candidate.Name == layout.Layout))];
        return [.. OnWheelLift(layouts), .. Conclusions.WhateverTheRoad(result), .. SideConclusions.Of(result), .. OnRoll(ranked), .. OnBump(ranked), .. OnRide(ranked)];
    }

    /// <summary>Every wheel in the air in the run, or the runs, of a load state, with the layout.</summary>
    /// <param name="state">What was found.</param>
    public static IEnumerable<string> OnWheelLift(ComparisonFindings state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return state.Seeds.Count == 0 ? Conclusions.OnWheelLift(state.Result) : OnWheelLift(state.Seeds);
    }

    private static IEnumerable<string> OnWheelLift(IReadOnlyList<SeededRuns> layouts)
    {
        static bool Lifts(SeededRun run) => run.BothWays.Any(way => way.LiftsWhileCornering);
        static bool Hops(SeededRun run) => run.BothWays.Any(way => way.WheelLifts.Length > 0);
        var lifting = layouts.Where(layout => layout.Runs.Any(Lifts)).ToArray();
        if (lifting.Length > 0)
            yield return $"A WHEEL LIFTS in the corner with {OnRoads(lifting, Lifts)}: rollover risk.";
        var hopping = layouts.Except(lifting).Where(layout => layout.Runs.Any(Hops)).ToArray();
        if (hopping.Length > 0)
            yield return Text($"Driving straight a wheel leaves the road with {OnRoads(hopping, Hops)}, for up to {Longest(hopping, run => run.BothWays.Max(way => way.Whole.LiftOffTime)):F2} s. During such a hop that side has no grip.");
        static double OneTyre(SeededRun run) => run.BothWays.Max(way => way.OneTyreLiftOffTime);
        var pairs = layouts.Where(layout => layout.Runs.Any(run => OneTyre(run) > 0)).ToArray();
        if (pairs.Length > 0)
            yield return Text($"One tyre of a pair is in the air with {OnRoads(pairs, run => OneTyre(run) > 0)}, for up to {Longest(pairs, OneTyre):F2} s: the other tyre carries that side alone, with less margin before the wheel lifts.");
    }

    private static IEnumerable<string> OnRoll(IReadOnlyList<SeededRuns> layouts) =>
        Compared("Largest roll in the manoeuvre", "deg", 1, layouts, run => Unit.Degree.Of(Math.Abs(run.Metrics.Whole.RollAnglePeak)));

    private static IEnumerable<string> OnBump(SeededRuns[] layouts)
    {
        var phase = layouts[0].Runs[0].Metrics.Phases.FirstOrDefault(phase => phase.Name is "bump" or Phase.MeasuredRoad);
        return phase is null ? [] : Compared($"Body acceleration over the {phase.Name}, RMS", "m/s²", 2, layouts,
            run => run.Metrics.Phases.First(other => other.Name == phase.Name).BodyAccelerationRms);
    }

    private static IEnumerable<string> OnRide(IReadOnlyList<SeededRuns> layouts)
    {
        foreach (var sentence in Compared("Weighted vibration at the worst seat", "m/s²", 3, layouts, run => run.Ride.WorstSeat.Total))
            yield return sentence;
        var worst = layouts.Max(layout => layout.Of(run => run.Ride.WorstSeat.Total)!.Value.Mean);
        yield return Text($"By ISO 2631-1 {worst:F2} m/s² is {string.Join(" to ", ComfortReaction.Of(worst).Select(reaction => reaction.Words))}. {ComfortReaction.Caution}");
        foreach (var sentence in Compared("Dynamic load coefficient", "", 3, layouts, run => run.Ride.DynamicLoadCoefficient))
            yield return sentence;
        static bool Jolts(SeededRun run) => run.Ride.WorstSeat.Vertical.NeedsAdditionalMeasures;
        var jolting = layouts.Where(layout => layout.Runs.Any(Jolts)).ToArray();
        if (jolting.Length > 0)
            yield return $"Single jolts stand out with {OnRoads(jolting, Jolts)}: the RMS understates them, so look at the running RMS maximum and the vibration dose as well.";
    }

    /// <summary>The layouts with the least and the most of a figure, and whether their difference is more than chance; nothing where it is not defined on every road.</summary>
    private static IEnumerable<string> Compared(string label, string unit, int decimals, IReadOnlyList<SeededRuns> layouts, Func<SeededRun, double?> figure)
    {
        var known = layouts.Where(layout => layout.Of(figure) is not null).OrderBy(layout => layout.Of(figure)!.Value.Mean).ToArray();
        string With(SeededRuns layout) => $"{Number(layout.Of(figure)!.Value)} with “{layout.Layout}”";
        string Number(MeanInterval interval) =>
            $"{interval.Mean.ToString($"F{decimals}", CultureInfo.InvariantCulture)} ± {interval.HalfWidth.ToString($"F{decimals}", CultureInfo.InvariantCulture)}{(unit.Length > 0 ? " " + unit : "")}";
        switch (known)
        {
            case []:
                break;
            case [var only]:
                yield return $"{label}, mean over {Roads(layouts)}: {With(only)}.";
                break;
            case [var least, .., var most]:
                var difference = most.DifferenceFrom(least, figure);
                yield return $"{label}, mean over {Roads(layouts)}: least {With(least)}, most {With(most)}. Road by road they differ by {Number(difference)}: {OnChance(difference, layouts)}.";
                break;
        }
    }

    private static string OnChance(MeanInterval difference, IReadOnlyList<SeededRuns> layouts) =>
        difference.IsMoreThanChance ? "more than chance"
        : difference.RunsToTell(layouts[0].Runs.Length) is <= MostRoads and var roads ? Text($"no more than chance; about {roads:F0} roads would tell them apart")
        : "no more than chance";

    private static string OnRoads(IEnumerable<SeededRuns> layouts, Func<SeededRun, bool> isSo) =>
        string.Join(", ", layouts.Select(layout => Text($"“{layout.Layout}” on {layout.Runs.Count(isSo)} of {layout.Runs.Length} random roads")));

    private static double Longest(IEnumerable<SeededRuns> layouts, Func<SeededRun, double> time) => layouts.Max(layout => layout.Runs.Max(time));

    /// <summary>Compares each layout with one of them at the worst seat.</summary>
    /// <param name="layouts">The runs of each layout, over the same seeds.</param>
    /// <param name="baseline">Place of the layout with which the others are compared.</param>
    /// <returns>One sentence for each of the others.</returns>
    public static IReadOnlyList<string> Of(IReadOnlyList<SeededRuns> layouts, int baseline = 0)
    {
        ArgumentNullException.ThrowIfNull(layouts);
        var reference = layouts[baseline];
        return [.. layouts.Where((_, i) => i != baseline).Select(other =>
        {
            var difference = other.DifferenceFrom(reference, run => run.Ride.WorstSeat.Total);
            var size = Text($"{Math.Abs(difference.Mean):F3} ± {difference.HalfWidth:F3} m/s²");
            return difference.IsMoreThanChance
                ? $"Weighted vibration at the worst seat is {size} {(difference.Mean > 0 ? "higher" : "lower")} with “{other.Layout}” than with “{reference.Layout}”, road by road: {OnChance(difference, layouts)}."
                : $"Weighted vibration at the worst seat differs by {size} between “{other.Layout}” and “{reference.Layout}”, road by road: {OnChance(difference, layouts)}.";
        })];
    }

    /// <summary>The seeds, as told beside their numbers: <c>"8 random roads, seeds 1 to 8"</c>.</summary>
    /// <param name="layouts">The runs of each layout.</param>
    public static string Roads(IReadOnlyList<SeededRuns> layouts)
    {
        ArgumentNullException.ThrowIfNull(layouts);
        var runs = layouts[0].Runs;
        return Text($"{runs.Length} random roads, seeds {runs[0].Seed} to {runs[^1].Seed}");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
