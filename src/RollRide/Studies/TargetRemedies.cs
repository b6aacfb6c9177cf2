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

    // Steps such as a drawing would carry; common practice, no source.
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

    private TargetRemedy? Setting() => Tried(null, 0, 0, () => _written);

    private TargetRemedy? DamperPosition() => Nearest(SingleChange.DamperPosition(_written), PlaceStep, (change, position) =>
    {
        if (Tried(change, position) is not { } remedy)
            return null;
        var moved = change.At(position).Layout;
        var fits = states.Select(state => Fits(state.Study, moved)).Min();
        return fits == false ? null : remedy with { Fits = fits, Mounts = moved.Fitting is LiveAxleMountFitting mounts ? (mounts.AxleEnd, mounts.BodyEnd) : null };
    });

    /// <summary>Whether a layout fits its place in a load state; null where that is not known.</summary>
    private bool? Fits(StudyCase state, DamperLayout layout) =>
        state.Room(layout) is { } room ? PlaceCheck.Of(room, state.InRoom(layout), cancellation)?.Fits : null;

    private TargetRemedy? SpringPosition() => Nearest(SingleChange.SpringPosition(_written), WidthStep / 2, Tried);

    private TargetRemedy? AntiRollBar() => Nearest(SingleChange.AntiRollBar(_written), _written.Vehicle.AntiRollBar / BarSteps, Tried);

    private TargetRemedy? Track() => Nearest(SingleChange.Track(_written), WidthStep, Tried);

    /// <summary>The value nearest to the present one that works, step by step to both sides; null without a change.</summary>
    private static TargetRemedy? Nearest(SingleChange? change, double step, Func<SingleChange, double, TargetRemedy?> at)
    {
        if (change is null)
            return null;
        for (var k = 1; change.Present - (k * step) >= change.Lowest || change.Present + (k * step) <= change.Highest; k++)
        {
            foreach (var value in (double[])[change.Present + (k * step), change.Present - (k * step)])
            {
                if (value >= change.Lowest && value <= change.Highest && at(change, value) is { } remedy)
                    return remedy;
            }
        }

        return null;
    }

    private TargetRemedy? Tried(SingleChange change, double value) => Tried(change.Kind, change.Present, value, () => change.At(value));

    /// <summary>A change with the setting in the middle of the window that it opens; null where it opens none with room, or cannot be built or stand.</summary>
    private TargetRemedy? Tried(RemedyKind? kind, double present, double value, Func<AssembledHalfCar> variation)
    {
        cancellation.ThrowIfCancellationRequested();
        if (StandingVariation.Of(states.Select(state => state.Study), variation, _targets) is not { Window: { IsOpen: true } window } standing || window.Upper.Coefficient < LeastRoom * window.Lower.Coefficient)
            return null;
        var verdict = states[0].Result.Layouts[index].Window! with { Window = window };
        var scale = Math.Round((verdict.LowerScale + verdict.UpperScale) / 2, ScaleDecimals);
        var coefficient = verdict.FrictionCoefficient + (scale * (verdict.Coefficient - verdict.FrictionCoefficient));
        return double.IsFinite(coefficient) && standing.Cars.All(car => Meets(car, coefficient))
            ? new TargetRemedy(kind, present, value, scale) { RollGradient = (StandingVariation.RollGradient(states.Select(state => state.Result.Layouts[index].Car)), StandingVariation.RollGradient(standing.Cars)) }
            : null;
    }

    private bool Meets(AssembledHalfCar car, double coefficient)
    {
        var modes = ModeFollower.Solve(LinearHalfCar.AtRest(car).WithShares(car.Layout.SideShares(_targets.Velocity)), coefficient);
        return _targets.All.All(target => _targets.Margin(target, modes) >= 0);
    }
}
