using static System.FormattableString;

namespace RollRide.Studies;

/// <summary>What a practitioner concludes from a tuning, in words, from its numbers.</summary>
public static class TuningConclusions
{
    // Overshoot, as a ratio, that counts as more; common practice, no source.
    private const double WorseOvershoot = 0.005;

    /// <summary>Draws the conclusions.</summary>
    /// <param name="result">What tuning found.</param>
    /// <returns>One sentence an item, layout by layout, then what they mean together.</returns>
    public static IReadOnlyList<string> Of(TuningResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var sentences = new List<string>();
        foreach (var layout in result.Layouts)
        {
            sentences.Add(OnTargets(layout));
            sentences.AddRange(layout.Tuned.BindingLimits.Select(OnLimit));
            sentences.AddRange(OnRollAtAnyPrice(result, layout));
            sentences.AddRange(OnManoeuvre(result, layout));
        }

        sentences.AddRange(OnFronts(result));
        sentences.AddRange(OnChoice(result));
        return sentences;
    }

    /// <summary>What became of a layout's targets, as a title: "'Outboard' meets both".</summary>
    /// <param name="layout">The layout.</param>
    public static string InShort(LayoutTuning layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        var (heave, roll) = (layout.Tuned.Heave, layout.Tuned.Roll);
        if (layout.Tuned.MeetsBoth)
            return $"'{layout.Name}' meets both targets";
        return heave.IsMet
            ? Invariant($"'{layout.Name}' gets roll {roll.Reached:F2} of {roll.Target.Ratio:F2} wanted")
            : roll.IsMet
                ? Invariant($"'{layout.Name}' gets heave {heave.Reached:F2}, {heave.Target.Ratio:F2} wanted")
                : Invariant($"'{layout.Name}' gets heave {heave.Reached:F2} for {heave.Target.Ratio:F2} and roll {roll.Reached:F2} for {roll.Target.Ratio:F2}");
    }

    private static string OnTargets(LayoutTuning layout)
    {
        var tuned = layout.Tuned;
        var (heave, roll) = (tuned.Heave, tuned.Roll);
        if (tuned.MeetsBoth)
            return Invariant($"'{layout.Name}' meets both targets: heave {heave.Reached:F2} at {heave.Target.DamperVelocity:0.###} m/s and roll {roll.Reached:F2} at {roll.Target.DamperVelocity:0.###} m/s.");
        return $"'{layout.Name}': {OnTarget("heave", heave)}; {OnTarget("roll", roll)}.";
    }

    private static string OnTarget(string mode, TargetOutcome outcome)
    {
        var target = outcome.Target;
        if (outcome.IsMet)
            return Invariant($"{mode} meets its target with {outcome.Reached:F2} at {target.DamperVelocity:0.###} m/s");
        double outside = Math.Abs(outcome.Miss) - target.Tolerance;
        string side = outcome.Miss < 0 ? "below" : "above";
        string never = outcome.CoefficientWanted is null && outcome.Miss < 0 ? ", and no setting of a damper in this place reaches it short of locking the suspension" : "";
        return Invariant($"{mode} comes to {outcome.Reached:F2} where {target.Ratio:F2} ± {target.Tolerance:0.###} is wanted at {target.DamperVelocity:0.###} m/s, {outside:F2} {side} the band{never}");
    }

    private static string OnLimit(BindingLimit limit)
    {
        string bound = limit.IsHighest ? "at most" : "at least";
        string forbidden = limit is { Key: "highSpeedShare", IsHighest: true, Value: 1 } ? " and forbids the progressive curve that the targets ask for" : "";
        return Invariant($"  The limit {limit.Key} of {bound} {limit.Value:0.###} binds{forbidden}: {bound} {limit.Relaxed:0.###} would bring heave {limit.Heave:F2} and roll {limit.Roll:F2}.");
    }

    private static IEnumerable<string> OnRollAtAnyPrice(TuningResult result, LayoutTuning layout)
    {
        if (layout.RollFirst is not { } first || layout.RollFirstRun is not { } run)
            yield break;
        var (price, compromise) = (result.Ride(run)?.BodyWeightedRms, result.Ride(layout.After)?.BodyWeightedRms);
        if (price is { } high && compromise is > 0 and var low)
            yield return Invariant($"  Putting roll first there brings {first.Roll.Reached:F2} in roll and at best {first.Heave.Reached:F2} in heave, with {Change(high / low)} weighted body acceleration over the {result.Task.TradeOff.RidePhase} against the compromise.");
    }

