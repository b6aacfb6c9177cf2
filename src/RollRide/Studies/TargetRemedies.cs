using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>
/// Looks for a single change that lets a layout meet all targets in every load state: each is tried from the eigenvalues as it would be drawn, and the
/// manoeuvre is driven with it.
/// </summary>
/// <param name="states">What was found in each load state.</param>
/// <param name="layout">The layout: where it is judged on the whole vehicle, its changes are too.</param>
/// <param name="quantities">The quantities in which a change may cost something.</param>
/// <param name="cancellation">Stops the search.</param>
internal sealed class TargetRemedies(IReadOnlyList<ComparisonFindings> states, LayoutVerdict layout, IEnumerable<DecidingQuantity> quantities, CancellationToken cancellation)
{
    // Steps such as a drawing would carry; common practice, no source.
    private const double PlaceStep = 0.01;
    private const double WidthStep = 0.02;
    private const double BarSteps = 20;
    private const double ScaleSteps = 100; // to a factor of 1

    // Of the tolerance; with less room a change is no remedy, however its dampers are picked. Common practice, no source.
    private const double LeastRoom = 0.5;

    private readonly StudyCase _study = states[0].Study;
    private readonly DampingTargets _targets = states[0].Study.Targets!;
    private readonly DamperTolerance _tolerance = DamperTolerance.Of(states[0].Study, states[0].Study.Layouts[layout.Index], states[0].Study.Targets!.Velocity);
    private readonly AssembledHalfCar _written = new(states[0].Study.Vehicle, states[0].Study.Layouts[layout.Index]);

    /// <summary>
    /// The changes in the order in which they are preferred, those first whose effect is certain and that cost least, up to the first that works: one that leaves room for the
    /// whole tolerance, or where none does, one that leaves half of it.
    /// </summary>
    /// <param name="goesOn">Whether those after it are tried too; none is where another setting of the damper alone works.</param>
    public ImmutableArray<TriedChange> Try(bool goesOn)
    {
        var whole = Try(_tolerance.Share, goesOn);
        if (whole.Any(change => change.Works))
            return whole;
        var some = Try(LeastRoom * _tolerance.Share, goesOn);
        return some.Any(change => change.Works) ? some : [.. whole.Zip(some, (one, other) => one.Found is null ? other : one)];
    }

    private ImmutableArray<TriedChange> Try(double room, bool goesOn)
    {
        (RemedyKind? Kind, Func<double, Draft?> Draft) setting = (null, Setting), moving = (RemedyKind.DamperPosition, DamperPosition), track = (RemedyKind.Track, Track);
        (RemedyKind? Kind, Func<double, Draft?> Draft)[] others = [(RemedyKind.AntiRollBar, AntiRollBar), (RemedyKind.SpringPosition, SpringPosition)];
        (RemedyKind? Kind, Func<double, Draft?> Draft)[] inOrder = _study.Placement is null ? [setting, .. others, moving, track] : [setting, moving, .. others, track];
        var tried = ImmutableArray.CreateBuilder<TriedChange>();
        foreach (var (kind, draft) in inOrder)
        {
            tried.Add(draft(room) is { } found ? Driven(kind, found) : new TriedChange(kind, null, []));
            if (tried[^1].Works && (kind is null || !goesOn))
                break;
        }

        return tried.ToImmutable();
    }

