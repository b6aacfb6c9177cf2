using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>
/// Minimises, in the time domain, the weighted body acceleration over the bump against the roll overshoot in the corner, over the
/// valvings that the limits allow. With load states each counts with its largest value over them; where these are more than <see cref="FewStates"/>, the search goes
/// on in those alone that were the worst with one of the first settings, and the points of the front are run in all.
/// </summary>
/// <remarks>
/// First settings all over the range (a Sobol sequence), of which those that keep the floors of damping count; then, from the best of them, simplex
/// searches (J. A. Nelder and R. Mead, 1965) for either objective alone and for a fan of directions between them, each minimising the larger of the two weighted
/// objectives (A. P. Wierzbicki's achievement function, 1980; from memory); last, settings midway between neighbours where the
/// front has gaps. All that was simulated counts for the front. No step depends on another thread's, so the result does not
/// depend on the number of cores.
/// </remarks>
public sealed class TradeOff
{
    internal const int Dimensions = 3;

    // The places looked at first are the same in every search.
    private const int Seed = 1;

    // Per unit of the cube: how far the first simplex reaches. The second time round each search starts from the best of all.
    private static readonly double[] Steps = [0.12, 0.04];

    // For each objective alone: starts, and how much longer than for a point of the front the search may take.
    internal const int EndStarts = 2, EndEffort = 2;

    // One direction for so many points of the front; the points between come from filling gaps, so many at once and so many times.
    internal const int PointsPerDirection = 2, GapsAtOnce = 8;

    // Runs that a thread makes side by side: all that wait, but not so many that the other threads are left without.
    private const int RunsInALot = 64;

    // Of more states than this only those are searched in that were the worst with one of the first settings.
    internal const int FewStates = 3;

    // Settings tried for each that is wanted: if none of so many keeps the floors, hardly any does.
    private const int LookedAtPerSample = 20;

    private readonly StudyCase _study;
    private readonly DamperLayout _layout;
    private readonly TuningTask _task;
    private readonly ImmutableArray<LayoutInLoad> _states;
    private readonly ValvingRange _range;
    private readonly FloorCheck _floors;
    private readonly TargetCheck _targets;
    private readonly int _ridePhase;
    private readonly CancellationToken _cancellation;

    /// <summary>Prepares the search for one layout.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout with its present damper, whose rebound over compression is kept.</param>
    /// <param name="task">Limits and settings.</param>
    /// <param name="cancellation">Stops the search.</param>
    /// <exception cref="ArgumentException">The manoeuvre has no phase of the name wanted, or no cornering with a steady roll angle.</exception>
    public TradeOff(StudyCase study, DamperLayout layout, TuningTask task, CancellationToken cancellation = default)
        : this(study, layout, task, LayoutInLoad.AllOf(study ?? throw new ArgumentNullException(nameof(study)), layout ?? throw new ArgumentNullException(nameof(layout))), cancellation)
    {
    }

    /// <summary>Prepares the search for one layout whose load states are known already.</summary>
    internal TradeOff(StudyCase study, DamperLayout layout, TuningTask task, ImmutableArray<LayoutInLoad> states, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(task);
        _study = study;
        _layout = layout;
        _task = task;
        _states = states;
        _range = new ValvingRange(task.Limits, TargetTuning.ReboundToCompression(layout.Damper.AsWritten, task.Heave.DamperVelocity));
        _floors = new FloorCheck(states, task, study.Analysis.ReferenceVelocity, study.Analysis.IncludeFriction);
        _targets = new TargetCheck(states, layout, task, study.Analysis.IncludeFriction);
        _ridePhase = study.Manoeuvre.Phases.ToList().FindIndex(phase => phase.Name == task.TradeOff.RidePhase);
        if (_ridePhase < 0)
            throw new ArgumentException($"The manoeuvre has no phase “{task.TradeOff.RidePhase}”; known: {string.Join(", ", study.Manoeuvre.Phases.Select(p => p.Name))}.", nameof(study));
        if (study.Manoeuvre.Cornering.StartTime >= study.Manoeuvre.Duration || study.Manoeuvre.Cornering.FinalLateralAcceleration == 0)
            throw new ArgumentException("A trade-off against roll overshoot needs cornering that ends with a lateral acceleration.", nameof(study));
        _cancellation = cancellation;
    }

