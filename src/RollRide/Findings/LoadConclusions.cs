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
        OverStates(states, Overshoot, (name, most, least) => most.Value - least.Value <= Noticeable.Share
            ? Invariant($"With “{name}” roll overshoot from rest is similar in all load states, {100 * most.Value:F0} %.")
            : Invariant($"With “{name}” roll overshoot from rest is largest in load state “{most.State}”, {100 * most.Value:F0} %, and smallest in “{least.State}”, {100 * least.Value:F0} %."));

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
        IEnumerable<string> Of(ModeName mode) => OverStates(states, layout => layout.ReferenceModes[mode].DampingRatio, (name, most, least) =>
            Conclusions.Ratio(most.Value) == Conclusions.Ratio(least.Value)
                ? Invariant($"{mode} damping ratio at {velocity:0.###} m/s with “{name}”: {Conclusions.Ratio(most.Value)} in all load states.")
                : Invariant($"{mode} damping ratio at {velocity:0.###} m/s with “{name}”: from {Conclusions.Ratio(least.Value)} in load state “{least.State}” to {Conclusions.Ratio(most.Value)} in “{most.State}”."));
        return [.. Of(ModeName.Roll), .. Of(ModeName.Heave)];
    }

    private static IEnumerable<string> OnRide(IReadOnlyList<ComparisonFindings> states)
    {
        if (states.Any(state => state.Seeds.Count > 0))
            return [];
        return OverStates(states, layout => layout.Ride?.WorstSeat.Total, (name, most, least) => most.Value - least.Value <= Noticeable.Share * most.Value
            ? Invariant($"With “{name}” weighted vibration at the worst seat is similar in all load states, {most.Value:F2} m/s².")
            : Invariant($"With “{name}” weighted vibration at the worst seat is strongest in load state “{most.State}”, {most.Value:F2} m/s², and weakest in “{least.State}”, {least.Value:F2} m/s²."));
    }

    private static double? Overshoot(LayoutResult layout) => layout.Metrics.RollResponse?.Overshoot;

    /// <summary>A sentence for each layout that has the figure in every state, from the states in which it is largest and smallest.</summary>
    private static IEnumerable<string> OverStates(
        IReadOnlyList<ComparisonFindings> states, Func<LayoutResult, double?> figure, Func<string, (string State, double Value), (string State, double Value), string> say)
    {
        for (var i = 0; i < states[0].Result.Layouts.Length; i++)
        {
            var values = states.Select(state => (State: state.Study.Load!.Name, Value: figure(state.Result.Layouts[i]))).ToArray();
            if (values.Any(value => value.Value is null))
                continue;
            var known = values.Select(value => (value.State, Value: value.Value!.Value)).ToArray();
            yield return say(states[0].Result.Layouts[i].Name, known.MaxBy(value => value.Value), known.MinBy(value => value.Value));
        }
    }
}