    /// <summary>The change with what it costs in the manoeuvre, or with what bars it.</summary>
    private TriedChange Driven(RemedyKind? kind, Draft draft)
    {
        try
        {
            // Side by side, the layout at present and changed are compared like any two.
            ComparisonFindings[] pairs = [.. states.Select(state => Pair(state, draft.Changed))];
            ImmutableArray<ObstacleKind> against =
            [
                .. pairs.SelectMany(pair => LayoutVerdict.ObstaclesOf(pair, 1, null)).Select(obstacle => obstacle.Kind).Distinct(),
                .. pairs.Any(LeavesTravel) ? new[] { ObstacleKind.BeyondTravel } : [],
            ];
            if (!against.IsEmpty)
                return new TriedChange(kind, draft.Remedy, against);
            var hops = pairs.Select(pair => (Present: HopOf(pair, 0), Then: HopOf(pair, 1))).ToArray();
            var priced = draft.Remedy with
            {
                Prices =
                [
                    .. (from quantity in quantities
                        let worst = pairs.MaxBy(pair => quantity.Loss(pair, 1, 0))
                        where quantity.Loss(worst, 1, 0) > 0
                        select new RemedyPrice(quantity, worst.Study.Load?.Name, quantity.In(worst, 0)!.Value, quantity.In(worst, 1)!.Value))
                    .DistinctBy(price => (price.Quantity.Unit, price.Present, price.Then)),
                ],
                HopDampingRatio = hops.MaxBy(hop => Math.Abs(hop.Then - hop.Present)),
            };
            return new TriedChange(kind, priced, []);
        }
        catch (StudyException)
        {
            return new TriedChange(kind, draft.Remedy, [ObstacleKind.NotDriven]);
        }
    }

    /// <summary>The layout at present and changed, over the same roads.</summary>
    private ComparisonFindings Pair(ComparisonFindings state, AssembledHalfCar changed)
    {
        var study = state.Study with { Vehicle = changed.Vehicle, Layouts = [changed.Layout], Settings = ImmutableDictionary<string, DesignSetting>.Empty };
        return new ComparisonFindings(new ComparisonResult(state.Study, [state.Result.Layouts[layout.Index], Comparison.RunLayout(study, changed.Layout, cancellation)]))
        {
            Seeds = state.Seeds.Count == 0 ? [] : [state.Seeds[layout.Index], .. RideStudy.Run(study, state.Seeds[layout.Index].Runs.Length, cancellation: cancellation)],
        };
    }

    private static double HopOf(ComparisonFindings pair, int layout) => pair.Result.Layouts[layout].Window!.Modes[ModeName.Hop].DampingRatio;

    /// <summary>Whether the run with the change leaves the travel that the vehicle gives, farther than without it.</summary>
    private static bool LeavesTravel(ComparisonFindings pair) => pair.Runs(1)
        .SelectMany(run => TravelOverrun.Of(pair.Result.Layouts[1].Car.Vehicle, run.Whole))
        .Any(overrun => overrun.Value > pair.Runs(0).Max(present => overrun.Kind switch
        {
            TravelKind.Bump => present.Whole.BumpTravelPeak,
            TravelKind.Rebound => present.Whole.ReboundTravelPeak,
            _ => present.Whole.SuspensionRollPeak,
        }));

    private Draft? Setting(double room) => Tried(null, 0, 0, () => _written, room);

    private Draft? DamperPosition(double room) => Nearest(SingleChange.DamperPosition(_written), PlaceStep, (change, position) =>
    {
        if (Tried(change, position, room) is not { } draft)
            return null;
        var moved = change.At(position).Layout;
        var fits = states.Select(state => Fits(state.Study, moved)).Min();
        return fits == false ? null : draft with { Remedy = draft.Remedy with { Fits = fits, Mounts = moved.Fitting is LiveAxleMountFitting mounts ? (mounts.AxleEnd, mounts.BodyEnd) : null } };
    });

    /// <summary>Whether a layout fits its place in a load state; null where that is not known.</summary>
    private bool? Fits(StudyCase state, DamperLayout layout) =>
        state.Room(layout) is { } room ? PlaceCheck.Of(room, state.InRoom(layout), cancellation)?.Fits : null;

    private Draft? SpringPosition(double room) => Nearest(SingleChange.SpringPosition(_written), WidthStep / 2, (change, value) => Tried(change, value, room));

    private Draft? AntiRollBar(double room) => Nearest(SingleChange.AntiRollBar(_written), _written.Vehicle.AntiRollBar / BarSteps, (change, value) => Tried(change, value, room));

