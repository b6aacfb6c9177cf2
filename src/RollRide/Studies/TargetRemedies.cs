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
    private const double EndStep = 0.001;
    private const double ScaleSteps = 100; // to a factor of 1

    private readonly StudyCase _study = states[0].Study;
    private readonly DampingTargets _targets = states[0].Study.Targets!;
    private readonly DamperTolerance _tolerance = DamperTolerance.Of(states[0].Study, states[0].Study.Layouts[layout.Index], states[0].Study.Targets!.Velocity);
    private readonly double[] _rooms = RoomsIn(DamperTolerance.Of(states[0].Study, states[0].Study.Layouts[layout.Index], states[0].Study.Targets!.Velocity));
    private readonly AssembledHalfCar _written = new(states[0].Study.Vehicle, states[0].Study.Layouts[layout.Index]);

    /// <summary>
    /// The changes in the order in which they are preferred, those first whose effect is certain and that cost least, up to the first that works with room for the whole
    /// tolerance. Each leaves as much room as any value of it does that can be driven: for the whole tolerance, for half of it, or none.
    /// </summary>
    /// <param name="goesOn">Whether those after it are tried too; none is where another setting of the damper alone works.</param>
    public ImmutableArray<TriedChange> Try(bool goesOn)
    {
        (RemedyKind? Kind, Func<Draft?[]> Drafts) setting = (null, Setting), moving = (RemedyKind.DamperPosition, DamperPosition), track = (RemedyKind.Track, Track);
        (RemedyKind? Kind, Func<Draft?[]> Drafts)[] others = [(RemedyKind.AntiRollBar, AntiRollBar), (RemedyKind.SpringPosition, SpringPosition)];
        (RemedyKind? Kind, Func<Draft?[]> Drafts)[] inOrder = _study.Placement is null ? [setting, .. others, moving, track] : [setting, moving, .. others, track];
        var tried = ImmutableArray.CreateBuilder<TriedChange>();
        foreach (var (kind, drafts) in inOrder)
        {
            tried.Add(Driven(kind, drafts()));
            if (tried[^1].WorksWithRoom && (kind is null || !goesOn))
                break;
        }

        return tried.ToImmutable();
    }

    /// <summary>The first of the drafts of a change that nothing bars when driven; where all are barred, the one with the most room.</summary>
    private TriedChange Driven(RemedyKind? kind, Draft?[] drafts)
    {
        var found = drafts.OfType<Draft>().ToArray();
        TriedChange? first = null;
        foreach (var draft in found.Where((draft, i) => i == 0 || draft.Remedy.HasSomeRoom)) // without room it is no remedy for one with room that is barred
        {
            var tried = Driven(kind, draft);
            if (tried.Against.IsEmpty)
                return tried;
            first ??= tried;
        }

        return first ?? new TriedChange(kind, null, []);
    }

    /// <summary>The change with what it costs in the manoeuvre, or with what bars it.</summary>
    private TriedChange Driven(RemedyKind? kind, Draft draft)
    {
        try
        {
            // Side by side, the layout at present and changed are compared like any two.
            ComparisonFindings[] pairs = [.. states.Select(state => Pair(state, draft.Changed))];
            var overrun = pairs.SelectMany(BeyondTravel).MaxBy(overrun => overrun.Value / overrun.Limit);
            ImmutableArray<ObstacleKind> against =
            [
                .. pairs.SelectMany(pair => LayoutVerdict.ObstaclesOf(pair, 1, null)).Select(obstacle => obstacle.Kind).Distinct(),
                .. overrun is null ? [] : new[] { ObstacleKind.BeyondTravel },
            ];
            if (!against.IsEmpty)
                return new TriedChange(kind, draft.Remedy, against) { Overrun = overrun };
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

    /// <summary>Where the run with the change leaves the travel that the vehicle gives, farther than without it.</summary>
    private static IEnumerable<TravelOverrun> BeyondTravel(ComparisonFindings pair) => pair.Runs(1)
        .SelectMany(run => TravelOverrun.Of(pair.Result.Layouts[1].Car.Vehicle, run.Whole))
        .Where(overrun => overrun.Value > pair.Runs(0).Max(present => overrun.Kind switch
        {
            TravelKind.Bump => present.Whole.BumpTravelPeak,
            TravelKind.Rebound => present.Whole.ReboundTravelPeak,
            _ => present.Whole.SuspensionRollPeak,
        }));

    private Draft?[] Setting() => Tried(null, 0, 0, () => _written);

    private Draft?[] DamperPosition() => Nearest(SingleChange.DamperPosition(_written), PlaceStep, moved =>
    {
        var fits = states.Select(state => Fits(state.Study, moved)).Min();
        return fits == false ? null : remedy => remedy with { Fits = fits, Mounts = moved.Fitting is LiveAxleMountFitting mounts ? (mounts.AxleEnd, mounts.BodyEnd) : null };
    });

    /// <summary>Whether a layout fits its place in a load state; null where that is not known.</summary>
    private bool? Fits(StudyCase state, DamperLayout layout) =>
        state.Room(layout) is { } room ? PlaceCheck.Of(room, state.InRoom(layout), cancellation)?.Fits : null;

    private Draft?[] SpringPosition() => Nearest(SingleChange.SpringPosition(_written), WidthStep / 2);

    private Draft?[] AntiRollBar() => Nearest(SingleChange.AntiRollBar(_written), _written.Vehicle.AntiRollBar / BarSteps);

    private Draft?[] Track() => Nearest(SingleChange.Track(_written), WidthStep);

    /// <summary>For each room the value nearest to the present one that leaves it, step by step to both sides, until one leaves the whole.</summary>
    /// <param name="change">What is changed; null where it cannot be.</param>
    /// <param name="step">The step.</param>
    /// <param name="placing">What is to be said of the layout's place; null where it does not fit. Null itself where no place changes.</param>
    private Draft?[] Nearest(SingleChange? change, double step, Func<DamperLayout, Func<TargetRemedy, TargetRemedy>?>? placing = null)
    {
        var found = new Draft?[_rooms.Length];
        if (change is null)
            return found;
        foreach (var value in Values(change, step))
        {
            var tried = Tried(change.Kind, change.Present, value, () => change.At(value));
            if (!tried.Where((draft, i) => draft is not null && found[i] is null).Any())
                continue;
            Func<TargetRemedy, TargetRemedy>? placed = placing is null ? remedy => remedy : placing(change.At(value).Layout);
            if (placed is null)
                continue;
            for (var i = 0; i < found.Length; i++)
                found[i] ??= tried[i] is { } draft ? draft with { Remedy = placed(draft.Remedy) } : null;
            if (found[0] is not null)
                break;
        }

        return found;
    }

    /// <summary>The values of a change from the present one to both sides, and at last the ends of what is tried, such as beside the tyre.</summary>
    private static IEnumerable<double> Values(SingleChange change, double step)
    {
        for (var k = 1; change.Present - (k * step) >= change.Lowest || change.Present + (k * step) <= change.Highest; k++)
        {
            foreach (var value in (double[])[change.Present + (k * step), change.Present - (k * step)])
            {
                if (value >= change.Lowest && value <= change.Highest)
                    yield return value;
            }
        }

        yield return Math.Max(change.Present, Math.Floor(change.Highest / EndStep) * EndStep);
        yield return Math.Min(change.Present, Math.Ceiling(change.Lowest / EndStep) * EndStep);
    }

    /// <summary>A change with, for each room, the setting nearest to the present one that leaves it in the window that the change opens; null where none does, or it cannot be built or stand.</summary>
    private Draft?[] Tried(RemedyKind? kind, double present, double value, Func<AssembledHalfCar> variation)
    {
        cancellation.ThrowIfCancellationRequested();
        if (StandingVariation.Of([.. states.Select(state => state.Study)], variation, _targets) is not { Window.IsOpen: true } alone
            || (layout.IsJudgedOnVehicle ? alone.WithVehicle(_targets, _study.Analysis.IncludeFriction) : alone) is not { Window: { IsOpen: true } window } standing)
        {
            return new Draft?[_rooms.Length];
        }

        var first = standing.Settings[0];
        var (lower, upper) = (first.ScaleOf(window.Lower.Coefficient), first.ScaleOf(window.Upper.Coefficient));
        Draft? With(double room) =>
            room < 1 && Nearest(lower / (1 - room), upper / (1 + room)) is { } scale
            && new[] { (1 - room) * scale, scale, (1 + room) * scale }.All(tried => standing.Cars.Zip(standing.Settings).All(state => Meets(state.First, state.Second.At(tried))))
            ? new Draft(
                new TargetRemedy(kind, present, value, scale)
                {
                    Tolerance = _tolerance,
                    Room = room,
                    CurveScales = (Up(lower), Down(upper)),
                    RollGradient = (StandingVariation.RollGradient(states.Select(state => state.Result.Layouts[layout.Index].Car)), StandingVariation.RollGradient(standing.Cars)),
                },
                Scaled(variation(), scale))
            : null;
        return [.. _rooms.Select(With)];
    }

    /// <summary>The factor on the curve nearest to 1 between two, such as a drawing would carry; null where there is none.</summary>
    private static double? Nearest(double lower, double upper)
    {
        var (low, high) = (Up(lower), Down(upper));
        return low <= high ? Math.Clamp(1, low, high) : null;
    }

    private static double Up(double scale) => Math.Ceiling(scale * ScaleSteps) / ScaleSteps;

    private static double Down(double scale) => Math.Floor(scale * ScaleSteps) / ScaleSteps;

    /// <summary>The rooms for the dampers' tolerance that are looked for, the widest first.</summary>
    private static double[] RoomsIn(DamperTolerance tolerance) => [tolerance.Share, TargetRemedy.LeastShareOfRoom * tolerance.Share, 0];

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