    /// <summary>Searches the front.</summary>
    /// <param name="missed">Where there is no front, the floors of damping that no setting tried has reached; null if there is one.</param>
    /// <param name="progress">Is told the share done, 0 to 1.</param>
    /// <returns>The front; null if there is none.</returns>
    /// <exception cref="StudyException">No setting within the limits could be run, or the present damper cannot.</exception>
    public TradeOffFront? Search(out IReadOnlyList<MissedFloor>? missed, IProgress<double>? progress = null)
    {
        var settings = _task.TradeOff;
        int directions = (settings.Points + PointsPerDirection - 1) / PointsPerDirection;
        int fillings = 2 * settings.Points / GapsAtOnce;
        double total = settings.Samples + (directions + 2 * EndStarts * EndEffort) * settings.TriesPerPoint + fillings * GapsAtOnce;
        double done = 0;
        void Tell()
        {
            if (progress is null)
                return;
            lock (progress)
                progress.Report(Math.Min(1, ++done / total));
        }

        var present = Simulate(_layout, _study.Solver);
        var places = Places(settings.Samples);
        missed = places.Length > 0 ? null : _floors.Missed();
        if (places.Length == 0)
            return null;
        var samples = TryAll(places, _states, Tell);
        var deciding = Deciding(samples);
        var usable = samples.Where(s => s.Point is not null).ToList();
        if (usable.Count == 0)
            throw new StudyException(_layout.Name, new InvalidOperationException("No setting within the limits could be run to the end."));

        var all = samples.ToList();
        foreach (double step in Steps)
        {
            var goals = TradeOffGoals.Of(all, directions, settings.TriesPerPoint / Steps.Length);
            var searches = new List<TradeOffTrial>[goals.Count];
            var runs = new SharedRuns<double[], TradeOffTrial>(goals.Count, places => TryAll(places, deciding, Tell));
            runs.RunSearches(k => searches[k] = SimplexDescent.Run(goals[k].Value, goals[k].Start, step, goals[k].Tries, runs.Make));
            all.AddRange(searches.SelectMany(s => s));
        }

        for (int round = 0; round < fillings; round++)
        {
            double[][] between = TradeOffGoals.WidestGaps(all, settings.Points);
            if (between.Length == 0)
                break;
            all.AddRange(TryAll(between, deciding, Tell));
        }

        var front = TradeOffFront.Thinned(TradeOffFront.NonDominated(TradeOffGoals.Points(all)), settings.Points);
        if (deciding.Length < _states.Length)
            front = TradeOffFront.NonDominated(InAllStates(front));
        if (front.IsEmpty)
            throw new StudyException(_layout.Name, new InvalidOperationException("No setting of the front could be run to the end in all states of load and damper."));
        int best = TradeOffFront.FindCompromise(front);
        var bestLayout = LayoutWith(front[best].Valving);
        progress?.Report(1);
        return new TradeOffFront
        {
            Layout = _layout.Name,
            Points = front,
            CompromiseIndex = best,
            CompromiseLayout = bestLayout,
            CompromiseHeave = TargetOutcome.Worst(_targets.Heave(bestLayout.Damper.AsWritten)),
            CompromiseRoll = TargetOutcome.Worst(_targets.Roll(bestLayout.Damper.AsWritten)),
            Present = present,
            Simulations = all.Count(t => t.Simulated),
            Failures = all.Count(t => t.Simulated && t.Point is null),
            CompromiseVerification = Verify(front[best]),
        };
    }

    /// <summary>The states that were the worst for either objective with one of the settings; all where they are few.</summary>
    private ImmutableArray<LayoutInLoad> Deciding(IEnumerable<TradeOffTrial> samples)
    {
        if (_states.Length <= FewStates)
            return _states;
        var worst = TradeOffGoals.Points(samples).SelectMany(point => new[] { point.RideLoad, point.RollLoad }).ToHashSet();
        return [.. _states.Where(state => worst.Contains(state.Load?.Name))];
    }

    /// <summary>The points of a front with both objectives in the worst of all states.</summary>
    private IEnumerable<TradeOffPoint> InAllStates(ImmutableArray<TradeOffPoint> front) => SideBySide.Run(front.Length, i =>
    {
        var runs = RunsOf(LayoutWith(front[i].Valving), _study.Solver, _states);
        MeasuredRun.MakeAll(runs, _cancellation);
        return PointOf(front[i].Valving, runs, _states);
    }, cancellation: _cancellation).OfType<TradeOffPoint>();

    /// <summary>The layout with a valving in its damper.</summary>
    /// <param name="valving">The valving.</param>
    public DamperLayout LayoutWith(Valving valving)
    {
        ArgumentNullException.ThrowIfNull(valving);
        return _layout.Fitted(Drawn(valving));
    }

    private Damper Drawn(Valving valving) => valving.In(_layout.Damper.AsWritten, _task.Limits.ForceVelocity);

    /// <summary>
    /// Overshoot as it counts, as a ratio: at least 0. Below 0 roll has not come to the steady angle before the run ends, and a damper too slow for
    /// that earns nothing by it.
    /// </summary>
    /// <param name="overshoot">Overshoot as simulated.</param>
    public static double CountedOvershoot(double overshoot) => overshoot > 0 ? overshoot : 0;

    /// <summary>The two objectives of a layout, each the largest over the load states.</summary>
    /// <exception cref="StudyException">The run could not be finished.</exception>
    internal (double WeightedAcceleration, double Overshoot) Simulate(DamperLayout layout, IntegratorOptions solver)
    {
        var runs = RunsOf(layout, solver, _states);
        MeasuredRun.MakeAll(runs, _cancellation);
        return Outcome(runs, _states) is { } outcome
            ? (outcome.WeightedAcceleration, outcome.Overshoot)
            : throw new StudyException(layout.Name, runs.FirstOrDefault(run => run.Failure is not null)?.Failure ?? NoOvershoot(runs));
    }

