using System.Collections.Immutable;
using System.Numerics;

namespace RollRide.Modes;

/// <summary>One natural mode of a vehicle with two axles.</summary>
public sealed record VehicleMode : NaturalMode
{
    /// <summary>Its name.</summary>
    public required VehicleModeName Name { get; init; }

    /// <summary>
    /// The motion <c>(zs, φs, zu, φu)</c> of the axle that the layouts are for and then of the other, m and rad, scaled so that the largest is 1. With a frame that does not twist the body's roll
    /// stands once, with the axle that the layouts are for.
    /// </summary>
    public required ImmutableArray<Complex> Shape { get; init; }

    /// <summary>Shares of each motion that modes are named after in the kinetic energy; they add up to 1. A twist that the frame does not allow has 0.</summary>
    public required ImmutableDictionary<VehicleModeName, double> Participation { get; init; }

    /// <summary>What dampers, tyres and frame contribute to the decay; null where the mode creeps back without swinging.</summary>
    public required DampingShares? DampingShares { get; init; }
}

/// <summary>The parts of a mode's decay rate, which add up to 1.</summary>
/// <param name="OwnLeft">The left damper of the axle that the layouts are for.</param>
/// <param name="OwnRight">Its right damper.</param>
/// <param name="SecondLeft">The left damper of the other axle.</param>
/// <param name="SecondRight">Its right damper.</param>
/// <param name="Rest">Tyres and frame.</param>
public sealed record DampingShares(double OwnLeft, double OwnRight, double SecondLeft, double SecondRight, double Rest)
{
    /// <summary>Both dampers of the axle that the layouts are for.</summary>
    public double Own => OwnLeft + OwnRight;

    /// <summary>Both dampers of the other axle.</summary>
    public double Second => SecondLeft + SecondRight;
}
