using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Vehicle;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What a practitioner concludes from a comparison, in words, from its numbers.</summary>
public static class Conclusions
{
    /// <summary>Draws the conclusions.</summary>
    /// <param name="result">What the layouts did.</param>
    /// <returns>One sentence per item, the most important first.</returns>
    public static IReadOnlyList<string> Of(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var sentences = new List<string>(OnWheelLift(result));
        sentences.AddRange(WhateverTheRoad(result));
        sentences.AddRange(VehicleConclusions.Of(result));
        sentences.AddRange(SideConclusions.Of(result));
        result = result with { Layouts = result.Candidates };
        if (result.Layouts.Length > 1)
            sentences.AddRange(OnBump(result));
        sentences.AddRange(OnMotionLeft(result));
        sentences.AddRange(OnRide(result));
        sentences.AddRange(HeatConclusions.Of(result));
        return sentences;
    }

    /// <summary>What holds on any road: the damping ratios, and the corner from rest.</summary>
    internal static IEnumerable<string> WhateverTheRoad(ComparisonResult result)
    {
        var ranked = result with { Layouts = result.Candidates };
        return [.. OnStability(result), .. OnDamping(ranked), .. ranked.Layouts is [var layout] ? OnOne(result.Study, layout) : OnRoll(ranked)];
    }

    /// <summary>With which layouts something is similar, of those that count.</summary>
    private static string WithAll(ComparisonResult result) => result.Layouts.Length == result.Study.Layouts.Length ? "with all layouts"
        : $"with {(result.Layouts.Length == 2 ? "both" : "all")} layouts that can be built";

    private static IEnumerable<string> OnDamping(ComparisonResult result)
    {
        if (result.Layouts is [var layout])
        {
            yield return Invariant($"Damping ratios with “{layout.Name}” at {result.Study.Analysis.ReferenceVelocity:0.###} m/s damper velocity: heave {Ratio(layout.ReferenceModes.Heave.DampingRatio)}, roll {Ratio(layout.ReferenceModes.Roll.DampingRatio)}.");
            yield break;
        }

        var best = result.Layouts.MaxBy(layout => layout.ReferenceModes.Roll.DampingRatio)!;
        var worst = result.Layouts.MinBy(layout => layout.ReferenceModes.Roll.DampingRatio)!;
        var (high, low) = (best.ReferenceModes.Roll.DampingRatio, worst.ReferenceModes.Roll.DampingRatio);
        var (highHeave, lowHeave) = (best.ReferenceModes.Heave.DampingRatio, worst.ReferenceModes.Heave.DampingRatio);
        var speed = result.Study.Analysis.ReferenceVelocity;
        if (high - low <= Noticeable.Share * high)
        {
            yield return Invariant($"The roll damping ratio is similar {WithAll(result)}: {Range(Ratio(low), Ratio(high))} at {speed:0.###} m/s damper velocity.");
            yield break;
        }

        var kept = Math.Abs(highHeave - lowHeave) <= Noticeable.Share * Math.Max(highHeave, lowHeave)
            ? Ratio(highHeave) == Ratio(lowHeave) ? $"while heave stays at {Ratio(lowHeave)}" : $"while heave hardly changes, from {Ratio(highHeave)} to {Ratio(lowHeave)}"
            : Invariant($"while heave goes from {Ratio(highHeave)} to {Ratio(lowHeave)}");
        var lost = 100 * (1 - (low / high));
        yield return Invariant($"The roll damping ratio at {speed:0.###} m/s damper velocity falls from {Ratio(result.Study, ModeName.Roll, high)} with “{best.Name}” to {Ratio(result.Study, ModeName.Roll, low)} with “{worst.Name}”, {lost:F0} % less, {kept}.");
        var (bestRatio, worstRatio) = (RollRatio(best), RollRatio(worst));
        var suspension = result.Study.Vehicle.Suspension;
        if (!suspension.GuidesEachWheel && HaveTheSameDampers(best.Car.Layout, worst.Car.Layout))
        {
            yield return bestRatio > worstRatio
                ? Invariant($"The cause is the roll motion ratio, {bestRatio:F2} against {worstRatio:F2}: on {suspension.Noun} roll damping scales with its square.")
                : Invariant($"The higher roll ratio, {worstRatio:F2} against {bestRatio:F2}, damps roll less: these dampers are so hard that they lock the suspension, and the body rocks on its tyres.");
        }
        else if (suspension.GuidesEachWheel)
            yield return Invariant($"On {suspension.Noun} the ratio is the same in heave and in roll, so mounting and valving change both together.");
    }

