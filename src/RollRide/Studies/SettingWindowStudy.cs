using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Whether one damper setting can serve heave and roll: for each layout, and from the centre to the tyre.</summary>
public static class SettingWindowStudy
{
    // From the centre to the tyre in so many steps for the chart.
    private const int Positions = 40;

    // Two closing positions this near to each other, m, are one: nobody places a mount more exactly.
    private const double SamePlace = 1e-3;

    /// <summary>Finds the windows of all layouts.</summary>
    /// <param name="study">The case, with targets.</param>
    /// <param name="cancellation">Stops the study.</param>
    /// <exception cref="ArgumentException">The case has no targets.</exception>
    /// <exception cref="StudyException">A layout has no damping to scale, or its body is unstable.</exception>
    public static SettingWindowResult Run(StudyCase study, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        var targets = study.Targets ?? throw new ArgumentException("The case has no targets, so there is no window to find.", nameof(study));
        var byPosition = study.Vehicle.Suspension == SuspensionKind.LiveAxle ? ByPosition(study, targets, cancellation) : [];
        double? closing = byPosition.IsEmpty ? null : Closing(study.Vehicle.HalfTrack, y => Vertical(study, y), targets);
        ImmutableArray<LayoutWindow> layouts = [.. study.Layouts.Select(layout => OfLayout(study, layout, targets, closing, cancellation))];
        return new SettingWindowResult
        {
            Study = study,
            Targets = targets,
            Layouts = layouts,
            ByPosition = byPosition,
            ClosingPosition = closing,
        };
    }

    private static LayoutWindow OfLayout(
        StudyCase study, DamperLayout layout, DampingTargets targets, double? closingOfVertical, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        var car = study.Assemble(layout);
        var halfTrack = study.Vehicle.HalfTrack;
        if (!(layout.Damper.EquivalentCoefficient(targets.Velocity) > 0))
        {
            throw new StudyException(layout.Name, new NoDampingException(FormattableString.Invariant(
                $"damper '{layout.Damper.Name}' gives no damping at {targets.Velocity} m/s, so no scale on its curve meets a target.")));
        }

        try
        {
            var verdict = WindowVerdict.Of(car, targets, study.Analysis.IncludeFriction);
            double? position = null, closing = null;
            if (LayoutVariation.CanMove(study.Vehicle, layout.Fitting))
            {
                var present = LayoutVariation.PositionOf(layout.Fitting, halfTrack);
                position = present;
                closing = Closing(halfTrack, y => LayoutVariation.WithDampersShifted(car, y - present), targets);
                if (closing is { } own && closingOfVertical is { } vertical && Math.Abs(own - vertical) < SamePlace)
                    closing = vertical;
            }

            return new LayoutWindow
            {
                Car = car,
                Verdict = verdict,
                Modes = ModeFollower.Solve(LinearHalfCar.AtRest(car), verdict.Coefficient),
                Position = position,
                ClosingPosition = closing,
                Remedies = verdict.Window.IsOpen ? [] : new WindowRemedies(car, verdict).Find(),
            };
        }
        catch (Exception e) when (e is UnstableBodyException or UnnamedModesException)
        {
            throw new StudyException(layout.Name, e);
        }
    }

    private static ImmutableArray<PositionWindow> ByPosition(StudyCase study, DampingTargets targets, CancellationToken cancellation) =>
        [.. EvenSteps.Of(0, study.Vehicle.HalfTrack, Positions)
            .AsParallel().AsOrdered().WithCancellation(cancellation)
            .Select(y => new PositionWindow(y, SettingWindow.Find(LinearHalfCar.AtRest(Vertical(study, y)), targets)))];

    /// <summary>Seen from the tyre inward, the first place where an open window closes.</summary>
    private static double? Closing(double halfTrack, Func<double, AssembledHalfCar> at, DampingTargets targets)
    {
        bool IsOpen(double y) => WindowRemedies.IsOpen(() => at(y), targets);
        double? open = null;
        foreach (var y in EvenSteps.Of(halfTrack, 0, Positions))
        {
            if (IsOpen(y))
                open = y;
            else if (open is { } outer)
                return WindowRemedies.Bisect(IsOpen, outer, y);
        }

        return null;
    }

    /// <summary>The vehicle with upright dampers in rigid mounts, without gas.</summary>
    private static AssembledHalfCar Vertical(StudyCase study, double position)
    {
        var halfTrack = study.Vehicle.HalfTrack;
        return new AssembledHalfCar(study.Vehicle, new DamperLayout
        {
            Name = "vertical damper",
            Fitting = new FixedRatioFitting(1, position / halfTrack, halfTrack),
            Damper = new Damper("linear", ForceVelocityCurve.Linear(1)),
        });
    }
}

/// <summary>A damper gives no damping where some is needed.</summary>
public sealed class NoDampingException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="message">Which damper, and at what velocity.</param>
    public NoDampingException(string message)
        : base(message)
    {
    }
}
