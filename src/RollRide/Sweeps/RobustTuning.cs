using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Modes;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Sweeps;

/// <summary>What scatters among the vehicles built, and what a valving for all of them makes least.</summary>
/// <param name="Plan">The numbers that scatter and their samples, each of which is one vehicle.</param>
/// <param name="Goal">What is made least.</param>
public sealed record RobustTask(SweepPlan Plan, RobustGoal Goal);

/// <summary>
/// Tunes the dampers of every layout for all states of load and damper, and for many vehicles built with tolerances, and tells how far the dampers may stray from
/// their drawing.
/// </summary>
public static class RobustTuning
{
    // A setting on the edge of its band still meets the target; the rounding of the search, in tolerances.
    private const double Edge = 1e-3;

    /// <summary>Tunes all layouts.</summary>
    /// <param name="tuning">What tuning for perfect parts found, in all states of load and damper.</param>
    /// <param name="task">What scatters; null for nothing.</param>
    /// <param name="progress">Is told the share done, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="RefusedSampleException">The numbers of a sample make no vehicle.</exception>
    /// <exception cref="StudyException">A run could not be finished, or no valving keeps the limits.</exception>
    public static RobustResult Run(TuningResult tuning, RobustTask? task, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(tuning);
        if (task is null)
            return new RobustResult(tuning, null, [.. tuning.Layouts.Select(layout => OfLayout(tuning, layout, null, [], [], cancellation))]);

        // The vehicles that a valving is sought for lie within its bands more often than others do: how many miss is counted on others.
        var plan = task.Plan;
        var (count, done) = ((int)plan.Design.Count, 0);
        var (sought, judged) = (Drawn(plan.Design), Drawn(new LatinHypercubeSamples(plan.Parameters, count, unchecked(plan.Request.Seed + 1))));
        return new RobustResult(tuning, task, [.. tuning.Layouts.Select((layout, i) =>
        {
            cancellation.ThrowIfCancellationRequested();
            var found = OfLayout(tuning, layout, task, [.. sought.Select(sample => sample[i])], [.. judged.Select(sample => sample[i])], cancellation);
            progress?.Report(1);
            return found;
        })]);

        ImmutableArray<ImmutableArray<ImmutableArray<LayoutInLoad>>> Drawn(SweepDesign design) =>
            Samples(tuning.Study, plan, design, tuning.Task.Heave.DamperVelocity, () => progress?.Report(0.9 * Interlocked.Increment(ref done) / (2 * count)), cancellation);
    }

    /// <summary>Every sample's vehicle with each layout in each of its states.</summary>
    private static ImmutableArray<ImmutableArray<ImmutableArray<LayoutInLoad>>> Samples(StudyCase study, SweepPlan plan, SweepDesign design, double velocity, Action tell, CancellationToken cancellation)
    {
        var count = (int)design.Count;
        var refused = new string?[count];
        var samples = new ImmutableArray<ImmutableArray<LayoutInLoad>>[count];
        Parallel.For(0, count, new ParallelOptions { CancellationToken = cancellation }, i =>
        {
            var made = Made(study, plan, design.ValuesOf(i), velocity, out refused[i]);
            if (made is null)
                return;
            samples[i] = made.Value;
            tell();
        });
        var first = Array.FindIndex(refused, reason => reason is not null);
        return first < 0 ? [.. samples] : throw new RefusedSampleException(design, first, refused[first]!);
    }

    private static ImmutableArray<ImmutableArray<LayoutInLoad>>? Made(StudyCase study, SweepPlan plan, double[] values, double velocity, out string? refusal)
    {
        refusal = null;
        var states = new List<StudyCase>();
        foreach (var load in study.Loads.IsEmpty ? [null] : study.Loads.Cast<LoadState?>())
        {
            var made = plan.Make(values, load);
            if (made.Study is not { } there)
            {
                refusal = made.Refusal;
                return null;
            }

            states.Add(there);
        }

        return
        [
            .. study.Layouts.Select(layout =>
            {
                var made = states[0].Layouts.First(other => other.Name == layout.Name);
                return LayoutInLoad.AllOf([.. states.Select(state => (state, made))]).Select(state => state.MadeFrom(layout.Damper.AsWritten, made.Damper.AsWritten, velocity)).ToImmutableArray();
            }),
        ];
    }