    /// <summary>Whether valves, friction and mounts are the same on each side, wherever the dampers sit.</summary>
    private static bool HaveTheSameDampers(DamperLayout one, DamperLayout other) => new[] { Side.Left, Side.Right }.All(side =>
        (one.On(side).Damper, other.On(side).Damper) is var (a, b) && a.Curve == b.Curve && a.Friction == b.Friction && a.TopMountStiffness == b.TopMountStiffness);

    /// <summary>The roll ratio of the dampers; of sides that differ the root mean square, with the square of which both together damp.</summary>
    private static double RollRatio(LayoutResult layout) => layout.Car.Layout.Places.Count == 1
        ? layout.Car.Layout.Fitting.RollRatio
        : double.Hypot(layout.Car.Layout.Fitting.RollRatio, layout.Car.Layout.On(Side.Right).Fitting.RollRatio) / Math.Sqrt(2);

    private static IEnumerable<string> OnRoll(ComparisonResult result)
    {
        var measured = result.Layouts.Where(layout => layout.Metrics.RollResponse?.Overshoot is not null).ToArray();
        if (measured.Length > 1)
        {
            var calm = measured.MinBy(layout => layout.Metrics.RollResponse!.Overshoot)!;
            var lively = measured.MaxBy(layout => layout.Metrics.RollResponse!.Overshoot)!;
            var (least, most) = (calm.Metrics.WorseTurn!, lively.Metrics.WorseTurn!);
            yield return most.Overshoot - least.Overshoot <= Noticeable.Share
                ? Invariant($"In the corner from rest roll is similar {WithAll(result)}: it overshoots the steady {Deg(most.SteadyAngle!.Value):F1} deg by {Range(Percent(least.Overshoot!.Value), Percent(most.Overshoot!.Value))} %, to {Deg(most.PeakAngle!.Value):F1} deg at most.")
                : Invariant($"In the corner from rest roll overshoots least with “{calm.Name}”, by {Percent(least.Overshoot!.Value)} % to {Deg(least.PeakAngle!.Value):F1} deg, and most with “{lively.Name}”, by {Percent(most.Overshoot!.Value)} % to {Deg(most.PeakAngle!.Value):F1} deg; steady is {Deg(least.SteadyAngle!.Value):F1} deg.");
        }

        foreach (var sentence in OnStep(measured))
            yield return sentence;
        var unsettled = measured.Where(layout => layout.Metrics.RollResponse!.SettlingTime is null).ToArray();
        if (unsettled.Length > 0)
            yield return $"Roll has {SettlingWords.NotSettled(result.Study)}: {Quoted(unsettled)}.";
    }

    /// <summary>Where the corner builds up so slowly that it hides the damping, what a step would show.</summary>
    private static IEnumerable<string> OnStep(LayoutResult[] measured)
    {
        var hidden = measured.Where(layout => layout.Metrics.RollResponse!.OvershootToStep is not null).ToArray();
        if (hidden.Length == 0)
            yield break;
        var slow = hidden[0].Metrics.RollResponse!;
        var steps = string.Join(", ", hidden.Select(layout => Invariant($"{layout.Metrics.RollResponse!.OvershootToStep * 100:F0} % with “{layout.Name}”")));
        yield return Invariant($"This corner takes {slow.EquivalentRamp:F2} s to build up, {slow.EquivalentRamp / slow.RollPeriod:F1} of the body's roll period: slow enough to hide the roll damping. After a sudden step of the same lateral acceleration roll overshoots by {steps}.");
    }

