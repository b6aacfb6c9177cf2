using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Looks for a single change that lets a layout meet all targets in every load state, each tried from the eigenvalues as it would be drawn.</summary>
/// <param name="states">What was found in each load state.</param>
/// <param name="index">Place of the layout.</param>
/// <param name="cancellation">Stops the search.</param>
internal sealed class TargetRemedies(IReadOnlyList<ComparisonFindings> states, int index, CancellationToken cancellation)
{
    // Upper over lower edge of a window that leaves the dampers a tolerance of ±5 %; common practice, no source.
    private const double LeastRoom = 1.1;

    // Steps such as a drawing would carry; common practice, no source. As far as WindowRemedies goes.
    private const double PlaceStep = 0.01;
    private const double WidthStep = 0.02;
    private const double BarSteps = 20;
    private const int ScaleDecimals = 2;

    private readonly StudyCase _study = states[0].Study;
    private readonly DampingTargets _targets = states[0].Study.Targets!;
    private readonly AssembledHalfCar _written = new(states[0].Study.Vehicle, states[0].Study.Layouts[index]);

    /// <summary>The first that works, those first whose effect is certain and that cost least; null if none does.</summary>
    public TargetRemedy? First()
    {
        Func<TargetRemedy?> moving = DamperPosition;
        Func<TargetRemedy?>[] others = [AntiRollBar, SpringPosition];
        Func<TargetRemedy?>[] inOrder = _study.Placement is null ? [Setting, .. others, moving, Track] : [Setting, moving, .. others, Track];
        return inOrder.Select(remedy => remedy()).FirstOrDefault(remedy => remedy is not null);
    }

    private TargetRemedy? Setting() => Tried(null, 0, 0, _written);

    private TargetRemedy? DamperPosition()
    {
        var fitting = _written.Layout.Fitting;
        if (!LayoutVariation.CanMove(_written.Vehicle, fitting))
            return null;
        var (halfTrack, present) = (_written.Vehicle.HalfTrack, LayoutVariation.PositionOf(fitting, _written.Vehicle.HalfTrack));
        return Nearest(present, PlaceStep, 0, halfTrack, position =>
        {
            var moved = LayoutVariation.WithDampersShifted(_written, position - present);
            var fits = states.Select(state => Fits(state.Study, moved.Layout)).Min();
            return fits == false ? null : Tried(RemedyKind.DamperPosition, present, position, moved) is { } remedy
                ? remedy with { Fits = fits, Mounts = moved.Layout.Fitting is LiveAxleMountFitting mounts ? (mounts.AxleEnd, mounts.BodyEnd) : null }
                : null;
        });
    }

    /// <summary>Whether a layout fits its place in a load state; null where that is not known.</summary>
    private bool? Fits(StudyCase state, DamperLayout layout) =>
        state.Room(layout) is { } room ? PlaceCheck.Of(room, state.InRoom(layout), cancellation)?.Fits : null;

    private TargetRemedy? SpringPosition()
    {
        var fitting = _written.Vehicle.Spring.Fitting;
        if (!LayoutVariation.CanMove(_written.Vehicle, fitting))
            return null;
        var (halfTrack, present) = (_written.Vehicle.HalfTrack, LayoutVariation.PositionOf(fitting, _written.Vehicle.HalfTrack));
        return Nearest(present, WidthStep / 2, WindowRemedies.InnermostShare * halfTrack, halfTrack, position =>
            Tried(RemedyKind.SpringPosition, present, position, LayoutVariation.WithSpringsShifted(_written, position - present)));
    }

    private TargetRemedy? AntiRollBar()
    {
        var present = _written.Vehicle.AntiRollBar;
        return present == 0 ? null : Nearest(present, present / BarSteps, 0, WindowRemedies.StiffestBar * present, stiffness =>
            Tried(RemedyKind.AntiRollBar, present, stiffness, LayoutVariation.WithBar(_written, stiffness)));
    }

    private TargetRemedy? Track()
    {
        var present = _written.Vehicle.Track;
        return Nearest(present, WidthStep, Math.Max((1 - WindowRemedies.TrackChange) * present, _written.Vehicle.Tyre.DualSpacing + WidthStep ?? 0), (1 + WindowRemedies.TrackChange) * present, track =>
            Tried(RemedyKind.Track, present, track, LayoutVariation.WithHalfTrack(_written, track / 2)));
    }

    /// <summary>The change nearest to the present value that works, step by step to both sides.</summary>
    private static TargetRemedy? Nearest(double present, double step, double lowest, double highest, Func<double, TargetRemedy?> at)
    {
        for (var k = 1; present - (k * step) >= lowest || present + (k * step) <= highest; k++)
        {
            foreach (var value in (double[])[present + (k * step), present - (k * step)])
            {
                if (value >= lowest && value <= highest && at(value) is { } remedy)
                    return remedy;
            }
        }

        return null;
    }

    /// <summary>A change with the setting in the middle of the window that it opens; null where it opens none with room, or cannot be built or stand.</summary>
    private TargetRemedy? Tried(RemedyKind? kind, double present, double value, AssembledHalfCar changed)
    {
        cancellation.ThrowIfCancellationRequested();
        try
        {
            AssembledHalfCar[] standing = [.. states.Select(state => state.Study.Stand(changed))];
            var window = SettingWindow.Common([.. standing.Select(car => SettingWindow.Find(car, _targets))]);
            if (!window.IsOpen || window.Upper.Coefficient < LeastRoom * window.Lower.Coefficient)
                return null;
            var verdict = states[0].Result.Layouts[index].Window! with { Window = window };
            var scale = Math.Round((verdict.LowerScale + verdict.UpperScale) / 2, ScaleDecimals);
            var coefficient = verdict.FrictionCoefficient + (scale * (verdict.Coefficient - verdict.FrictionCoefficient));
            return double.IsFinite(coefficient) && standing.All(car => Meets(car, coefficient))
                ? new TargetRemedy(kind, present, value, scale) { RollGradient = (Gradient(states.Select(state => state.Result.Layouts[index].Car)), Gradient(standing)) }
                : null;
        }
        catch (Exception e) when (e is ArgumentException or NoRestPositionException or UnstableBodyException or UnnamedModesException)
        {
            return null;
        }
    }

    private bool Meets(AssembledHalfCar car, double coefficient)
    {
        var modes = ModeFollower.Solve(LinearHalfCar.AtRest(car).WithShares(car.Layout.SideShares(_targets.Velocity)), coefficient);
        return _targets.All.All(target => _targets.Margin(target, modes) >= 0);
    }

    private static double Gradient(IEnumerable<AssembledHalfCar> cars) => cars.Max(car => Math.Abs(FrequencyResponse.SteadyRoll(LinearHalfCar.AtRest(car))));
}