    private static IEnumerable<string> OnManoeuvre(TuningResult result, LayoutTuning layout)
    {
        var (before, after) = (result.Ride(layout.Before)?.BodyWeightedRms, result.Ride(layout.After)?.BodyWeightedRms);
        var (over, now) = (layout.Before.Metrics.RollResponse?.Overshoot, layout.After.Metrics.RollResponse?.Overshoot);
        if (before is > 0 and var was && after is { } rides && over is { } o && now is { } n)
        {
            yield return Invariant($"  Simulated before and after: roll overshoot from rest {Percent(o):F0} % → {Percent(n):F0} %{OnSteps(layout)}, weighted body acceleration {was:F2} → {rides:F2} m/s² ({100 * (rides / was - 1):+0;−0;0} %).");
            if (rides > (1 + Conclusions.Alike) * was && TradeOff.CountedOvershoot(n) > TradeOff.CountedOvershoot(o) + WorseOvershoot)
            {
                string better = layout.Front is { Knee: var knee } && knee.WeightedAcceleration < was && knee.Overshoot < TradeOff.CountedOvershoot(o)
                    ? Invariant($"; the knee of the front is better in both, with {Percent(knee.Overshoot):F0} % and {knee.WeightedAcceleration:F2} m/s²")
                    : "";
                yield return $"  Both got worse in the simulation, so these targets do not serve this manoeuvre{better}.";
            }
            else if (layout.Front is { Knee: var beyond } && beyond.WeightedAcceleration < (1 - Conclusions.Alike) * rides && beyond.Overshoot < TradeOff.CountedOvershoot(n) - WorseOvershoot)
            {
                yield return Invariant($"  The targets are damping ratios and know nothing of this manoeuvre: the knee of the layout's own front is better in both, with {Percent(beyond.Overshoot):F0} % and {beyond.WeightedAcceleration:F2} m/s². Compare the front before you settle on it.");
            }
        }

        if (Math.Abs(layout.Tuned.ReboundToCompression / layout.Tuned.ReboundToCompressionBefore - 1) > Conclusions.Alike)
            yield return Invariant($"  Rebound to compression goes from {layout.Tuned.ReboundToCompressionBefore:F2} to {layout.Tuned.ReboundToCompression:F2}, the nearest that the limits allow.");
    }

    /// <summary>Where the corner hides the damping, the overshoot to a step.</summary>
    private static string OnSteps(LayoutTuning layout) =>
        layout.Before.Metrics.RollResponse?.OvershootToStep is { } before && layout.After.Metrics.RollResponse?.OvershootToStep is { } after
            ? Invariant($" (to a sudden step {Percent(before):F0} % → {Percent(after):F0} %, for this corner builds up so slowly that it hides the damping)")
            : "";

    private static IEnumerable<string> OnFronts(TuningResult result)
    {
        foreach (var layout in result.Layouts.Where(layout => layout.NoFront is not null))
            yield return $"'{layout.Name}' has no valving within the limits that damps every mode enough to be worth trying: {layout.NoFront}. So there is no trade-off to show.";
        foreach (var front in result.Layouts.Select(layout => layout.Front).OfType<TradeOffFront>())
        {
            yield return front.Points.Length < 3
                ? $"'{front.Layout}' leaves next to nothing to trade: its valving hardly moves ride against roll."
                : Invariant($"'{front.Layout}' trades best around {front.Knee.WeightedAcceleration:F2} m/s² and {Percent(front.Knee.Overshoot):F0} % overshoot, the knee of its front, beyond which one gains little for what the other costs; its ends are {front.Points[0].WeightedAcceleration:F2} m/s² with {Percent(front.Points[0].Overshoot):F0} %, and {front.Points[^1].WeightedAcceleration:F2} m/s² with {Percent(front.Points[^1].Overshoot):F0} %. {OnKneeTargets(front)}");
        }
    }

    private static string OnKneeTargets(TradeOffFront front) => (front.KneeHeave.IsMet, front.KneeRoll.IsMet) switch
    {
        (true, true) => "The knee meets both targets.",
        (true, false) => Invariant($"The knee misses the roll target, with {front.KneeRoll.Reached:F2} for {front.KneeRoll.Target.Ratio:F2}."),
        (false, true) => Invariant($"The knee misses the heave target, with {front.KneeHeave.Reached:F2} for {front.KneeHeave.Target.Ratio:F2}."),
        _ => Invariant($"The knee misses both targets, heave with {front.KneeHeave.Reached:F2} for {front.KneeHeave.Target.Ratio:F2} and roll with {front.KneeRoll.Reached:F2} for {front.KneeRoll.Target.Ratio:F2}."),
    };

    /// <summary>At the roll that the best layout gives at its knee, what do the others pay in ride?</summary>
    private static IEnumerable<string> OnChoice(TuningResult result)
    {
        var fronts = result.Layouts.Select(layout => layout.Front).OfType<TradeOffFront>().Where(front => front.Points.Length >= 3).ToList();
        if (fronts.Count < 2)
            yield break;
        var best = fronts.MinBy(front => front.Knee.Overshoot)!;
        foreach (var other in fronts.Where(front => front != best))
        {
            var equal = other.Points.Where(p => p.Overshoot <= best.Knee.Overshoot).MinBy(p => p.WeightedAcceleration);
            if (equal is null)
                yield return Invariant($"No single setting brings '{other.Layout}' down to the {Percent(best.Knee.Overshoot):F0} % overshoot that '{best.Layout}' has at its knee; {Percent(other.Points[^1].Overshoot):F0} % is its least.");
            else
                yield return Invariant($"The best single setting for '{other.Layout}' with the {Percent(best.Knee.Overshoot):F0} % overshoot that '{best.Layout}' has at its knee comes with {Change(equal.WeightedAcceleration / best.Knee.WeightedAcceleration)} weighted body acceleration.");
        }
    }

    private static double Percent(double overshoot) => Math.Round(100 * TradeOff.CountedOvershoot(overshoot));

    /// <summary>A ratio in words: "20 % more".</summary>
    private static string Change(double ratio) => Math.Round(100 * (ratio - 1)) is var percent && percent > 0 ? Invariant($"{percent:F0} % more") : percent < 0 ? Invariant($"{-percent:F0} % less") : "the same";
}