    private Exception NoOvershoot(MeasuredRun[] runs) => runs.Select(run => run.Metrics.RollResponse?.Failure).OfType<string>().FirstOrDefault() is { } failure
        ? new InvalidOperationException($"In the corner from rest: {failure}")
        : new NoEquilibriumException(_study.Manoeuvre.Cornering.FinalLateralAcceleration);

    /// <summary>A run in each of some states.</summary>
    private MeasuredRun[] RunsOf(DamperLayout layout, IntegratorOptions solver, ImmutableArray<LayoutInLoad> states) =>
        [.. states.Select(state => new MeasuredRun(state.With(layout), _study.Manoeuvre, solver, withDistributions: false) { Linear = state.Linear })];

    /// <summary>What the runs gave, each objective in its worst load state; null where one could not be finished, or the vehicle has no steady roll in the corner.</summary>
    private WorstCase? Outcome(MeasuredRun[] runs, ImmutableArray<LayoutInLoad> states)
    {
        var worst = new WorstCase(double.NegativeInfinity, null, double.NegativeInfinity, null);
        for (var i = 0; i < runs.Length; i++)
        {
            if (runs[i].Failure is not null || runs[i].Metrics.RollResponse?.Overshoot is not { } overshoot)
                return null;
            var (ride, roll, load) = (runs[i].Metrics.Phases[_ridePhase].BodyWeightedRms, CountedOvershoot(overshoot), states[i].Load?.Name);
            if (ride > worst.WeightedAcceleration)
                worst = worst with { WeightedAcceleration = ride, RideLoad = load };
            if (roll > worst.Overshoot)
                worst = worst with { Overshoot = roll, RollLoad = load };
        }

        return worst;
    }

    /// <summary>The same as a point of a front.</summary>
    private TradeOffPoint? PointOf(Valving valving, MeasuredRun[] runs, ImmutableArray<LayoutInLoad> states) => Outcome(runs, states) is { } outcome
        ? new TradeOffPoint(valving, outcome.WeightedAcceleration, outcome.Overshoot) { RideLoad = outcome.RideLoad, RollLoad = outcome.RollLoad }
        : null;

    /// <summary>Places all over the unit cube whose settings keep the limits and the floors; fewer than wanted where few do.</summary>
    private double[][] Places(int wanted)
    {
        var sequence = new SobolSequence(Dimensions, Seed);
        var places = new List<double[]>(wanted);
        for (var i = 0; i < LookedAtPerSample * wanted && places.Count < wanted; i++)
        {
            var place = new double[Dimensions];
            sequence.Point(i, place);
            if (_range.At(place[0], place[1], place[2]) is { } valving && _floors.Look(Drawn(valving)))
                places.Add(place);
        }

        return [.. places];
    }

    /// <summary>The setting at a place of the unit cube; null where it breaks a limit or a floor.</summary>
    private Valving? SettingAt(double[] place) =>
        _range.At(place[0], place[1], place[2]) is { } valving && _floors.IsKept(Drawn(valving)) ? valving : null;

    private double Verify(TradeOffPoint point)
    {
        var (ride, roll) = Simulate(LayoutWith(point.Valving), _study.Solver with
        {
            RelativeTolerance = _study.Solver.RelativeTolerance / 10,
            AbsoluteTolerance = _study.Solver.AbsoluteTolerance / 10,
        });
        return Math.Max(
            Math.Abs(ride - point.WeightedAcceleration) / point.WeightedAcceleration,
            Math.Abs(roll - point.Overshoot) / Math.Max(Math.Abs(point.Overshoot), 1e-3)); // an overshoot near 0 counts absolutely
    }

    /// <summary>Tries settings side by side.</summary>
    /// <param name="places">Where in the unit cube they lie.</param>
    /// <param name="states">The states that each is run in.</param>
    /// <param name="tell">Is called once for each.</param>
    private TradeOffTrial[] TryAll(double[][] places, ImmutableArray<LayoutInLoad> states, Action tell)
    {
        var trials = new TradeOffTrial[places.Length];
        var lots = Enumerable.Range(0, places.Length).Chunk(Math.Max(1, Math.Min(RunsInALot, (places.Length + Environment.ProcessorCount - 1) / Environment.ProcessorCount)));
        Parallel.ForEach(lots, new ParallelOptions { CancellationToken = _cancellation }, lot =>
        {
            var valvings = Array.ConvertAll(lot, i => SettingAt(places[i]));
            var runs = Array.ConvertAll(valvings, valving => valving is null ? null : RunsOf(LayoutWith(valving), _study.Solver, states));
            MeasuredRun.MakeAll([.. runs.OfType<MeasuredRun[]>().SelectMany(run => run)], _cancellation);
            for (var k = 0; k < lot.Length; k++)
            {
                trials[lot[k]] = new TradeOffTrial(places[lot[k]], runs[k] is { } run ? PointOf(valvings[k]!, run, states) : null, runs[k] is not null);
                tell();
            }
        });
        return trials;
    }

    /// <summary>Both objectives in their worst load states, and the names of these.</summary>
    private readonly record struct WorstCase(double WeightedAcceleration, string? RideLoad, double Overshoot, string? RollLoad);
}
