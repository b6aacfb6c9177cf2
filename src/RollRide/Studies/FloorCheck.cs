using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Modes;

namespace RollRide.Studies;

/// <summary>Checks a layout with any damper against its floors of damping, in each load state and at each floor's damper velocity.</summary>
internal sealed class FloorCheck(ImmutableArray<LayoutInLoad> states, TuningTask task, double referenceVelocity, bool includeFriction)
{
    private static readonly ModeName[] Modes = Enum.GetValues<ModeName>();

    /// <summary>The highest ratio that a damper was found to have, by load state and mode.</summary>
    private readonly double[,] _highest = new double[states.Length, Modes.Length];
    private bool _hasLooked;

    /// <summary>Whether a damper keeps every floor in every load state. Thread-safe.</summary>
    public bool IsKept(Damper damper) => Array.TrueForAll(Modes, mode => Ratios(damper, mode).All(ratio => ratio >= task.Floors[mode]));

    /// <summary>As <see cref="IsKept"/>, and remembers the damping ratios for <see cref="Missed"/>. Not thread-safe.</summary>
    public bool Look(Damper damper)
    {
        _hasLooked = true;
        foreach (var mode in Modes)
        {
            var ratios = Ratios(damper, mode);
            for (var state = 0; state < ratios.Length; state++)
                _highest[state, (int)mode] = Math.Max(_highest[state, (int)mode], ratios[state]);
        }

        return IsKept(damper);
    }

    private double[] Ratios(Damper damper, ModeName mode) =>
        [.. states.Select(state => state.Map.Ratio(mode, state.In(damper).EquivalentCoefficient(VelocityOf(mode), DampingDirection.Both, includeFriction)))];

    /// <summary>The floors that no damper looked at so far has reached; empty where each was reached by some damper, or none was looked at.</summary>
    public ImmutableArray<MissedFloor> Missed() => _hasLooked
        ? [.. Modes.Select(HighestInWorst).Where(found => found.Highest < found.Floor)]
        : [];

    private MissedFloor HighestInWorst(ModeName mode)
    {
        var worst = Enumerable.Range(0, states.Length).MinBy(state => _highest[state, (int)mode]);
        return new MissedFloor(mode, task.Floors[mode], _highest[worst, (int)mode], VelocityOf(mode), states[worst].Load?.Name);
    }

    private double VelocityOf(ModeName mode) => mode switch
    {
        ModeName.Heave => task.Heave.DamperVelocity,
        ModeName.Roll => task.Roll.DamperVelocity,
        _ => referenceVelocity,
    };
}

/// <summary>A floor of damping that no damper tried has reached.</summary>
/// <param name="Mode">The mode.</param>
/// <param name="Floor">The least damping ratio asked for.</param>
/// <param name="Highest">The highest that was found, in the load state in which that is least.</param>
/// <param name="Velocity">The damper velocity amplitude at which both count, m/s.</param>
/// <param name="Load">Name of that load state; null for the vehicle as written.</param>
public sealed record MissedFloor(ModeName Mode, double Floor, double Highest, double Velocity, string? Load);
