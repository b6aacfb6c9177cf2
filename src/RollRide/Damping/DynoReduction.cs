using System.Collections.Immutable;

namespace RollRide.Damping;

/// <summary>A dynamometer's record reduced to a force–velocity curve.</summary>
public sealed record DynoReduction
{
    /// <summary>How points were taken from loops; null where the data were points already.</summary>
    public required DynoMethod? Method { get; init; }

    /// <summary>Force of the valves alone against velocity: without friction and gas as far as these could be told apart.</summary>
    public required ForceVelocityCurve Curve { get; init; }

    /// <summary>Friction of seal and guide, N: half the gap of force at reversal. Null where the data do not tell it.</summary>
    public required double? Friction { get; init; }

    /// <summary>Force of the gas at mid-stroke, N, positive pushing outwards. Null where the data do not tell it.</summary>
    public required double? GasForce { get; init; }

    /// <summary>How the gas force grows with compression, N/m. Null where the data do not tell it.</summary>
    public required double? GasRate { get; init; }

    /// <summary>What was measured at each speed, slowest first.</summary>
    public required ImmutableArray<DynoSpeed> Speeds { get; init; }

    /// <summary>Values far from the others of their speed. They are in the curve unless <see cref="OutliersExcluded"/>.</summary>
    public required ImmutableArray<DynoOutlier> Outliers { get; init; }

    /// <summary>Whether the outliers were left out of the curve.</summary>
    public required bool OutliersExcluded { get; init; }

    /// <summary>What the reader must know before trusting the numbers.</summary>
    public required ImmutableArray<string> Warnings { get; init; }
}

/// <summary>What a damper did at one speed. Forces are as measured; friction and gas are in them.</summary>
public sealed record DynoSpeed
{
    /// <summary>Name of the run.</summary>
    public required string Name { get; init; }

    /// <summary>Number of cycles (or of repeated points).</summary>
    public required int Cycles { get; init; }

    /// <summary>Mean point in compression; null where the data have none.</summary>
    public required ForceVelocityPoint? Compression { get; init; }

    /// <summary>Mean point in rebound, both negative; null where the data have none.</summary>
    public required ForceVelocityPoint? Rebound { get; init; }

    /// <summary>Stroke from end to end, m; null for points.</summary>
    public double? Stroke { get; init; }

    /// <summary>Energy taken up in a cycle <c>∮F dx</c>, J; null for points.</summary>
    public double? EnergyPerCycle { get; init; }

    /// <summary>
    /// Hysteresis, N: the widest gap, from 20 to 80 % of the peak velocity, between the force while the piston speeds up and while
    /// it slows down, without the gas spring's share. Null for points and for constant velocity.
    /// </summary>
    public double? Hysteresis { get; init; }

    /// <summary>One cycle as measured, for drawing: velocity, m/s, and force, N; empty for points.</summary>
    public ImmutableArray<ForceVelocityPoint> Loop { get; init; } = [];
}

/// <summary>
/// A value far from the others of its speed: its modified z-score, <c>0.6745 |F − median| / MAD</c>, is above 3.5 (B. Iglewicz and
/// D. C. Hoaglin, <i>How to Detect and Handle Outliers</i>, 1993; from memory).
/// </summary>
/// <param name="Run">Name of the run.</param>
/// <param name="Cycle">The cycle, counted from 1.</param>
/// <param name="Velocity">Its velocity, m/s.</param>
/// <param name="Force">Its force, N.</param>
/// <param name="Median">The median force of that speed and direction, N.</param>
public sealed record DynoOutlier(string Run, int Cycle, double Velocity, double Force, double Median);
