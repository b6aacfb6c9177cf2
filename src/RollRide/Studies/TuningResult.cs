using System.Collections.Immutable;
using RollRide.Metrics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>What tuning found for all layouts of a case.</summary>
/// <param name="Study">The case.</param>
/// <param name="Task">What was tuned for.</param>
/// <param name="Layouts">One result per layout, in the order of the case.</param>
public sealed record TuningResult(StudyCase Study, TuningTask Task, ImmutableArray<LayoutTuning> Layouts)
{
    /// <summary>The phase of a run over which the ride counts; null where the manoeuvre has none of that name.</summary>
    /// <param name="run">A run.</param>
    public PhaseMetrics? Ride(LayoutResult run)
    {
        ArgumentNullException.ThrowIfNull(run);
        return run.Metrics.Phases.FirstOrDefault(phase => phase.Name == Task.TradeOff.RidePhase);
    }

    /// <summary>Both objectives of runs, each in its worst load state: weighted body acceleration, m/s², and overshoot as it counts, as a ratio; null where a run has none.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="runOf">Which of its runs.</param>
    public (double? Ride, double? Roll) Worst(LayoutTuning layout, Func<TuningInLoad, LayoutResult?> runOf)
    {
        ArgumentNullException.ThrowIfNull(layout);
        var runs = layout.InLoads.Select(runOf).ToList();
        var rides = runs.Select(run => run is null ? null : Ride(run)?.BodyWeightedRms).ToList();
        var rolls = runs.Select(run => run?.Metrics.RollResponse?.Overshoot).ToList();
        return (rides.Contains(null) ? null : rides.Max(), rolls.Contains(null) ? null : TradeOff.CountedOvershoot(rolls.Max()!.Value));
    }
}

/// <summary>What tuning found for one layout.</summary>
public sealed record LayoutTuning
{
    /// <summary>The layout before and after, and its targets.</summary>
    public required TunedLayout Tuned { get; init; }

    /// <summary>What that does in each load state, in the order of the case; one where it has none.</summary>
    public required ImmutableArray<TuningInLoad> InLoads { get; init; }

    /// <summary>Where the roll target is missed but could be had: of the valvings with roll in its band, the one with the best heave; otherwise null.</summary>
    public TunedLayout? RollFirst { get; init; }

    /// <summary>The trade-off front; null if it was not asked for, or there is none, see <see cref="NoFront"/>.</summary>
    public TradeOffFront? Front { get; init; }

    /// <summary>
    /// Why there is no front although it was asked for: the floors of damping that no valving within the limits came up to, or none where each was kept by
    /// one or another. Null if there is a front, or none was asked for.
    /// </summary>
    public IReadOnlyList<MissedFloor>? NoFront { get; init; }

    /// <summary>Name of the layout.</summary>
    public string Name => Tuned.Before.Name;
}

/// <summary>What the tuned damper of a layout does in one load state.</summary>
public sealed record TuningInLoad
{
    /// <summary>The load state; null for the vehicle as written.</summary>
    public required LoadState? Load { get; init; }

    /// <summary>What became of the heave target.</summary>
    public required TargetOutcome Heave { get; init; }

    /// <summary>What became of the roll target.</summary>
    public required TargetOutcome Roll { get; init; }

    /// <summary>The run with the damper as it was.</summary>
    public required RecordedLayout Before { get; init; }

    /// <summary>The run with the tuned damper: the targets are reached in the linear sense, this shows what comes of it.</summary>
    public required RecordedLayout After { get; init; }

    /// <summary>Damping over the damper velocity with the damper as it was.</summary>
    public required ImmutableArray<DampingAtVelocity> DampingBefore { get; init; }

    /// <summary>Damping over the damper velocity with the tuned damper.</summary>
    public required ImmutableArray<DampingAtVelocity> DampingAfter { get; init; }

    /// <summary>The run with <see cref="LayoutTuning.RollFirst"/>; null where there is none.</summary>
    public LayoutResult? RollFirstRun { get; init; }
}

/// <summary>What a damper does at one velocity amplitude.</summary>
/// <param name="Velocity">Velocity amplitude at the damper, m/s.</param>
/// <param name="Coefficient">Equivalent coefficient, N·s/m.</param>
/// <param name="Heave">Damping ratio in heave.</param>
/// <param name="Roll">Damping ratio in roll.</param>
public sealed record DampingAtVelocity(double Velocity, double Coefficient, double Heave, double Roll);
