using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Finds what would open a closed window, one change at a time, each from the eigenvalues.</summary>
internal sealed class WindowRemedies
{
    // How far each thing is tried, and in how many steps each way; common practice, no source.
    private const double InnermostShare = 0.1; // of the half-track
    private const double TrackChange = 0.3;
    private const double DualClearance = 1e-3; // of the spacing, left between the inner tyres' centres
    private const double StiffestBar = 3; // times the present roll stiffness of the bar
    private const double LeastCompressionShare = 0.4; // rebound then is four times compression
    private const int Steps = 16;

    private const double PerDegree = Math.PI / 180;
    private const double Mm = 1e3;

    private readonly StudyCase _study;
    private readonly AssembledHalfCar _car;
    private readonly WindowVerdict _verdict;
    private readonly CancellationToken _cancellation;

    /// <summary>Looks for remedies of a layout, in the terms of the scenario: what is changed is changed as written, and judged as it stands then.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout as written.</param>
    /// <param name="verdict">Its closed window.</param>
    /// <param name="cancellation">Stops the search.</param>
    public WindowRemedies(StudyCase study, DamperLayout layout, WindowVerdict verdict, CancellationToken cancellation) =>
        (_study, _car, _verdict, _cancellation) = (study, new AssembledHalfCar(study.Vehicle, layout), verdict, cancellation);

    /// <summary>All remedies, in the order in which they are asked about.</summary>
    public ImmutableArray<WindowRemedy> Find() => [DamperPosition(), SpringPosition(), AntiRollBar(), Track(), Split()];

    /// <summary>
    /// The window of a variation; null where it cannot be built, cannot stand, is unstable, or its axle does not swing: a linkage locks, or a
    /// spring table ends short of the load.
    /// </summary>
    public static SettingWindow? WindowOf(Func<AssembledHalfCar> variation, DampingTargets targets)
    {
        try
        {
            return SettingWindow.Find(LinearHalfCar.AtRest(variation()), targets);
        }
        catch (Exception e) when (e is ArgumentException or NoRestPositionException or UnstableBodyException or UnnamedModesException)
        {
            return null;
        }
    }

    private WindowRemedy DamperPosition()
    {
        var fitting = _car.Layout.Fitting;
        var halfTrack = _car.Vehicle.HalfTrack;
        var present = LayoutVariation.PositionOf(fitting, halfTrack);
        if (!LayoutVariation.CanMove(_car.Vehicle, fitting))
            return WindowRemedy.Of(RemedyKind.DamperPosition, null, null, $"Damper position cannot reopen it: on {_car.Vehicle.Suspension.Noun} heave and roll share one motion ratio.");
        var needed = Nearest(present, 0, halfTrack, y => LayoutVariation.WithDampersShifted(_car, y - present));
        if (needed is { } place && fitting is LiveAxleMountFitting mounts)
        {
            var moved = new MovedMounts(mounts, axleEnd => Opens(() => LayoutVariation.WithDampersShifted(_car, axleEnd - mounts.AxleEnd.Y)));
            return moved.To(mounts.AxleEnd.Y + place - present, present, _study.Room(_car.Layout)?.Around(_study.Stand(_car).Layout), _cancellation);
        }

        return needed is { } y
            ? WindowRemedy.Of(RemedyKind.DamperPosition, present, needed, $"Moving the dampers from {present * Mm:F0} to {Beyond(y * Mm, present * Mm):F0} mm from the centre ({y / halfTrack:F2} of the half-track; motionRatios.roll {Beyond(1e3 * y / halfTrack * fitting.HeaveRatio, 1e3 * fitting.RollRatio) / 1e3:F3}) reopens it{(_study.Placement is null ? "" : ", if they fit there: ratios alone do not tell")}.")
            : WindowRemedy.Of(RemedyKind.DamperPosition, present, null, $"No damper position up to the tyre reopens it.");
    }

    private WindowRemedy SpringPosition()
    {
        var fitting = _car.Vehicle.Spring.Fitting;
        var halfTrack = _car.Vehicle.HalfTrack;
        if (!LayoutVariation.CanMove(_car.Vehicle, fitting))
            return WindowRemedy.Of(RemedyKind.SpringPosition, null, null, $"Spring spacing cannot reopen it: on {_car.Vehicle.Suspension.Noun} the springs' heave and roll ratio are one.");
        var present = LayoutVariation.PositionOf(fitting, halfTrack);
        var needed = Nearest(present, InnermostShare * halfTrack, halfTrack, y => LayoutVariation.WithSpringsShifted(_car, y - present));
        return needed is { } y
            ? WindowRemedy.Of(RemedyKind.SpringPosition, present, needed, $"Setting the springs {Beyond(2 * y * Mm, 2 * present * Mm):F0} mm apart instead of {2 * present * Mm:F0} mm reopens it{Gradient(LayoutVariation.WithSpringsShifted(_car, y - present))}.")
            : WindowRemedy.Of(RemedyKind.SpringPosition, present, null, $"Spring spacing cannot reopen it: nothing from {2 * InnermostShare * halfTrack * Mm:F0} mm apart to the full track of {2 * halfTrack * Mm:F0} mm does, as far as the body stands upright on it.");
    }

