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
    // In how many steps each way a change is tried, and how unequal a damper may be; common practice, no source.
    private const int Steps = 16;
    private const double LeastCompressionShare = 0.4; // rebound then is four times compression

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
        _common = _states.Length == 1 ? verdict.Window : StandingVariation.Of(_states, () => _car, verdict.Targets)?.Window;
    }

    /// <summary>All remedies, in the order in which they are asked about; none where one setting serves already.</summary>
    public ImmutableArray<WindowRemedy> Find() => _common is { IsOpen: true } ? [] : [DamperPosition(), SpringPosition(), AntiRollBar(), Track(), Split()];

    private WindowRemedy DamperPosition()
    {
        if (SingleChange.DamperPosition(_car) is not { } change)
            return new WindowRemedy(RemedyKind.DamperPosition, null, null);
        var (fitting, needed) = (_car.Layout.Fitting, Nearest(change));
        if (needed is { } place && fitting is LiveAxleMountFitting mounts)
        {
            var moved = new MovedMounts(mounts, axleEnd => Opens(() => LayoutVariation.WithDampersShifted(_car, axleEnd - mounts.AxleEnd.Y)));
            return moved.To(mounts.AxleEnd.Y + place - change.Present, change.Present, [.. _states.Select(RoomIn).OfType<PackagingSpace>()], _cancellation);
        }

        return new WindowRemedy(change.Kind, change.Present, needed)
        {
            RollRatio = needed is { } y ? (fitting.RollRatio, y / _car.Vehicle.HalfTrack * fitting.HeaveRatio) : null,
        };
    }

    private WindowRemedy SpringPosition() => SingleChange.SpringPosition(_car) is { } change ? OfRollStiffness(change) : new WindowRemedy(RemedyKind.SpringPosition, null, null);

    private WindowRemedy AntiRollBar() => SingleChange.AntiRollBar(_car) is { } change ? OfRollStiffness(change) : new WindowRemedy(RemedyKind.AntiRollBar, 0, null);

    private WindowRemedy Track()
    {
        var change = SingleChange.Track(_car);
        return new WindowRemedy(change.Kind, change.Present, Nearest(change));
    }

    /// <summary>A change of the roll stiffness, with what it does to the steady roll of the body in the case's load state.</summary>
    private WindowRemedy OfRollStiffness(SingleChange change)
    {
        double Gradient(AssembledHalfCar written) => StandingVariation.RollGradient([_study.Stand(written)]);
        var needed = Nearest(change);
        return new WindowRemedy(change.Kind, change.Present, needed) { RollGradient = needed is { } value ? (Gradient(_car), Gradient(change.At(value))) : null };
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
        return needed < LeastCompressionShare
            ? new WindowRemedy(RemedyKind.CompressionShare, present, null)
            : new WindowRemedy(RemedyKind.CompressionShare, present, needed) { Mean = lower.Coefficient };
    }

    /// <summary>The room around the dampers as they stand in a load state.</summary>
    private PackagingSpace? RoomIn(StudyCase state) => state.Room(_car.Layout)?.Around(state.Stand(_car).Layout);

    /// <summary>Whether a variation leaves some setting that serves where it stands, in every load state.</summary>
    private bool Opens(Func<AssembledHalfCar> variation)
    {
        _cancellation.ThrowIfCancellationRequested();
        return StandingVariation.Of(_states, variation, _verdict.Targets)?.Window.IsOpen == true;
    }

    /// <summary>The value nearest to the present one that opens the window, to a thousandth of a step; null if none does.</summary>
    private double? Nearest(SingleChange change)
    {
        bool IsOpenAt(double value) => Opens(() => change.At(value));
        var (down, up) = ((change.Lowest - change.Present) / Steps, (change.Highest - change.Present) / Steps);
        for (var k = 1; k <= Steps; k++)
        {
            foreach (var step in (double[])[down, up])
            {
                var value = change.Present + (k * step);
                if (step != 0 && IsOpenAt(value))
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
