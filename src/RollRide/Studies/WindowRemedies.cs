using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Packaging;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>
/// Finds what would open a closed window, one change at a time, each from the eigenvalues. A case in one of several load states needs a setting that
/// serves in all of them, so what is looked for opens the window that they share.
/// </summary>
internal sealed class WindowRemedies
{
    // How far each thing is tried, and in how many steps each way; common practice, no source.
    internal const double InnermostShare = 0.1; // of the half-track
    internal const double TrackChange = 0.3;
    private const double DualClearance = 1e-3; // of the spacing, left between the inner tyres' centres
    internal const double StiffestBar = 3; // times the present roll stiffness of the bar
    private const double LeastCompressionShare = 0.4; // rebound then is four times compression
    private const int Steps = 16;

    private readonly StudyCase _study;
    private readonly ImmutableArray<StudyCase> _states;
    private readonly AssembledHalfCar _car;
    private readonly WindowVerdict _verdict;
    private readonly SettingWindow? _common;
    private readonly CancellationToken _cancellation;

    /// <summary>Looks for remedies of a layout, in the terms of the scenario: what is changed is changed as written, and judged as it stands then.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout as written.</param>
    /// <param name="verdict">Its window in the case's load state.</param>
    /// <param name="cancellation">Stops the search.</param>
    public WindowRemedies(StudyCase study, DamperLayout layout, WindowVerdict verdict, CancellationToken cancellation)
    {
        (_study, _car, _verdict, _cancellation) = (study, new AssembledHalfCar(study.Vehicle, layout), verdict, cancellation);
        _states = study.Load is null || study.Loads.Length < 2 ? [study] : [.. study.Loads.Select(load => study with { Load = load })];
        _common = _states.Length == 1 ? verdict.Window : CommonOf(() => _car);
    }

    /// <summary>All remedies, in the order in which they are asked about; none where one setting serves already.</summary>
    public ImmutableArray<WindowRemedy> Find() => _common is { IsOpen: true } ? [] : [DamperPosition(), SpringPosition(), AntiRollBar(), Track(), Split()];

    /// <summary>
    /// The window of a variation; null where it cannot be built, cannot stand, is unstable, or its axle does not swing: a linkage locks, or a
    /// spring table ends short of the load.
    /// </summary>
    public static SettingWindow? WindowOf(Func<AssembledHalfCar> variation, DampingTargets targets)
    {
        try
        {
            return SettingWindow.Find(variation(), targets);
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
            return new WindowRemedy(RemedyKind.DamperPosition, null, null);
        var needed = Nearest(present, 0, halfTrack, y => LayoutVariation.WithDampersShifted(_car, y - present));
        if (needed is { } place && fitting is LiveAxleMountFitting mounts)
        {
            var moved = new MovedMounts(mounts, axleEnd => Opens(() => LayoutVariation.WithDampersShifted(_car, axleEnd - mounts.AxleEnd.Y)));
            return moved.To(mounts.AxleEnd.Y + place - present, present, [.. _states.Select(RoomIn).OfType<PackagingSpace>()], _cancellation);
        }

        return new WindowRemedy(RemedyKind.DamperPosition, present, needed)
        {
            RollRatio = needed is { } y ? (fitting.RollRatio, y / halfTrack * fitting.HeaveRatio) : null,
        };
    }

    private WindowRemedy SpringPosition()
    {
        var fitting = _car.Vehicle.Spring.Fitting;
        var halfTrack = _car.Vehicle.HalfTrack;
        if (!LayoutVariation.CanMove(_car.Vehicle, fitting))
            return new WindowRemedy(RemedyKind.SpringPosition, null, null);
        var present = LayoutVariation.PositionOf(fitting, halfTrack);
        var needed = Nearest(present, InnermostShare * halfTrack, halfTrack, y => LayoutVariation.WithSpringsShifted(_car, y - present));
        return new WindowRemedy(RemedyKind.SpringPosition, present, needed)
        {
            RollGradient = needed is { } y ? Gradients(LayoutVariation.WithSpringsShifted(_car, y - present)) : null,
        };
    }

    private WindowRemedy AntiRollBar()
    {
        var present = _car.Vehicle.AntiRollBar;
        if (present == 0)
            return new WindowRemedy(RemedyKind.AntiRollBar, 0, null);
        var needed = Nearest(present, 0, StiffestBar * present, stiffness => LayoutVariation.WithBar(_car, stiffness));
        return new WindowRemedy(RemedyKind.AntiRollBar, present, needed) { RollGradient = needed is { } bar ? Gradients(LayoutVariation.WithBar(_car, bar)) : null };
    }

    private WindowRemedy Track()
    {
        var present = _car.Vehicle.HalfTrack;

        // Dual tyres need their spacing between the sides.
        var narrowest = Math.Max((1 - TrackChange) * present, (1 + DualClearance) * (_car.Vehicle.Tyre.DualSpacing ?? 0) / 2);
        var needed = Nearest(present, Math.Min(narrowest, present), (1 + TrackChange) * present, halfTrack => LayoutVariation.WithHalfTrack(_car, halfTrack));
        return new WindowRemedy(RemedyKind.Track, 2 * present, 2 * needed);
    }

    /// <summary>
    /// Both modes see the mean of compression and rebound: in roll one damper closes while the other opens, in heave both do the
    /// one after the other. Only a heave maximum that need hold in compression alone leaves room for a split.
    /// </summary>
    private WindowRemedy Split()
    {
        var velocity = _verdict.Targets.Velocity;
        var mean = _car.Layout.EquivalentCoefficient(velocity);
        var present = _car.Layout.EquivalentCoefficient(velocity, DampingDirection.Compression) / mean;
        var window = _common ?? _verdict.Window;
        var (lower, upper) = (window.Lower, window.Upper);
        var needed = upper.Binding == DampingTarget.HeaveMaximum && !double.IsInfinity(lower.Coefficient) ? upper.Coefficient / lower.Coefficient : 0;
        return new WindowRemedy(RemedyKind.CompressionShare, present, needed < LeastCompressionShare ? null : needed);
    }

    /// <summary>What a change of the roll stiffness does to the steady roll of the body, rad per m/s².</summary>
    private (double Now, double Then) Gradients(AssembledHalfCar changed)
    {
        static double Of(AssembledHalfCar car) => Math.Abs(FrequencyResponse.SteadyRoll(LinearHalfCar.AtRest(car)));
        return (Of(_study.Stand(_car)), Of(_study.Stand(changed)));
    }

    /// <summary>The room around the dampers as they stand in a load state.</summary>
    private PackagingSpace? RoomIn(StudyCase state) => state.Room(_car.Layout)?.Around(state.Stand(_car).Layout);

    /// <summary>Whether a variation leaves some setting that serves where it stands, in every load state.</summary>
    private bool Opens(Func<AssembledHalfCar> variation) => CommonOf(variation)?.IsOpen == true;

    /// <summary>The window that a variation has in all load states; null where it has none in one of them.</summary>
    private SettingWindow? CommonOf(Func<AssembledHalfCar> variation)
    {
        var windows = new List<SettingWindow>();
        foreach (var state in _states)
        {
            if (WindowOf(() => state.Stand(variation()), _verdict.Targets) is not { } window)
                return null;
            windows.Add(window);
        }

        return SettingWindow.Common(windows);
    }

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
