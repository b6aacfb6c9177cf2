using RollRide.Modes;
using RollRide.Studies;
using RollRide.Sweeps;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What a practitioner concludes from a tuning, in words, from its numbers.</summary>
public static class TuningConclusions
{
    // Overshoot, as a ratio, that counts as more; common practice, no source.
    private const double WorseOvershoot = 0.005;

    // The runs of so many states of load and damper are told one by one.
    private const int MostTold = 4;

    /// <summary>Draws the conclusions.</summary>
    /// <param name="result">What tuning found.</param>
    /// <returns>One sentence per item, layout by layout, then what they mean together.</returns>
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
        if (result.Study.Vehicle.SecondAxle is not null)
            sentences.Add("The valving is tuned for the damping ratios of this axle alone; what was simulated is the whole vehicle.");
        return sentences;
    }

    /// <summary>The same where no sentence is set under another: each that belongs to a layout names it.</summary>
    /// <param name="result">What tuning found.</param>
    public static IReadOnlyList<string> Named(TuningResult result)
    {
        var named = new List<string>();
        var of = "";
        foreach (var sentence in Of(result))
        {
            var isSetUnder = sentence.StartsWith("  ", StringComparison.Ordinal);
            if (!isSetUnder && sentence.IndexOf('”', StringComparison.Ordinal) is > 0 and var end)
                of = sentence[..(end + 1)];
            named.Add(isSetUnder ? $"{of}: {sentence.TrimStart()}" : sentence);
        }

        return named;
    }

    /// <summary>What the dampers were tuned for, which layouts then meet it, and at what price and risk.</summary>
    /// <param name="result">What tuning found.</param>
    /// <param name="robust">How the tuned dampers hold; null where that is not known.</param>
    public static string InShort(TuningResult result, RobustResult? robust = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        static string Wanted(string mode, TuningTarget target) => Invariant($"{mode} {target.Ratio:0.00#} ± {target.Tolerance:0.###} at {target.DamperVelocity:0.###} m/s");
        string Names(bool meeting) => string.Join(", ", result.Layouts.Where(layout => layout.Tuned.MeetsBoth == meeting).Select(layout => $"“{layout.Name}”"));
        var (met, missed) = (Names(true), Names(false));
        var outcome = missed.Length == 0 ? $"{met} {(result.Layouts.Length == 1 ? "meets" : "all meet")} both" : met.Length == 0 ? "no layout meets both" : $"{met} can meet both, {missed} cannot";
        return $"Tuned for damping ratios of {Wanted("heave", result.Task.Heave)} and {Wanted("roll", result.Task.Roll)}, {outcome}{string.Concat(result.Layouts.Select((layout, i) => layout.Tuned.MeetsBoth ? PriceAndRisk(result, layout, robust?.Layouts[i].Nominal, isNamed: result.Layouts.Count(other => other.Tuned.MeetsBoth) > 1) : ""))}.";
    }

    /// <summary>What gets noticeably worse by the tuned valving in the worst load state, and whether its tolerance is less than that of the dampers.</summary>
    private static string PriceAndRisk(TuningResult result, LayoutTuning layout, RobustValving? valving, bool isNamed)
    {
        var (before, after) = (result.Worst(layout, state => state.Before), result.Worst(layout, state => state.After));
        string[] prices =
        [
            .. before.Ride is > 0 and var was && after.Ride is { } rides && rides > (1 + Noticeable.Share) * was
                ? [Invariant($"weighted body acceleration over the {result.Task.TradeOff.RidePhase} {rides:F2} instead of {was:F2} m/s²")] : Array.Empty<string>(),
            .. before.Roll is { } over && after.Roll is { } now && now > over + WorseOvershoot
                ? [Invariant($"roll overshoot from rest {Percent(now):F0} instead of {Percent(over):F0} %")] : Array.Empty<string>(),
        ];
        var with = isNamed ? $" with “{layout.Name}”" : "";
        var price = prices.Length == 0 ? "" : $"; price{with}: {string.Join(" and ", prices)}";
        var expected = new[] { result.Task.Heave, result.Task.Roll }.Select(target => DamperTolerance.Of(result.Study, layout.Tuned.Before, target.DamperVelocity)).MaxBy(tolerance => tolerance.Share);
        return valving is null || valving.Tolerance >= expected.Share ? price
            : Invariant($"{price}; risk{with}: it keeps them only within ±{100 * valving.Tolerance:F0} % of force, less than the {(expected.IsStated ? "stated" : "usual")} ±{VerdictWords.Percent(expected.Share)} %");
    }

    /// <summary>What became of a layout's targets in a load state, as a title: "'Outboard' meets both".</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="state">The load state.</param>
    public static string InShort(LayoutTuning layout, TuningInLoad state)
    {
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(state);
        var (heave, roll) = (state.Heave, state.Roll);
        if (heave.IsMet && roll.IsMet)
            return $"“{layout.Name}” meets both targets";
        return heave.IsMet
            ? Invariant($"“{layout.Name}” reaches roll {roll.Reached:F2} instead of {roll.Target.Ratio:F2}")
            : roll.IsMet
                ? Invariant($"“{layout.Name}” reaches heave {heave.Reached:F2} instead of {heave.Target.Ratio:F2}")
                : Invariant($"“{layout.Name}” reaches heave {heave.Reached:F2} instead of {heave.Target.Ratio:F2} and roll {roll.Reached:F2} instead of {roll.Target.Ratio:F2}");
    }

    private static string OnTargets(LayoutTuning layout)
    {
        var (heave, roll) = (layout.Tuned.Heave, layout.Tuned.Roll);
        if (!layout.Tuned.MeetsBoth)
            return $"“{layout.Name}”: {OnTarget(layout, "heave", heave)}; {OnTarget(layout, "roll", roll)}.";
        return Invariant($"“{layout.Name}” meets both targets{InEvery(layout)}: heave {heave.Reached:F2} at {heave.Target.DamperVelocity:0.###} m/s{In(heave.Load)} and roll {roll.Reached:F2} at {roll.Target.DamperVelocity:0.###} m/s{In(roll.Load)}.");
    }

    private static string OnTarget(LayoutTuning layout, string mode, TargetOutcome outcome)
    {
        var target = outcome.Target;
        if (outcome.IsMet)
            return Invariant($"{mode} meets its target{InEvery(layout)} with {outcome.Reached:F2} at {target.DamperVelocity:0.###} m/s{In(outcome.Load)}");
        double outside = Math.Abs(outcome.Miss) - target.Tolerance;
        string side = outcome.Miss < 0 ? "below" : "above";
        string never = outcome.CoefficientWanted is null && outcome.Miss < 0 ? ", and no setting of a damper in this place reaches it short of locking the suspension" : "";
        return Invariant($"{mode} damping ratio {outcome.Reached:F2}{In(outcome.Load)} at {target.DamperVelocity:0.###} m/s, {outside:F2} {side} the band wanted, {target.Ratio:F2} ± {target.Tolerance:0.###}{never}");
    }

    private static string In(string? load) => load is null ? "" : $" in load state “{load}”";

    private static string InEvery(LayoutTuning layout) => layout.InLoads.Length < 2 ? "" : " in every load state, at worst";

    private static string OnLimit(BindingLimit limit)
    {
        var bound = limit.IsHighest ? "at most" : "at least";
        var (quantity, unit) = limit.Key switch
        {
            "kneeVelocity_m_per_s" => ("knee velocity of the valving", " m/s"),
            "kneeForce_N" => ("knee force of the valving", " N"),
            "force_N" => ("damper force", " N"),
            _ => ("slope above the knee over the slope below it", ""),
        };
        var forbidden = limit is { Key: "highSpeedShare", IsHighest: true, Value: 1 } ? "; the targets ask for a progressive curve, which it forbids" : "";
        return Invariant($"  The limit on the {quantity}, {bound} {limit.Value:0.###}{unit}, stands in the way{forbidden}: {bound} {limit.Relaxed:0.###}{unit} would bring heave {limit.Heave:F2} and roll {limit.Roll:F2}.");
    }

    private static IEnumerable<string> OnRollAtAnyPrice(TuningResult result, LayoutTuning layout)
    {
        if (layout.RollFirst is { } first
            && result.Worst(layout, state => state.RollFirstRun) is { Ride: { } high }
            && result.Worst(layout, state => state.After) is { Ride: > 0 and var low })
        {
            yield return Invariant($"  With roll put first, the valving gives {first.Roll.Reached:F2} in roll{In(first.Roll.Load)} and at best {first.Heave.Reached:F2} in heave{In(first.Heave.Load)}, with {Change(high / low)} weighted body acceleration over the {result.Task.TradeOff.RidePhase} against the tuned valving.");
        }
    }

    /// <summary>The states whose runs are told: all, or of many those that end worst in ride and in roll.</summary>
    private static IEnumerable<(TuningInLoad State, string Which)> Told(TuningResult result, LayoutTuning layout)
    {
        var states = layout.InLoads;
        if (states.Length <= MostTold)
            return states.Select(state => (state, ""));
        var ride = states.MaxBy(state => result.Ride(state.After)?.BodyWeightedRms)!;
        var roll = states.MaxBy(state => state.After.Metrics.RollResponse?.Overshoot)!;
        return ride == roll
            ? [(ride, Invariant($", the worst of {states.Length} in ride and in roll"))]
            : [(ride, Invariant($", the worst of {states.Length} in ride")), (roll, Invariant($", the worst of {states.Length} in roll"))];
    }

    private static IEnumerable<string> OnManoeuvre(TuningResult result, LayoutTuning layout)
    {
        foreach (var (state, which) in Told(result, layout))
        {
            if (result.Ride(state.Before)?.BodyWeightedRms is > 0 and var before && result.Ride(state.After)?.BodyWeightedRms is { } after
                && state.Before.Metrics.RollResponse?.Overshoot is { } over && state.After.Metrics.RollResponse?.Overshoot is { } now)
            {
                yield return Invariant($"  Simulated before and after{In(state.Load?.Name)}{which}: roll overshoot from rest {Percent(over):F0} % → {Percent(now):F0} %{OnSteps(state)}, weighted body acceleration {before:F2} → {after:F2} m/s² ({100 * (after / before - 1):+0;−0;0} %).");
            }
        }

        if (result.Worst(layout, state => state.Before) is { Ride: > 0 and var was, Roll: { } o }
            && result.Worst(layout, state => state.After) is { Ride: { } rides, Roll: { } n })
        {
            if (rides > (1 + Noticeable.Share) * was && n > o + WorseOvershoot)
            {
                string better = layout.Front is { Compromise: var best } && best.WeightedAcceleration < was && best.Overshoot < o
                    ? Invariant($"; the best compromise of its front is better in both, with {Percent(best.Overshoot):F0} % and {best.WeightedAcceleration:F2} m/s²")
                    : "";
                yield return $"  Both got worse in the simulation, so these targets do not serve this manoeuvre{better}.";
            }
            else if (layout.Front is { Compromise: var beyond } && beyond.WeightedAcceleration < (1 - Noticeable.Share) * rides && beyond.Overshoot < n - WorseOvershoot)
            {
                yield return Invariant($"  The targets do not suit this manoeuvre: the best compromise on this layout's trade-off curve is better in both, with {Percent(beyond.Overshoot):F0} % overshoot and {beyond.WeightedAcceleration:F2} m/s². Compare the front before you settle on it.");
            }
        }

        if (Math.Abs(layout.Tuned.ReboundToCompression / layout.Tuned.ReboundToCompressionBefore - 1) > Noticeable.Share)
            yield return Invariant($"  Rebound to compression goes from {layout.Tuned.ReboundToCompressionBefore:F2} to {layout.Tuned.ReboundToCompression:F2}, the nearest that the limits allow.");
    }

    /// <summary>Where the corner hides the damping, the overshoot to a step.</summary>
    private static string OnSteps(TuningInLoad state) =>
        state.Before.Metrics.RollResponse?.OvershootToStep is { } before && state.After.Metrics.RollResponse?.OvershootToStep is { } after
            ? Invariant($" (after a sudden step {Percent(before):F0} % → {Percent(after):F0} %; this corner builds up so slowly that it hides the damping)")
            : "";

    private static IEnumerable<string> OnFronts(TuningResult result)
    {
        foreach (var layout in result.Layouts.Where(layout => layout.NoFront is not null))
            yield return $"“{layout.Name}” has no valving within the limits that damps every mode enough to be worth trying: {WhyNoFront(layout.NoFront!)}. So there is no trade-off to show.";
        foreach (var front in result.Layouts.Select(layout => layout.Front).OfType<TradeOffFront>())
        {
            yield return front.Points.Length < 3
                ? $"With “{front.Layout}” there is next to nothing to trade: valving hardly moves ride against roll."
                : Invariant($"Best compromise with “{front.Layout}”: {front.Compromise.WeightedAcceleration:F2} m/s² weighted and {Percent(front.Compromise.Overshoot):F0} % overshoot; beyond it small gains get expensive. The ends of the front are {front.Points[0].WeightedAcceleration:F2} m/s² with {Percent(front.Points[0].Overshoot):F0} %, and {front.Points[^1].WeightedAcceleration:F2} m/s² with {Percent(front.Points[^1].Overshoot):F0} %. {OnLoadsOfCompromise(front.Compromise)}{OnTargetsOfCompromise(front, result.Study.InEachLoad.Length > 1)}");
        }
    }

    /// <summary>Why a layout has no trade-off front: the floors of damping that no valving tried came up to.</summary>
    /// <param name="missed">The floors that none came up to; empty where each was kept by one or another.</param>
    public static string WhyNoFront(IReadOnlyList<MissedFloor> missed)
    {
        ArgumentNullException.ThrowIfNull(missed);
        return missed.Count == 0
            ? "no setting was found that keeps the limits and damps all modes enough at once"
            : string.Join(" and ", missed.Select(floor => Invariant(
                $"{ModeNames.Key(floor.Mode)} comes to at most {floor.Highest:F2} at {floor.Velocity:0.###} m/s{In(floor.Load)}, where at least {floor.Floor:0.##} is asked for")));
    }

    private static string OnLoadsOfCompromise(TradeOffPoint best) => best.RideLoad is null ? "" : best.RideLoad == best.RollLoad
        ? $"Both are those of the worst load state, “{best.RideLoad}”. "
        : $"Each is that of its worst load state, “{best.RideLoad}” for the acceleration and “{best.RollLoad}” for the overshoot. ";

    private static string OnTargetsOfCompromise(TradeOffFront front, bool inSeveralLoads) => (front.CompromiseHeave.IsMet, front.CompromiseRoll.IsMet) switch
    {
        (true, true) => $"It meets both targets{(inSeveralLoads ? " in every load state" : "")}.",
        (true, false) => Invariant($"It misses the roll target, with {front.CompromiseRoll.Reached:F2}{In(front.CompromiseRoll.Load)} instead of {front.CompromiseRoll.Target.Ratio:F2}."),
        (false, true) => Invariant($"It misses the heave target, with {front.CompromiseHeave.Reached:F2}{In(front.CompromiseHeave.Load)} instead of {front.CompromiseHeave.Target.Ratio:F2}."),
        _ => Invariant($"It misses both targets, heave with {front.CompromiseHeave.Reached:F2}{In(front.CompromiseHeave.Load)} instead of {front.CompromiseHeave.Target.Ratio:F2} and roll with {front.CompromiseRoll.Reached:F2}{In(front.CompromiseRoll.Load)} instead of {front.CompromiseRoll.Target.Ratio:F2}."),
    };

    /// <summary>At the roll of the best layout's best compromise, what do the others pay in ride?</summary>
    private static IEnumerable<string> OnChoice(TuningResult result)
    {
        var fronts = result.Layouts.Select(layout => layout.Front).OfType<TradeOffFront>().Where(front => front.Points.Length >= 3).ToList();
        if (fronts.Count < 2)
            yield break;
        var best = fronts.MinBy(front => front.Compromise.Overshoot)!;
        foreach (var other in fronts.Where(front => front != best))
        {
            var equal = other.Points.Where(p => p.Overshoot <= best.Compromise.Overshoot).MinBy(p => p.WeightedAcceleration);
            if (equal is null)
                yield return Invariant($"No single setting brings “{other.Layout}” down to the {Percent(best.Compromise.Overshoot):F0} % overshoot of the best compromise with “{best.Layout}”; {Percent(other.Points[^1].Overshoot):F0} % is its least.");
            else
                yield return Invariant($"The best single setting for “{other.Layout}” with the {Percent(best.Compromise.Overshoot):F0} % overshoot of the best compromise with “{best.Layout}” comes with {Change(equal.WeightedAcceleration / best.Compromise.WeightedAcceleration)} weighted body acceleration.");
        }
    }

    private static double Percent(double overshoot) => Math.Round(100 * TradeOff.CountedOvershoot(overshoot));

    /// <summary>A ratio in words: "20 % more".</summary>
    private static string Change(double ratio) => Math.Round(100 * (ratio - 1)) is var percent && percent > 0 ? Invariant($"{percent:F0} % more") : percent < 0 ? Invariant($"{-percent:F0} % less") : "the same";
}