    /// <summary>Where a phase begins while the body still swings from the one before, so that what it shows depends on that instant.</summary>
    private static IEnumerable<string> OnMotionLeft(ComparisonResult result)
    {
        foreach (var phase in result.Layouts
            .SelectMany(layout => layout.Metrics.MotionsLeft.Where(left => left.Share > MotionLeft.Reported).Select(left => (layout.Name, Left: left)))
            .GroupBy(at => at.Left.Phase.Name))
        {
            var (name, left) = phase.MaxBy(at => at.Left.Share);
            yield return Invariant($"When phase “{left.Phase.Name}” begins at {left.Phase.Start:F2} s, the body still swings from before: with “{name}” by {Deg(left.Amplitude):F1} deg, {left.Share * 100:F0} % of the steady roll. The largest roll in the manoeuvre depends on that instant; the figures from rest do not.");
        }
    }

    private static IEnumerable<string> OnBump(ComparisonResult result)
    {
        var bumps = result.Layouts.Select(layout => (layout.Name, Phase: layout.Metrics.Phases.FirstOrDefault(phase => phase.Name is "bump" or Phase.MeasuredRoad))).ToArray();
        if (bumps.Any(bump => bump.Phase is null))
            yield break;
        var soft = bumps.MinBy(bump => bump.Phase!.BodyAccelerationRms);
        var harsh = bumps.MaxBy(bump => bump.Phase!.BodyAccelerationRms);
        var (low, high) = (soft.Phase!.BodyAccelerationRms, harsh.Phase!.BodyAccelerationRms);
        var road = soft.Phase.Name;
        yield return high - low <= Noticeable.Share * high
            ? $"Over the {road} RMS vertical acceleration of the body is similar {WithAll(result)}, {Range(Invariant($"{low:F2}"), Invariant($"{high:F2}"))} m/s²: it does not decide between them."
            : Invariant($"Over the {road} RMS body acceleration is least with “{soft.Name}”, {low:F2} m/s², and {100 * ((high / low) - 1):F0} % higher with “{harsh.Name}”.");
    }

    private static IEnumerable<string> OnOne(StudyCase study, LayoutResult layout)
    {
        if (layout.Metrics.WorseTurn is not { Overshoot: { } overshoot, SteadyAngle: { } steady, PeakAngle: { } peak } turn)
            yield break;
        var settled = turn.SettlingTime is { } time ? Invariant($"settled {time:F1} s after the corner began") : $"and has {SettlingWords.NotSettled(study)}";
        yield return Invariant($"In the corner from rest it rolls to {Deg(peak):F1} deg, {Percent(overshoot)} % over its steady {Deg(steady):F1} deg, {settled}.");
        foreach (var sentence in OnStep([layout]))
            yield return sentence;
    }

    private static IEnumerable<string> OnRide(ComparisonResult result)
    {
        var rides = result.Layouts.Where(layout => layout.Ride is not null).ToArray();
        if (rides.Length == 0)
            yield break;
        var smooth = rides.MinBy(layout => layout.Ride!.WorstSeat.Total)!;
        var rough = rides.MaxBy(layout => layout.Ride!.WorstSeat.Total)!;
        var (low, high) = (smooth.Ride!.WorstSeat.Total, rough.Ride!.WorstSeat.Total);
        var road = $"On {RandomRoad(result.Study)}{RideWords.Window(result.Study.Manoeuvre)},";
        var words = string.Join(" to ", ComfortReaction.Of(high).Select(reaction => reaction.Words));
        yield return rides.Length == 1 || high - low <= Noticeable.Share * high
            ? Invariant($"{road} weighted acceleration at the worst seat is {high:F2} m/s²{(rides.Length == 1 ? "" : $", similar {WithAll(result)}")}: {words} by ISO 2631-1. {ComfortReaction.Caution}")
            : Invariant($"{road} weighted acceleration at the worst seat is least with “{smooth.Name}”, {low:F2} m/s², and greatest with “{rough.Name}”, {high:F2}: {words} by ISO 2631-1. {ComfortReaction.Caution}");
        var holding = rides.MinBy(layout => layout.Ride!.DynamicLoadCoefficient)!;
        var loose = rides.MaxBy(layout => layout.Ride!.DynamicLoadCoefficient)!;
        var (tight, wide) = (holding.Ride!.DynamicLoadCoefficient, loose.Ride!.DynamicLoadCoefficient);
        if (rides.Length > 1 && wide - tight > Noticeable.Share * wide)
            yield return Invariant($"Tyre load varies least with “{holding.Name}”: dynamic load coefficient {tight:F3}, against {wide:F3} with “{loose.Name}”.");
        var jolting = rides.Where(layout => layout.Ride!.WorstSeat.Vertical.NeedsAdditionalMeasures).ToArray();
        if (jolting.Length > 0)
            yield return $"With {Quoted(jolting)} single jolts stand out: the RMS understates them, so look at the running RMS maximum and the vibration dose as well.";
    }

