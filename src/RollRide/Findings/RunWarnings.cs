using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Studies;

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
        var warnings = Of(layout.Car, study.Manoeuvre, layout.Metrics);
        return layout.Mirrored is not { } mirrored ? warnings : [.. OnMirrored(mirrored, layout.Metrics), .. warnings];
    }

    /// <summary>A vehicle whose sides differ may lift a wheel one way only.</summary>
    private static IEnumerable<string> OnMirrored(RunMetrics mirrored, RunMetrics driven)
    {
        if ((mirrored.LiftsWhileCornering && !driven.LiftsWhileCornering) || (mirrored.RollResponse is { LiftsWheel: true } && driven.RollResponse is not { LiftsWheel: true }))
            yield return "In the mirrored manoeuvre, with the corner the other way, a side leaves the ground: ROLLOVER RISK.";
        else if (mirrored.Whole.LiftOffTime > 0 && driven.Whole.LiftOffTime == 0)
            yield return FormattableString.Invariant($"In the mirrored manoeuvre a side leaves the road for {mirrored.Whole.LiftOffTime:F3} s.");
        if (mirrored.RollResponse is { SteadyAngle: null } && driven.RollResponse is { SteadyAngle: not null })
            yield return "In the mirrored manoeuvre there is no stable position under the final lateral acceleration: ROLLOVER RISK.";
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
        var warnings = ImmutableArray.CreateBuilder<string>();
        void Warn(FormattableString text) => warnings.Add(FormattableString.Invariant(text));

        var run = metrics.Whole;
        foreach (var lifts in metrics.WheelLifts.GroupBy(lift => (lift.Side, lift.IsWhileCornering)).OrderByDescending(lifts => lifts.Key.IsWhileCornering))
        {
            var side = lifts.Key.Side == Mounting.Side.Left ? "left" : "right";
            var first = lifts.First();
            var phase = manoeuvre.Phases.Where(phase => phase.Start <= first.Start && first.Start < phase.End).Select(phase => $", in phase “{phase.Name}”").FirstOrDefault("");
            var time = lifts.Sum(lift => lift.Duration);
            if (lifts.Key.IsWhileCornering)
                Warn($"The {side} side left the ground for {time:F3} s while cornering, first at {first.Start:F2} s under {first.LateralAcceleration:F2} m/s²{phase}: ROLLOVER RISK. Past wheel lift the model shows when, not what follows.");
            else
                Warn($"The {side} side left the road for {time:F3} s while driving straight ({first.LateralAcceleration:F2} m/s²), first at {first.Start:F2} s{phase}: a hop, in which that side steers and brakes nothing.");
        }

        if (manoeuvre.Road.Unevenness is not null && RideRecorder.MeasuredSpan(manoeuvre) is null)
            Warn($"No figures of the ride: it is measured from {RideRecorder.StartTime(manoeuvre.Road, manoeuvre.Duration):F2} s, when the road has grown and the start has died away, and {(manoeuvre.Cornering.StartTime < manoeuvre.Duration ? FormattableString.Invariant($"the corner begins at {manoeuvre.Cornering.StartTime:F2} s") : "the run ends before")}.");

        if (RideRecorder.MeasuredSpan(manoeuvre) is { } ride && ride.End - ride.Start < RideRecorder.ShortestSpectrum)
            Warn($"No spectrum of the ride: it is measured for {ride.End - ride.Start:F2} s, and a spectrum needs {RideRecorder.ShortestSpectrum:F2} s. A longer run has one.");

        foreach (var overrun in TravelOverrun.Of(car.Vehicle, run))
        {
            if (overrun.Kind == TravelKind.Roll)
                Warn($"The body rolled {Unit.Degree.Show(overrun.Value):F2} against the axle; vehicle.travel.roll_deg is {Unit.Degree.Of(overrun.Limit):0.##}. Clearances and damper lengths are checked to there only: widen roll_deg and look at them again.");
            else
                Warn($"A wheel moved {Unit.Millimetre.Show(overrun.Value):F1} in {(overrun.Kind == TravelKind.Bump ? "bump" : "rebound")}; vehicle.travel goes to {Unit.Millimetre.Show(overrun.Limit):F1} at full {(overrun.Kind == TravelKind.Bump ? "bump" : "rebound")} with full roll. Nothing in the model ends it there but a stop.");
        }

        if (metrics.OneTyreLiftOffTime > 0)
            Warn($"A tyre of a dual pair left the ground for {metrics.OneTyreLiftOffTime:F3} s.");

        if (metrics.RollResponse is { LiftsWheel: true } && !metrics.LiftsWhileCornering)
            Warn($"In the corner from rest a side leaves the ground, which this run does not show: ROLLOVER RISK.");

        if (metrics.RollResponse is not null && manoeuvre.Cornering.Alone.Duration - Cornering.CornerAlone.Aftermath is var record
            && manoeuvre.Duration - Math.Max(0, manoeuvre.Cornering.StartTime) is var driven && record > driven + 1e-6)
        {
            Warn($"The corner from rest is driven through the whole input, {record:F1} s; the run ends {driven:F1} s into it.");
        }

        if (metrics.RollResponse is { SteadyAngle: not null, Failure: { } failure })
            Warn($"The corner from rest could not be driven to its end, so it has no peak and no overshoot. {failure}");

        if (metrics.RollResponse is { SteadyAngle: null })
            Warn($"There is no stable position under the final lateral acceleration of {manoeuvre.Cornering.FinalLateralAcceleration:F2} m/s²: ROLLOVER RISK.");

        var (left, right) = (car.Layout.On(Mounting.Side.Left), car.Layout.On(Mounting.Side.Right));

        // Of unlike sides the figures do not say whose they are: the side that has less decides.
        var curve = left.Damper.Curve.MaximumVelocity <= right.Damper.Curve.MaximumVelocity ? left.Damper.Curve : right.Damper.Curve;
        if (run.DamperCompressionVelocityPeak > curve.MaximumVelocity)
            Warn($"The damper ran at {run.DamperCompressionVelocityPeak:F2} m/s in compression; its curve was given up to {curve.MaximumVelocity:F2} m/s and is extended straight.");
        if (-run.DamperReboundVelocityPeak < curve.MinimumVelocity)
            Warn($"The damper ran at {run.DamperReboundVelocityPeak:F2} m/s in rebound; its curve was given up to {-curve.MinimumVelocity:F2} m/s and is extended straight.");
        foreach (var cavitation in metrics.Cavitations)
        {
            var side = cavitation.Side == Mounting.Side.Left ? "left" : "right";
            Warn($"The oil in the {side} damper would cavitate in compression, first at {cavitation.Start:F2} s and for {cavitation.Duration:F3} s in all; worst at {cavitation.WorstTime:F2} s, when the valves take {cavitation.ValveForce:F0} N and the gas pressure on the piston holds {cavitation.HeldForce:F0} N at that stroke. The damper gives less than these results say; more gas pressure, a larger piston or softer compression valves are needed.");
        }

        if ((left.CompressionTravel, right.CompressionTravel) is ({ } a, { } b) && Math.Min(a, b) is var closed && run.DamperCompressionPeak > closed)
            Warn($"The damper closed metal to metal: it moved {Unit.Millimetre.Show(run.DamperCompressionPeak):F1} in compression and has {Unit.Millimetre.Show(closed):F1}. That contact is not in the model.");
        if ((left.ReboundTravel, right.ReboundTravel) is ({ } c, { } d) && Math.Min(c, d) is var open && run.DamperExtensionPeak > open)
            Warn($"The damper was pulled to its end: it moved {Unit.Millimetre.Show(run.DamperExtensionPeak):F1} in rebound and has {Unit.Millimetre.Show(open):F1}. That contact is not in the model.");
        return warnings.ToImmutable();
    }
}
