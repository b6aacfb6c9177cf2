using System.Collections.Immutable;
using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Studies;

/// <summary>A quantity of the run that decides between layouts, beside the targets.</summary>
/// <param name="Name">Its name as said in a sentence.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Decimals">Decimals shown.</param>
/// <param name="Better">Which way it is better.</param>
/// <param name="IsOfRoad">Whether the road has a part in it, so that another random road gives another value.</param>
/// <param name="Shown">Takes it from a run, in its unit; null where it is not defined.</param>
public sealed record DecidingQuantity(
    string Name, Unit Unit, int Decimals, Better Better, bool IsOfRoad, Func<RunMetrics, RideMetrics?, double?> Shown)
{
    /// <summary>Whether it counts only where the layouts differ in it: elsewhere it would repeat what another quantity says.</summary>
    public bool IsDetail { get; init; }

    /// <summary>Whether it is told as a gain or a price, but is no ground to choose by.</summary>
    public bool IsToldOnly { get; init; }

    /// <summary>Whether it is an extreme of the run, which on a random road is chance.</summary>
    public bool IsExtreme { get; init; }

    /// <summary>The value that stands for more than itself, where a run is followed no longer; null where every value is exact.</summary>
    public double? Beyond { get; init; }

    /// <summary>Whether a difference in it counts: not in an extreme of one random road, since another road of its class has another one.</summary>
    /// <param name="state">The load state.</param>
    public bool Counts(ComparisonFindings state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return !(IsExtreme && state.IsOfOneRandomRoad);
    }

    /// <summary>The largest roll angle in the corner by itself, from rest.</summary>
    public static DecidingQuantity LargestRoll { get; } = new(
        "largest roll angle from rest", RollMetric.RollAnglePeak.Unit, 1, Better.Less, false,
        (run, _) => run.RollResponse is null || RollMetric.RollAnglePeak.Shown(run) is not { } angle ? null : Math.Abs(angle));

    private static DecidingQuantity Overshoot { get; } = new(
        "roll overshoot from rest", RollMetric.RollOvershoot.Unit, 0, Better.Less, false,
        (run, _) => run.RollResponse is null ? null : RollMetric.RollOvershoot.Shown(run));

    private static DecidingQuantity OvershootToStep { get; } = new(
        "roll overshoot to a step", RollMetric.RollOvershootToStep.Unit, 0, Better.Less, false,
        (run, _) => RollMetric.RollOvershootToStep.Shown(run));

    /// <summary>The quantities of a case, in the order in which they decide.</summary>
    /// <param name="study">The case.</param>
    public static ImmutableArray<DecidingQuantity> Of(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        var manoeuvre = study.Manoeuvre;
        return
        [
            .. manoeuvre.HasCorner ? new[] { OfCorner(manoeuvre.Cornering) } : [],
            manoeuvre.Road.Unevenness is null
                ? new("weighted seat acceleration", PhaseMetric.SeatWeightedRms.Unit, 2, Better.Less, true, (run, _) => PhaseMetric.SeatWeightedRms.Shown(run.Whole))
                : new("weighted acceleration at the worst seat", RideMetric.RideSeatTotal.Unit, 2, Better.Less, true, (_, ride) => ride is null ? null : RideMetric.RideSeatTotal.Shown(ride)),
            LeastLoad("least tyre load", run => run.Whole),
            .. manoeuvre.HasCorner ? StraightPhases(manoeuvre).Select(i => LeastLoad($"least tyre load in phase “{manoeuvre.Phases[i].Name}”", run => run.Phases[i]) with { IsDetail = true }) : [],
            // On a straight road less roll damping may lower it; what that costs shows in a corner alone.
            .. manoeuvre.Road.Unevenness is null ? [] : StraightPhases(manoeuvre).Select(i => OfPhase("RMS roll acceleration", PhaseMetric.RollAccelerationRms, manoeuvre, i) with { IsDetail = true, IsToldOnly = true }),
        ];
    }

    /// <summary>
    /// What decides nothing, and is a price all the same where it gets noticeably worse: all else that a comparison shows and that has a better way. A row with a better way
    /// that is added to the comparison's table is added here.
    /// </summary>
    /// <param name="study">The case.</param>
    public static ImmutableArray<DecidingQuantity> PricedOnly(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        var manoeuvre = study.Manoeuvre;
        return
        [
            .. manoeuvre.HasCorner ? new[] { LargestRoll, Overshoot, OvershootToStep, SettlingTime(manoeuvre.Cornering.Alone.Duration) } : [],
            .. Enumerable.Range(0, manoeuvre.Phases.Length).Where(i => manoeuvre.Road.IsUneven(manoeuvre.Phases[i].Start, manoeuvre.Phases[i].End))
                .SelectMany(i => new[] { OfPhase("RMS body acceleration", PhaseMetric.BodyAccelerationRms, manoeuvre, i), OfPhase("RMS roll acceleration", PhaseMetric.RollAccelerationRms, manoeuvre, i) }),
            OfRun("weighted vertical seat acceleration over the whole run", PhaseMetric.SeatWeightedRms, 2),
            OfRun("tyre load change over the whole run", PhaseMetric.DynamicLoadCoefficient, 3),
            .. manoeuvre.Road.Unevenness is null ? [] : new[] { OfRide("dynamic load coefficient", RideMetric.RideDynamicLoadCoefficient, 3) },
            OfRun("time with a wheel off the road", PhaseMetric.LiftOffTime, 3) with { IsExtreme = true },
            OfRun("bump stop contacts", PhaseMetric.BumpStopContacts, 0) with { IsExtreme = true },
            OfRun("rebound stop contacts", PhaseMetric.ReboundStopContacts, 0) with { IsExtreme = true },
        ];
    }

    /// <summary>Its value with a layout in a load state: over several random roads the mean, otherwise that of the one run; of unlike sides the worse of the manoeuvre and its mirror image.</summary>
    /// <param name="state">The load state.</param>
    /// <param name="layout">The layout's place.</param>
    /// <returns>Null where it is not defined.</returns>
    public double? In(ComparisonFindings state, int layout)
    {
        if (Interval(state, layout) is { } interval)
            return interval.Mean;
        var result = state.Result.Layouts[layout];
        return Worse(Shown(result.Metrics, result.Ride), result.Mirrored is { } mirrored ? Shown(mirrored, result.MirroredRide) : null);
    }

    /// <summary>Its mean and interval over several random roads; null where there are not several, or the road has no part in it.</summary>
    /// <param name="state">The load state.</param>
    /// <param name="layout">The layout's place.</param>
    public MeanInterval? Interval(ComparisonFindings state, int layout)
    {
        ArgumentNullException.ThrowIfNull(state);
        return IsOfRoad && state.Seeds.Count > 0 ? state.Seeds[layout].Of(OnRoad) : null;
    }

    /// <summary>How much worse one layout is than another in a load state, as a share; 0 where they are similar, it is better, or the difference is no more than chance.</summary>
    internal double Loss(ComparisonFindings state, int layout, int other)
    {
        if (!Counts(state) || In(state, layout) is not { } value || In(state, other) is not { } reference)
            return 0;
        var lost = Better == Better.More ? reference - value : value - reference;
        var share = lost / Noticeable.Whole(Unit, state.Result.Layouts[layout].Car.Vehicle, value, reference);
        return share > Noticeable.Share && !IsChance(state, layout, other) ? share : 0;
    }

    private bool IsChance(ComparisonFindings state, int layout, int other) => Interval(state, layout) is not null
        && !state.Seeds[layout].DifferenceFrom(state.Seeds[other], OnRoad).IsMoreThanChance;

    private double? OnRoad(SeededRun run) => Worse(Shown(run.Metrics, run.Ride), run.Mirrored is { } mirrored ? Shown(mirrored.Metrics, mirrored.Ride) : null);

    private double? Worse(double? driven, double? mirrored) =>
        mirrored is { } value && (driven is not { } first || (Better == Better.More ? value < first : value > first)) ? mirrored : driven;

    /// <summary>A corner that ends straight ahead has no steady angle to go beyond: there the largest angle decides.</summary>
    private static DecidingQuantity OfCorner(ICorneringInput corner) => corner.FinalLateralAcceleration == 0 ? LargestRoll : Overshoot;

    private static DecidingQuantity LeastLoad(string name, Func<RunMetrics, PhaseMetrics> part) => new(
        name, PhaseMetric.TyreLoadMinimum.Unit, 0, PhaseMetric.TyreLoadMinimum.Better, true,
        (run, _) => PhaseMetric.TyreLoadMinimum.Shown(part(run)))
    { IsExtreme = true };

    private static DecidingQuantity SettlingTime(double followed) => new(
        "settling time", RollMetric.RollSettlingTime.Unit, 2, Better.Less, false,
        (run, _) => run.RollResponse?.SettlingTimeOr(followed))
    { Beyond = followed };

    private static DecidingQuantity OfPhase(string name, PhaseMetric metric, Manoeuvre manoeuvre, int index) => new(
        $"{name} in phase “{manoeuvre.Phases[index].Name}”", metric.Unit, 2, metric.Better, true, (run, _) => metric.Shown(run.Phases[index]));

    private static DecidingQuantity OfRun(string name, PhaseMetric metric, int decimals) => new(name, metric.Unit, decimals, metric.Better, true, (run, _) => metric.Shown(run.Whole));

    private static DecidingQuantity OfRide(string name, RideMetric metric, int decimals) => new(name, metric.Unit, decimals, metric.Better, true, (_, ride) => ride is null ? null : metric.Shown(ride));

    /// <summary>The phases over an uneven road before any corner: least load and roll acceleration of the whole run are mostly the corner's, and hide theirs.</summary>
    private static IEnumerable<int> StraightPhases(Manoeuvre manoeuvre) => Enumerable.Range(0, manoeuvre.Phases.Length).Where(i =>
        manoeuvre.Phases[i] is var phase && (!manoeuvre.HasCorner || phase.End <= manoeuvre.Cornering.StartTime)
        && manoeuvre.Road.IsUneven(phase.Start, phase.End));
}
