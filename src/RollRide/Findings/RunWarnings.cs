using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What a reader must know before trusting a run's numbers, or before driving.</summary>
public static class RunWarnings
{
    /// <summary>Finds the warnings of a layout's run in a case.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">What the layout did.</param>
    public static ImmutableArray<string> Of(StudyCase study, LayoutResult layout)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(layout);
        return
        [
            .. Of(layout.Car, study.Manoeuvre, layout.Metrics),
            .. layout.Mirrored is not { } mirrored ? [] : OfMotion(layout.Car.Mirrored(), study.Manoeuvre, mirrored, isMirrored: true).Select(warning => $"With the manoeuvre mirrored: {warning}"),
        ];
    }

    /// <summary>Finds the warnings of a run.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="manoeuvre">The manoeuvre.</param>
    /// <param name="metrics">The figures of the run.</param>
    public static ImmutableArray<string> Of(AssembledHalfCar car, Manoeuvre manoeuvre, RunMetrics metrics)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(manoeuvre);
        ArgumentNullException.ThrowIfNull(metrics);
        return [.. OfMotion(car, manoeuvre, metrics, isMirrored: false), .. OfRide(manoeuvre), .. OfCorner(manoeuvre, metrics)];
    }

    /// <summary>What the vehicle does that the model does not follow.</summary>
    private static List<string> OfMotion(AssembledHalfCar car, Manoeuvre manoeuvre, RunMetrics metrics, bool isMirrored)
    {
        var warnings = new List<string>();
        void Warn(FormattableString text) => warnings.Add(Invariant(text));
        string Name(Side side) => (side == Side.Left) != isMirrored ? "left" : "right";

        var run = metrics.Whole;
        foreach (var lifts in metrics.WheelLifts.GroupBy(lift => (lift.Side, lift.IsWhileCornering)).OrderByDescending(lifts => lifts.Key.IsWhileCornering))
        {
            var side = Name(lifts.Key.Side);
            var first = lifts.First();
            var phase = manoeuvre.Phases.Where(phase => phase.Start <= first.Start && first.Start < phase.End).Select(phase => $", in phase “{phase.Name}”").FirstOrDefault("");
            var time = lifts.Sum(lift => lift.Duration);
            if (lifts.Key.IsWhileCornering)
                Warn($"The {side} side left the ground for {time:F3} s while cornering, first at {first.Start:F2} s under {first.LateralAcceleration:F2} m/s²{phase}: ROLLOVER RISK. After wheel lift the model is no longer valid.");
            else
                Warn($"The {side} side left the road for {time:F3} s while driving straight ({first.LateralAcceleration:F2} m/s²), first at {first.Start:F2} s{phase}: a hop, in which that side neither steers nor brakes.");
        }

        foreach (var overrun in TravelOverrun.Of(car.Vehicle, run))
        {
            if (overrun.Kind == TravelKind.Roll)
                Warn($"The body rolled {Unit.Degree.Show(overrun.Value):F2} against the axle; vehicle.travel.roll_deg is {Unit.Degree.Of(overrun.Limit):0.##}. Clearances and damper lengths are checked to there only: widen roll_deg and look at them again.");
            else
                Warn($"A wheel moved {Unit.Millimetre.Show(overrun.Value):F1} in {(overrun.Kind == TravelKind.Bump ? "bump" : "rebound")}; vehicle.travel goes to {Unit.Millimetre.Show(overrun.Limit):F1} at full {(overrun.Kind == TravelKind.Bump ? "bump" : "rebound")} with full roll. Nothing in the model ends it there but a stop.");
        }

        if (OtherAxleLift.Of(car.Vehicle, manoeuvre, metrics) is { } lift)
            warnings.Add(lift);

        if (metrics.OneTyreLiftOffTime > 0)
            Warn($"A tyre of a dual pair left the ground for {metrics.OneTyreLiftOffTime:F3} s.");

        // Dampers that are the same share one warning, of the one that went further.
        var areTheSame = car.Layout.RightSide is null;
        foreach (var side in areTheSame ? [Side.Left] : (Side[])[Side.Left, Side.Right])
        {
            var curve = car.Layout.On(side).Damper.Curve;
            var (compression, rebound) = areTheSame
                ? (run.DamperCompressionVelocityPeak, run.DamperReboundVelocityPeak)
                : (run.DamperOn(side).CompressionVelocity, run.DamperOn(side).ReboundVelocity);
            if (compression > curve.MaximumVelocity)
                Warn($"The {Damper(side)} ran at {compression:F2} m/s in compression; its curve was given up to {curve.MaximumVelocity:F2} m/s and is extended straight.");
            if (-rebound < curve.MinimumVelocity)
                Warn($"The {Damper(side)} ran at {rebound:F2} m/s in rebound; its curve was given up to {-curve.MinimumVelocity:F2} m/s and is extended straight.");
        }

        foreach (var cavitation in metrics.Cavitations)
        {
            Warn($"The oil in the {Name(cavitation.Side)} damper would cavitate in compression, first at {cavitation.Start:F2} s and for {cavitation.Duration:F3} s in all; worst at {cavitation.WorstTime:F2} s, when the valves take {cavitation.ValveForce:F0} N and the gas pressure on the piston holds {cavitation.HeldForce:F0} N at that stroke. The damper gives less than these results say; more gas pressure, a larger piston or softer compression valves are needed.");
        }

        var overruns = StrokeOverrun.Of(car.Layout, run);
        foreach (var overrun in areTheSame ? overruns.GroupBy(overrun => overrun.IsCompression).Select(both => both.MaxBy(overrun => overrun.Travel)!) : overruns)
        {
            if (overrun.IsCompression)
                Warn($"The {Damper(overrun.Side)} closed metal to metal: it moved {Unit.Millimetre.Show(overrun.Travel):F1} in compression and has {Unit.Millimetre.Show(overrun.Limit):F1}. That contact is not in the model.");
            else
                Warn($"The {Damper(overrun.Side)} was pulled to its end: it moved {Unit.Millimetre.Show(overrun.Travel):F1} in rebound and has {Unit.Millimetre.Show(overrun.Limit):F1}. That contact is not in the model.");
        }

        return warnings;
        string Damper(Side side) => areTheSame ? "damper" : $"{Name(side)} damper";
    }

    /// <summary>What is missing of the figures of a ride.</summary>
    private static IEnumerable<string> OfRide(Manoeuvre manoeuvre)
    {
        if (manoeuvre.Road.Unevenness is not null && RideRecorder.MeasuredSpan(manoeuvre) is null)
            yield return Invariant($"No ride metrics: the ride is measured from {RideRecorder.StartTime(manoeuvre.Road, manoeuvre.Duration):F2} s, when the road has its full roughness and the start has died away, and {(manoeuvre.HasCorner ? Invariant($"the corner begins at {manoeuvre.Cornering.StartTime:F2} s") : "the run ends before")}.");

        if (RideRecorder.MeasuredSpan(manoeuvre) is { } ride && ride.End - ride.Start < RideRecorder.ShortestSpectrum)
            yield return Invariant($"No spectrum of the ride: {ride.End - ride.Start:F2} s are measured, and a spectrum needs {RideRecorder.ShortestSpectrum:F2} s. Lengthen the run.");

        if (RideWords.BegunInside(manoeuvre) is { } cut)
            yield return cut;
    }

    /// <summary>What the corner from rest does that the run does not show.</summary>
    private static IEnumerable<string> OfCorner(Manoeuvre manoeuvre, RunMetrics metrics)
    {
        static string Way(RollResponse corner) => corner.IsMirrored ? ", driven the other way," : "";
        RollResponse[] turns = metrics.BothTurns is { } both ? [both.AsWritten, both.Mirrored] : [.. new[] { metrics.RollResponse }.OfType<RollResponse>()];
        if (!metrics.LiftsWhileCornering && turns.FirstOrDefault(corner => corner.LiftsWheel) is { } lifting)
            yield return $"In the corner from rest{Way(lifting)} a side leaves the ground, which this run does not show: ROLLOVER RISK.";

        if (metrics.RollResponse is not null && manoeuvre.Cornering.Alone.Duration - Cornering.CornerAlone.Aftermath is var record
            && manoeuvre.Duration - Math.Max(0, manoeuvre.Cornering.StartTime) is var driven && record > driven + 1e-6)
        {
            yield return Invariant($"The corner from rest is driven through the whole input, {record:F1} s; the run ends {driven:F1} s into it.");
        }

        if (metrics.RollResponse is { SteadyAngle: not null, Failure: { } failure } unfinished)
            yield return Invariant($"The corner from rest{Way(unfinished)} could not be driven to its end, so it has no peak and no overshoot. {failure}");

        if (metrics.RollResponse is { SteadyAngle: null } unstable)
            yield return Invariant($"There is no stable position under the final lateral acceleration of {(unstable.IsMirrored ? -1 : 1) * manoeuvre.Cornering.FinalLateralAcceleration:F2} m/s²: ROLLOVER RISK.");
    }
}
