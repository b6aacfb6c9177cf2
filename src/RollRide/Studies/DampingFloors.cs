using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Modes;
using RollRide.Numerics;

namespace RollRide.Studies;

/// <summary>
/// The least damping ratio of each mode with which a valving is worth trying: a search for a soft ride would otherwise end at dampers that hold nothing. The defaults are
/// common practice, no source.
/// </summary>
public sealed record DampingFloors
{
    /// <summary>Of heave, at the velocity of the heave target; 0 or more.</summary>
    public double Heave { get; init => field = Require.NotNegative(value, "", nameof(Heave)); } = 0.1;

    /// <summary>Of roll, at the velocity of the roll target; 0 or more.</summary>
    public double Roll { get; init => field = Require.NotNegative(value, "", nameof(Roll)); } = 0.1;

    /// <summary>Of hop, at the reference velocity of the analysis; 0 or more.</summary>
    public double Hop { get; init => field = Require.NotNegative(value, "", nameof(Hop)); } = 0.05;

    /// <summary>Of tramp, at the reference velocity of the analysis; 0 or more.</summary>
    public double Tramp { get; init => field = Require.NotNegative(value, "", nameof(Tramp)); } = 0.05;

    /// <summary>The floor of a mode.</summary>
    public double this[ModeName mode] => mode switch
    {
        ModeName.Heave => Heave,
        ModeName.Roll => Roll,
        ModeName.Hop => Hop,
        _ => Tramp,
    };
}

/// <summary>Tells the damping ratios of a layout with any damper, in each of its load states, at the velocities at which its floors count.</summary>
internal sealed class FloorCheck(ImmutableArray<LayoutInLoad> states, TuningTask task, double referenceVelocity, bool includeFriction)
{
    private static readonly ModeName[] Modes = Enum.GetValues<ModeName>();

    /// <summary>The highest ratio that a damper was found to have, by load state and mode.</summary>
    private readonly double[,] _highest = new double[states.Length, Modes.Length];
    private bool _hasLooked;

    /// <summary>Whether a damper keeps every floor in every load state. Thread-safe.</summary>
    public bool IsKept(Damper damper) => Array.TrueForAll(Modes, mode => Ratios(damper, mode).All(ratio => ratio >= task.Floors[mode]));

    /// <summary>The same, and what the damper comes up to is kept for <see cref="Missed"/>. Not thread-safe.</summary>
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

    private double[] Ratios(Damper damper, ModeName mode)
    {
        var coefficient = damper.EquivalentCoefficient(VelocityOf(mode), DampingDirection.Both, includeFriction);
        return [.. states.Select(state => state.Map.Ratio(mode, coefficient))];
    }

    /// <summary>Which floors no damper seen so far came up to, in words; null where each was kept by one or another, or none was looked at.</summary>
    public string? Missed() => _hasLooked && Modes.Where(mode => HighestInWorst(mode).Ratio < task.Floors[mode]).ToArray() is { Length: > 0 } missed
        ? string.Join(" and ", missed.Select(mode => FormattableString.Invariant(
            $"{ModeNames.Key(mode)} comes to at most {HighestInWorst(mode).Ratio:F2} at {VelocityOf(mode):0.###} m/s{HighestInWorst(mode).Load}, where at least {task.Floors[mode]:0.##} is asked for")))
        : null;

    private (double Ratio, string Load) HighestInWorst(ModeName mode)
    {
        var worst = Enumerable.Range(0, states.Length).MinBy(state => _highest[state, (int)mode]);
        return (_highest[worst, (int)mode], states[worst].Load is { } load ? $" in load state '{load.Name}'" : "");
    }

    private double VelocityOf(ModeName mode) => mode switch
    {
        ModeName.Heave => task.Heave.DamperVelocity,
        ModeName.Roll => task.Roll.DamperVelocity,
        _ => referenceVelocity,
    };
}
