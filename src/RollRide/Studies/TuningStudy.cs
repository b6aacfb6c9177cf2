using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Tunes the damper of every layout of a case, for all its load states at once, and shows, by simulation, what that changes in each.</summary>
public static class TuningStudy
{
    // From the creep of a long corner to a pothole; evenly in the logarithm.
    private const double SlowestVelocity = 0.01, FastestVelocity = 1.5;
    private const int VelocityCount = 81;

    // What figures show of a tuned layout's run over time.
    private static readonly Channel[] Shown = [Channel.BodyRoll, Channel.BodyAcceleration];

    /// <summary>Tunes all layouts, one after the other; each uses all cores.</summary>
    /// <param name="study">The case.</param>
    /// <param name="task">Targets, limits and settings.</param>
    /// <param name="withFronts">Whether the trade-off fronts are searched too, which takes most of the time.</param>
    /// <param name="spool">Opens what takes the samples of a long run; null where they are held in memory, however long.</param>
    /// <param name="progress">Is told the share done, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="StudyException">A run could not be finished, or no valving keeps the limits.</exception>
    /// <exception cref="ArgumentException">The manoeuvre does not serve a trade-off.</exception>
    public static TuningResult Run(
        StudyCase study, TuningTask task, bool withFronts = true, Func<IHistorySpool>? spool = null, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(task);
        int count = study.Layouts.Length;
        var layouts = ImmutableArray.CreateBuilder<LayoutTuning>(count);
        for (int i = 0; i < count; i++)
        {
            var layout = study.Layouts[i];
            bool friction = study.Analysis.IncludeFriction;
            var states = LayoutInLoad.AllOf(study, layout);
            var tuned = TargetTuning.Tune(states, layout, task, friction);

            // What it would take to have the roll target whatever heave does, where it can be had at all.
            var rollFirst = tuned.Roll is { IsMet: false, CoefficientWanted: not null }
                ? TargetTuning.Tune(states, layout, task, friction, rollFirst: true)
                : null;
            int index = i;
            IReadOnlyList<MissedFloor>? noFront = null;
            var front = withFronts
                ? new TradeOff(study, layout, task, states, cancellation).Search(out noFront, progress is null ? null : new Part(progress, index, count))
                : null;
            layouts.Add(new LayoutTuning
            {
                Tuned = tuned,
                InLoads = [.. study.InEachLoad.Select((inLoad, k) => new TuningInLoad
                {
                    Load = inLoad.Load,
                    Heave = tuned.HeaveInLoads[k],
                    Roll = tuned.RollInLoads[k],
                    DampingBefore = OverVelocity(states[k], layout, friction),
                    DampingAfter = OverVelocity(states[k], tuned.After, friction),
                    Before = Comparison.RecordLayout(inLoad, layout, Shown, spool, cancellation: cancellation),
                    After = Comparison.RecordLayout(inLoad, tuned.After, Shown, spool, cancellation: cancellation),
                    RollFirstRun = rollFirst is null ? null : Comparison.RunLayout(inLoad, rollFirst.After, cancellation),
                })],
                RollFirst = rollFirst,
                Front = front,
                NoFront = noFront,
            });
            progress?.Report((i + 1.0) / count);
        }

        return new TuningResult(study, task, layouts.MoveToImmutable());
    }

    private static ImmutableArray<DampingAtVelocity> OverVelocity(LayoutInLoad state, DamperLayout layout, bool includeFriction)
    {
        var there = layout.InDamperState(state.Load?.DamperState);
        return [.. Enumerable.Range(0, VelocityCount).Select(i =>
        {
            double velocity = SlowestVelocity * Math.Pow(FastestVelocity / SlowestVelocity, i / (VelocityCount - 1.0));
            double coefficient = there.EquivalentCoefficient(velocity, DampingDirection.Both, includeFriction);
            return new DampingAtVelocity(velocity, coefficient, state.Map.Ratio(ModeName.Heave, coefficient), state.Map.Ratio(ModeName.Roll, coefficient));
        })];
    }

    private sealed class Part(IProgress<double> whole, int index, int count) : IProgress<double>
    {
        public void Report(double value) => whole.Report((index + value) / count);
    }
}
