using RollRide.Modes;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What the load states of a case say together, in words.</summary>
public static class LoadConclusions
{
    /// <summary>Draws the conclusions over all load states.</summary>
    /// <param name="states">What was found in each.</param>
    /// <returns>One sentence per item; none for fewer than two states.</returns>
    public static IReadOnlyList<string> Of(IReadOnlyList<ComparisonFindings> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        return states.Count < 2 ? [] : [.. OnWheelLift(states), .. OnOvershoot(states), .. OnOrder(states), .. OnDamping(states), .. OnRide(states)];
    }

    private static IEnumerable<string> OnWheelLift(IReadOnlyList<ComparisonFindings> states)
    {
        var lifting = states
            .Select(state => (state.Study.Load!.Name, Layouts: state.Result.Layouts.Where((layout, i) => Lifts(state, i)).Select(layout => $"“{layout.Name}”").ToArray()))
            .Where(state => state.Layouts.Length > 0)
            .ToArray();
        if (lifting.Length > 0)
            yield return $"A WHEEL LIFTS in the corner {string.Join("; ", lifting.Select(state => $"in load state “{state.Name}” with {string.Join(", ", state.Layouts)}"))}: rollover risk.";
    }

    private static bool Lifts(ComparisonFindings state, int layout) =>
        state.Result.Layouts[layout].Metrics.LiftsWhileCornering || (state.Seeds.Count > 0 && state.Seeds[layout].Runs.Any(run => run.Metrics.LiftsWhileCornering));

    private static IEnumerable<string> OnOvershoot(IReadOnlyList<ComparisonFindings> states) =>
        OverStates(states, "Roll overshoot from rest", Overshoot, (least, most) => most - least <= Noticeable.Share, value => Invariant($"{100 * value:F0}"), " %");

    /// <summary>Whether the same layout has the least overshoot in every state; nothing where the two calmest are alike in one.</summary>
    private static IEnumerable<string> OnOrder(IReadOnlyList<ComparisonFindings> states)
    {
        var calmest = states.Select(state =>
        {
            var measured = state.Result.Candidates.Where(layout => Overshoot(layout) is not null).OrderBy(Overshoot).ToArray();
            return measured.Length < 2 || Overshoot(measured[1]) - Overshoot(measured[0]) <= Noticeable.Share ? null : measured[0].Name;
        }).ToArray();
        if (calmest.Contains(null))
            yield break;
        yield return calmest.Distinct().Count() == 1
            ? $"“{calmest[0]}” has the least roll overshoot in every load state."
            : $"The layout with the least roll overshoot depends on the load: {string.Join(", ", states.Zip(calmest, (state, name) => $"“{name}” in “{state.Study.Load!.Name}”"))}.";
    }

    private static IEnumerable<string> OnDamping(IReadOnlyList<ComparisonFindings> states)
    {
        var velocity = states[0].Study.Analysis.ReferenceVelocity;
        IEnumerable<string> Of(ModeName mode) => OverStates(states, Invariant($"{mode} damping ratio at {velocity:0.###} m/s"), layout => layout.ReferenceModes[mode].DampingRatio,
            (least, most) => Conclusions.Ratio(most) == Conclusions.Ratio(least), ratio => Conclusions.Ratio(states[0].Study, mode, ratio));
        return [.. Of(ModeName.Roll), .. Of(ModeName.Heave)];
    }

    private static IEnumerable<string> OnRide(IReadOnlyList<ComparisonFindings> states)
    {
        if (states.Any(state => state.Seeds.Count > 0))
            return [];
        return OverStates(states, "Weighted vibration at the worst seat", layout => layout.Ride?.WorstSeat.Total, (least, most) => most - least <= Noticeable.Share * most, value => Invariant($"{value:F2}"), " m/s²");
    }

    private static double? Overshoot(LayoutResult layout) => layout.Metrics.RollResponse?.Overshoot;

    /// <summary>A sentence on the layouts that have the figure in every state: from its least to its most, and in which states.</summary>
    private static IEnumerable<string> OverStates(
        IReadOnlyList<ComparisonFindings> states, string quantity, Func<LayoutResult, double?> figure, Func<double, double, bool> areSimilar, Func<double, string> text, string unit = "")
    {
        var layouts = Enumerable.Range(0, states[0].Result.Layouts.Length)
            .Select(i => (states[0].Result.Layouts[i].Name, Values: states.Select(state => (State: state.Study.Load!.Name, Value: figure(state.Result.Layouts[i]))).ToArray()))
            .Where(layout => layout.Values.All(at => at.Value is not null))
            .Select(layout => (layout.Name, Least: layout.Values.MinBy(at => at.Value), Most: layout.Values.MaxBy(at => at.Value)))
            .Select(layout => (layout.Name, layout.Least, layout.Most, Low: text(layout.Least.Value!.Value), High: $"{text(layout.Most.Value!.Value)}{unit}", IsSame: areSimilar(layout.Least.Value!.Value, layout.Most.Value!.Value)))
            .ToArray();
        if (layouts.Length == 0)
            yield break;
        var (_, least, most, _, _, _) = layouts[0];
        yield return layouts.All(layout => layout.IsSame)
                ? $"{quantity} is similar in all load states: {Each(layouts.Select(layout => $"{layout.High} with “{layout.Name}”"))}."
            : layouts.All(layout => !layout.IsSame && (layout.Least.State, layout.Most.State) == (least.State, most.State))
                ? $"{quantity}, from load state “{least.State}” to “{most.State}”: {Each(layouts.Select(layout => $"{layout.Low} to {layout.High} with “{layout.Name}”"))}."
            : $"{quantity} over the load states: {Each(layouts.Select(layout => layout.IsSame ? $"{layout.High} in all with “{layout.Name}”" : $"{layout.Low} (“{layout.Least.State}”) to {layout.High} (“{layout.Most.State}”) with “{layout.Name}”"))}.";

        static string Each(IEnumerable<string> parts) => string.Join(", ", parts);
    }
}