    private Draft? Track(double room) => Nearest(SingleChange.Track(_written), WidthStep, (change, value) => Tried(change, value, room));

    /// <summary>The value nearest to the present one that works, step by step to both sides; null without a change.</summary>
    private static Draft? Nearest(SingleChange? change, double step, Func<SingleChange, double, Draft?> at)
    {
        if (change is null)
            return null;
        for (var k = 1; change.Present - (k * step) >= change.Lowest || change.Present + (k * step) <= change.Highest; k++)
        {
            foreach (var value in (double[])[change.Present + (k * step), change.Present - (k * step)])
            {
                if (value >= change.Lowest && value <= change.Highest && at(change, value) is { } draft)
                    return draft;
            }
        }

        return null;
    }

    private Draft? Tried(SingleChange change, double value, double room) => Tried(change.Kind, change.Present, value, () => change.At(value), room);

    /// <summary>A change with the setting nearest to the present one in the window that it opens; null where it opens none with so much room, or cannot be built or stand.</summary>
    private Draft? Tried(RemedyKind? kind, double present, double value, Func<AssembledHalfCar> variation, double room)
    {
        cancellation.ThrowIfCancellationRequested();
        if (StandingVariation.Of([.. states.Select(state => state.Study)], variation, _targets) is not { } alone || Scale(alone, room) is null)
            return null;
        return (layout.IsJudgedOnVehicle ? alone.WithVehicle(_targets, _study.Analysis.IncludeFriction) : alone) is { } standing && Scale(standing, room) is { } scale
            && new[] { (1 - room) * scale, scale, (1 + room) * scale }.All(tried => standing.Cars.Zip(standing.Settings).All(state => Meets(state.First, state.Second.At(tried))))
            ? new Draft(
                new TargetRemedy(kind, present, value, scale)
                {
                    Tolerance = _tolerance,
                    Room = room,
                    RollGradient = (StandingVariation.RollGradient(states.Select(state => state.Result.Layouts[layout.Index].Car)), StandingVariation.RollGradient(standing.Cars)),
                },
                Scaled(variation(), scale))
            : null;
    }

    /// <summary>The factor on the curve nearest to 1 that leaves the room in a window; null where there is none.</summary>
    private static double? Scale(StandingVariation standing, double room)
    {
        var (first, window) = (standing.Settings[0], standing.Window);
        return room < 1 && window.IsOpen ? Nearest(first.ScaleOf(window.Lower.Coefficient) / (1 - room), first.ScaleOf(window.Upper.Coefficient) / (1 + room)) : null;
    }

    /// <summary>The factor on the curve nearest to 1 between two, such as a drawing would carry; null where there is none.</summary>
    private static double? Nearest(double lower, double upper)
    {
        var (low, high) = (Math.Ceiling(lower * ScaleSteps) / ScaleSteps, Math.Floor(upper * ScaleSteps) / ScaleSteps);
        return low <= high ? Math.Clamp(1, low, high) : null;
    }

    private bool Meets(AssembledHalfCar car, double coefficient)
    {
        bool Holds(ModeSet modes) => _targets.All.All(target => _targets.Margin(target, modes) >= 0);
        return Holds(ModeFollower.Solve(LinearHalfCar.AtRest(car).WithShares(car.Layout.SideShares(_targets.Velocity)), coefficient))
            && (!layout.IsJudgedOnVehicle || Holds(((IModeFollower)new VehicleModeFollower(car, _targets.Velocity, _study.Analysis.IncludeFriction)).At(coefficient)));
    }

    private static AssembledHalfCar Scaled(AssembledHalfCar car, double scale) =>
        new(car.Vehicle, car.Layout.With(side => side with { Damper = side.Damper with { Curve = side.Damper.Curve.Scaled(scale) } }));

    /// <summary>A change, and the vehicle with it at its design load.</summary>
    private sealed record Draft(TargetRemedy Remedy, AssembledHalfCar Changed);
}