    private static RobustLayout OfLayout(
        TuningResult tuning, LayoutTuning layout, RobustTask? task, ImmutableArray<ImmutableArray<LayoutInLoad>> samples, ImmutableArray<ImmutableArray<LayoutInLoad>> judged, CancellationToken cancellation)
    {
        var (study, before, friction) = (tuning.Study, layout.Tuned.Before, tuning.Study.Analysis.IncludeFriction);
        var states = LayoutInLoad.AllOf(study, before);
        LayoutInLoad[] asWritten = [.. states.Where(state => state.Load?.DamperState is null)];
        var nominal = asWritten.Length == 0 || asWritten.Length == states.Length ? layout.Tuned : TargetTuning.Tune([.. asWritten], before, tuning.Task, friction);
        ImmutableArray<LayoutInLoad> all = [.. states, .. samples.SelectMany(sample => sample)];
        ImmutableArray<LayoutInLoad> built = [.. all, .. judged.SelectMany(sample => sample)];
        ImmutableArray<int> vehicles = [.. states.Select(_ => 0), .. samples.SelectMany((sample, i) => sample.Select(_ => i + 1))];
        var robust = samples.IsEmpty ? layout.Tuned : TargetTuning.Tune(all, vehicles, before, tuning.Task, friction, task!.Goal);
        return new RobustLayout(Answer(nominal), Answer(robust));

        RobustValving Answer(TunedLayout tuned)
        {
            var damper = tuned.Drawn;
            var runs = study.InEachLoad.Select(state => Comparison.RunLayout(state, tuned.After, cancellation)).ToList();
            return new RobustValving
            {
                Tuned = tuned,
                Heave = TargetWindow.Of(states, damper, ModeName.Heave, tuning.Task.Heave, friction),
                Roll = TargetWindow.Of(states, damper, ModeName.Roll, tuning.Task.Roll, friction),
                Samples = judged.Length,
                Missing = judged.Count(sample => sample.Any(state =>
                    Miss(state, ModeName.Heave, tuning.Task.Heave) > (1 + Edge) * tuning.Task.Heave.Tolerance || Miss(state, ModeName.Roll, tuning.Task.Roll) > (1 + Edge) * tuning.Task.Roll.Tolerance)),
                ToleranceForAll = (built.Max(state => Miss(state, ModeName.Heave, tuning.Task.Heave)), built.Max(state => Miss(state, ModeName.Roll, tuning.Task.Roll))),
                Ride = runs.Select(run => tuning.Ride(run)?.BodyWeightedRms).Max(),
            };

            // How far a ratio is from its target.
            double Miss(LayoutInLoad state, ModeName mode, TuningTarget target) => Math.Abs(
                state.Map.Ratio(mode, state.In(damper).EquivalentCoefficient(target.DamperVelocity, DampingDirection.Both, friction)) - target.Ratio);
        }
    }
}

/// <summary>The numbers of a sample make no vehicle.</summary>
public sealed class RefusedSampleException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="design">The samples.</param>
    /// <param name="sample">Which sample, from 0.</param>
    /// <param name="reason">What is wrong with its numbers.</param>
    public RefusedSampleException(SweepDesign design, int sample, string reason)
        : base(FormattableString.Invariant($"sample {sample + 1} of {design?.Count}, with {string.Join(", ", design?.Parameters.Zip(design.ValuesOf(sample), (parameter, value) => FormattableString.Invariant($"{parameter.Name} = {value:G4}")) ?? [])}, makes no vehicle: {reason}"))
    {
    }
}