    /// <summary>Every wheel in the air, with the layout.</summary>
    internal static IEnumerable<string> OnWheelLift(ComparisonResult result)
    {
        var lifting = result.Layouts.Where(layout => layout.BothWays.Any(run => run.LiftsWhileCornering)).ToArray();
        if (lifting.Length > 0)
            yield return $"A WHEEL LIFTS in the corner with {Quoted(lifting)}: rollover risk.";
        var hopping = result.Layouts.Except(lifting).Where(layout => layout.BothWays.Any(run => run.WheelLifts.Length > 0)).ToArray();
        if (hopping.Length > 0)
            yield return Invariant($"Driving straight a wheel leaves the road with {Quoted(hopping)}, for up to {hopping.Max(layout => layout.BothWays.Max(run => run.Whole.LiftOffTime)):F2} s. During such a hop that side has no grip.");
        var pairs = result.Layouts.Where(layout => layout.BothWays.Any(run => run.OneTyreLiftOffTime > 0)).ToArray();
        if (pairs.Length > 0)
            yield return Invariant($"One tyre of a pair is in the air with {Quoted(pairs)}, for up to {pairs.Max(layout => layout.BothWays.Max(run => run.OneTyreLiftOffTime)):F2} s: the other tyre carries that side alone, with less margin before the wheel lifts.");
    }

    private static IEnumerable<string> OnStability(ComparisonResult result)
    {
        var unstable = result.Layouts.Where(layout => layout.Metrics.RollResponse is { SteadyAngle: null }).ToArray();
        if (unstable.Length > 0)
            yield return $"The corner leaves NO STABLE POSITION with {Quoted(unstable)}: rollover risk.";
    }

    /// <summary>What a ride was driven on, in words: obstacles have a part in its figures.</summary>
    /// <param name="study">The case.</param>
    public static string RandomRoad(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        return study.Manoeuvre.Road.HasEvents ? "the random road with its obstacles" : "the random road";
    }

    private static string Quoted(IEnumerable<LayoutResult> layouts) => string.Join(", ", layouts.Select(layout => $"“{layout.Name}”"));

    // Two decimals, and no zero that a small ratio only rounds to.
    internal static string Ratio(double ratio) => InWords(VerdictWords.Ratio(ratio));

    /// <summary>A damping ratio at the reference velocity, with the decimals that show whether it meets its targets.</summary>
    internal static string Ratio(StudyCase study, ModeName mode, double ratio) => InWords(VerdictWords.Ratio(study, mode, ratio));

    private static string InWords(string ratio) => ratio.Replace("<", "less than ", StringComparison.Ordinal);

    private static string Range(string from, string to) => from == to ? from : $"{from} to {to}";

    /// <summary>A ratio in whole percent, without a sign on a rounded zero.</summary>
    private static string Percent(double ratio) => Invariant($"{Math.Round(100 * ratio) + 0.0:F0}");

    /// <summary>The size of an angle in degrees: words say which way a corner goes.</summary>
    private static double Deg(double rad) => Unit.Degree.Of(Math.Abs(rad));
}
