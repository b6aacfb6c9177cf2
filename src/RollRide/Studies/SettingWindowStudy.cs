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

    // Two closing positions this near to each other, m, count as one: mounts are not placed more exactly.
    private const double SamePlace = 2e-3;

    // Two mounts this near to each other, as a share of their stiffness, are one: rubber parts scatter by more (common practice, no source).
    private const double SameMount = 0.05;

    /// <summary>Finds the windows of all layouts.</summary>
    /// <param name="study">The case, with targets.</param>
    /// <param name="cancellation">Stops the study.</param>
    /// <exception cref="ArgumentException">The case has no targets.</exception>
    /// <exception cref="StudyException">A layout has no damping to scale, or its body is unstable.</exception>
    public static SettingWindowResult Run(StudyCase study, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        var targets = study.Targets ?? throw new ArgumentException("The case has no targets, so there is no window to find.", nameof(study));
        ImmutableArray<AssembledHalfCar> cars = [.. study.Layouts.Select(study.Assemble)];
        ImmutableArray<UprightWindows> upright = [.. ByMount(study, [.. cars.Select(car => car.Layout)]).Select(mount => OfUpright(study, targets, mount.Stiffness, mount.Layouts, cancellation))];
        ImmutableArray<LayoutWindow> layouts = [.. study.Layouts.Select((layout, i) =>
            OfLayout(study, layout, cars[i], targets, upright.FirstOrDefault(windows => windows.Layouts.Contains(i))?.ClosingPosition, cancellation))];
        return new SettingWindowResult { Study = study, Targets = targets, Layouts = layouts, Upright = upright };
    }

    /// <summary>The layouts by the stiffness of a vertical damper's mount of the same effect, <c>km Rh²</c>; none where the position makes no difference.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layouts">Its layouts as they stand.</param>
    internal static IReadOnlyList<(double? Stiffness, ImmutableArray<int> Layouts)> ByMount(StudyCase study, ImmutableArray<DamperLayout> layouts)
    {
        if (study.Vehicle.Suspension.GuidesEachWheel)
            return [];
        var mounts = new List<(double? Stiffness, ImmutableArray<int> Layouts)>();
        for (var i = 0; i < layouts.Length; i++)
        {
            var stiffness = layouts[i].Damper.TopMountStiffness * layouts[i].Fitting.HeaveRatio * layouts[i].Fitting.HeaveRatio;
            var same = mounts.FindIndex(mount => mount.Stiffness == stiffness || Math.Abs((mount.Stiffness - stiffness) ?? double.NaN) <= SameMount * stiffness);
            if (same < 0)
                mounts.Add((stiffness, [i]));
            else
                mounts[same] = (mounts[same].Stiffness, mounts[same].Layouts.Add(i));
        }

        return mounts;
    }

    /// <summary>The windows of a vertical damper at every position; they depend on no layout.</summary>
    /// <param name="study">The case, as it stands.</param>
    /// <param name="targets">What is asked for.</param>
    /// <param name="mountStiffness">Stiffness of its top mount, N/m; null for a rigid one.</param>
    /// <param name="layouts">Places of the layouts for which it stands.</param>
    /// <param name="cancellation">Stops the work.</param>
    internal static UprightWindows OfUpright(StudyCase study, DampingTargets targets, double? mountStiffness, ImmutableArray<int> layouts, CancellationToken cancellation)
    {
        AssembledHalfCar At(double position) => Vertical(study, position, mountStiffness);
        ImmutableArray<PositionWindow> byPosition =
        [
            .. EvenSteps.Of(0, study.Vehicle.HalfTrack, Positions)
                .AsParallel().AsOrdered().WithCancellation(cancellation)
                .Select(y => new PositionWindow(y, SettingWindow.Find(At(y), targets))),
        ];
        return new UprightWindows(mountStiffness, byPosition, Closing(study.Vehicle.HalfTrack, At, targets), layouts);
    }

    /// <summary>The window of a layout.</summary>
    /// <param name="study">The case, as it stands.</param>
    /// <param name="layout">The layout as written.</param>
    /// <param name="car">The vehicle with it, as it stands.</param>
    /// <param name="targets">What is asked for.</param>
    /// <exception cref="StudyException">It has no damping to scale, or its body is unstable.</exception>
    internal static WindowVerdict VerdictOf(StudyCase study, DamperLayout layout, AssembledHalfCar car, DampingTargets targets)
    {
        if (!(layout.EquivalentCoefficient(targets.Velocity) > 0))
        {
            throw new StudyException(layout.Name, new NoDampingException(FormattableString.Invariant(
                $"damper “{layout.DamperName}” gives no damping at {targets.Velocity} m/s, so no scale on its curve meets a target.")));
        }

        try
        {
            return WindowVerdict.Of(car, targets, study.Analysis.IncludeFriction);
        }
        catch (Exception e) when (e is UnstableBodyException or UnnamedModesException)
        {
            throw new StudyException(layout.Name, e, study.Load?.Name);
        }
    }

    private static LayoutWindow OfLayout(
        StudyCase study, DamperLayout layout, AssembledHalfCar car, DampingTargets targets, double? closingOfVertical, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        var halfTrack = study.Vehicle.HalfTrack;
        try
        {
            var verdict = VerdictOf(study, layout, car, targets);
            double? position = null, closing = null;
            if (LayoutVariation.CanMove(car.Vehicle, car.Layout.Fitting))
            {
                var present = LayoutVariation.PositionOf(car.Layout.Fitting, halfTrack);
                position = present;
                closing = Closing(halfTrack, y => LayoutVariation.WithDampersShifted(car, y - present), targets);
                if (closing is { } own && closingOfVertical is { } vertical && Math.Abs(own - vertical) < SamePlace)
                    closing = vertical;
            }

            return new LayoutWindow
            {
                Car = car,
                Verdict = verdict,
                Position = position,
                ClosingPosition = closing,
                OnVehicle = car.Second is null ? null : WindowVerdict.OnVehicle(car, targets, study.Analysis.IncludeFriction),
                RollsInParts = car.Second is not null && VehicleModeFollower.Solve(car, targets.Velocity, study.Analysis.IncludeFriction).RollsInParts,
                ClosingPositionOnVehicle = car.Second is null || position is not { } at ? null
                    : Closing(halfTrack, y => OpennessOnVehicle(LayoutVariation.WithDampersShifted(car, y - at), targets, study.Analysis.IncludeFriction)),
                Remedies = new WindowRemedies(study, layout, verdict, cancellation).Find(),
            };
        }
        catch (Exception e) when (e is UnstableBodyException or UnnamedModesException)
        {
            throw new StudyException(layout.Name, e, study.Load?.Name);
        }
    }

    /// <summary>Seen from the tyre inward, the first place where an open window closes.</summary>
    private static double? Closing(double halfTrack, Func<double, AssembledHalfCar> at, DampingTargets targets) =>
        Closing(halfTrack, y => StandingVariation.Of(() => [at(y)], targets)?.Window.Openness ?? -1);

    private static double OpennessOnVehicle(AssembledHalfCar car, DampingTargets targets, bool includeFriction)
    {
        try
        {
            return SettingWindow.OnVehicle(car, targets, includeFriction).Openness;
        }
        catch (Exception e) when (e is UnstableBodyException or UnnamedModesException)
        {
            return -1;
        }
    }

    private static double? Closing(double halfTrack, Func<double, double> openness)
    {
        double? open = null;
        foreach (var y in EvenSteps.Of(halfTrack, 0, Positions))
        {
            if (openness(y) >= 0)
                open = y;
            else if (open is { } outer)
                return DenseSearch.Crossing(openness, y, outer);
        }

        return null;
    }

    /// <summary>The vehicle with upright dampers, without gas.</summary>
    private static AssembledHalfCar Vertical(StudyCase study, double position, double? mountStiffness)
    {
        var halfTrack = study.Vehicle.HalfTrack;
        return study.Assemble(new DamperLayout
        {
            Name = "vertical damper",
            Fitting = new FixedRatioFitting(1, position / halfTrack, halfTrack),
            Damper = new Damper("linear", ForceVelocityCurve.Linear(1)) { TopMountStiffness = mountStiffness },
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