    private WindowRemedy AntiRollBar()
    {
        var present = _car.Vehicle.AntiRollBar;
        if (present == 0)
            return WindowRemedy.Of(RemedyKind.AntiRollBar, 0, null, $"The anti-roll bar cannot reopen it: there is none to soften, and a bar lowers the roll damping ratio.");
        var needed = Nearest(present, 0, StiffestBar * present, stiffness => LayoutVariation.WithBar(_car, stiffness));
        return needed is { } bar
            ? WindowRemedy.Of(RemedyKind.AntiRollBar, present, needed, $"An anti-roll bar of {Beyond(bar * PerDegree, present * PerDegree):F0} instead of {present * PerDegree:F0} N·m/deg reopens it{Gradient(LayoutVariation.WithBar(_car, bar))}.")
            : WindowRemedy.Of(RemedyKind.AntiRollBar, present, null, $"The anti-roll bar cannot reopen it: no stiffness from none to {StiffestBar:F0} times the present {present * PerDegree:F0} N·m/deg does.");
    }

    private WindowRemedy Track()
    {
        var present = _car.Vehicle.HalfTrack;

        // Dual tyres need their spacing between the sides.
        var narrowest = Math.Max((1 - TrackChange) * present, (1 + DualClearance) * (_car.Vehicle.Tyre.DualSpacing ?? 0) / 2);
        var needed = Nearest(present, Math.Min(narrowest, present), (1 + TrackChange) * present, halfTrack => LayoutVariation.WithHalfTrack(_car, halfTrack));
        return needed is { } t
            ? WindowRemedy.Of(RemedyKind.Track, 2 * present, 2 * t, $"A track of {Beyond(2 * t * Mm, 2 * present * Mm):F0} instead of {2 * present * Mm:F0} mm reopens it, all else in its place.")
            : WindowRemedy.Of(RemedyKind.Track, 2 * present, null, $"Track alone cannot reopen it: nothing within {TrackChange * 100:F0} % of {2 * present * Mm:F0} mm does while springs and dampers stay in their place.");
    }

    /// <summary>
    /// Both modes see the mean of compression and rebound: in roll one damper closes while the other opens, in heave both do the
    /// one after the other. Only a heave maximum that need hold in compression alone leaves room for a split.
    /// </summary>
    private WindowRemedy Split()
    {
        var damper = _car.Layout.Damper;
        var velocity = _verdict.Targets.Velocity;
        var mean = damper.EquivalentCoefficient(velocity);
        var present = damper.EquivalentCoefficient(velocity, DampingDirection.Compression) / mean;
        var (lower, upper) = (_verdict.Window.Lower, _verdict.Window.Upper);
        var needed = upper.Binding == DampingTarget.HeaveMaximum && !double.IsInfinity(lower.Coefficient) ? upper.Coefficient / lower.Coefficient : 0;
        if (needed < LeastCompressionShare)
            return WindowRemedy.Of(RemedyKind.CompressionShare, present, null, $"The compression/rebound split cannot reopen it: both modes work on the mean of the two, and no sane split spares heave enough.");
        var now = present <= needed
            ? "which the present valving keeps to"
            : FormattableString.Invariant($"against {present * 100:F0} % now");
        return WindowRemedy.Of(RemedyKind.CompressionShare, present, needed, $"The compression/rebound split leaves the mean, and so the window, as it is; only if the heave maximum need hold in compression strokes alone, a mean of {lower.Coefficient / 1e3:F2} kN·s/m with compression at most {needed * 100:F0} % of it ({now}) serves both.");
    }

    /// <summary>A whole number on the far side of a value as seen from the present one, so that what is written down is open too.</summary>
    private static double Beyond(double value, double present) => value > present ? Math.Ceiling(value) : Math.Floor(value);

    /// <summary>What a change of the roll stiffness does to the steady roll of the body, in words.</summary>
    private string Gradient(AssembledHalfCar changed)
    {
        static double DegPerG(AssembledHalfCar car) => Math.Abs(FrequencyResponse.SteadyRoll(LinearHalfCar.AtRest(car))) * HalfCar.StandardGravity / PerDegree;
        var (now, then) = (DegPerG(_study.Stand(_car)), DegPerG(_study.Stand(changed)));
        return FormattableString.Invariant($", with {(then > now ? "more" : "less")} roll: the gradient goes from {now:F1} to {then:F1} deg/g");
    }

    /// <summary>Whether a variation leaves some setting where it stands.</summary>
    private bool Opens(Func<AssembledHalfCar> variation) => WindowOf(() => _study.Stand(variation()), _verdict.Targets)?.IsOpen == true;

    /// <summary>The value nearest to the present one that opens the window, to a thousandth of a step; null if none does.</summary>
    private double? Nearest(double present, double lowest, double highest, Func<double, AssembledHalfCar> variation)
    {
        bool IsOpenAt(double value) => Opens(() => variation(value));
        var (down, up) = ((lowest - present) / Steps, (highest - present) / Steps);
        for (var k = 1; k <= Steps; k++)
        {
            foreach (var step in (double[])[down, up])
            {
                var value = present + (k * step);
                if (step * (highest - lowest) == 0 || !IsOpenAt(value))
                    continue;
                return Bisect(IsOpenAt, value, value - step);
            }
        }

        return null;
    }

    /// <summary>The edge between an open and a closed value, on its open side.</summary>
    private static double Bisect(Func<double, bool> isOpen, double open, double closed)
    {
        var resolution = 1e-3 * Math.Abs(open - closed);
        while (Math.Abs(open - closed) > resolution)
        {
            var middle = (open + closed) / 2;
            if (isOpen(middle))
                open = middle;
            else
                closed = middle;
        }

        return open;
    }
}
