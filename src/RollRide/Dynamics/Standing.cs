using System.Collections.Immutable;
using RollRide.Mounting;

namespace RollRide.Dynamics;

/// <summary>How a vehicle stands where its displacements are counted from: what springs and tyres carry there, and how far body and axle lean.</summary>
internal sealed record Standing
{
    /// <summary>Force of the left spring, N.</summary>
    public required double LeftSpring { get; init; }

    /// <summary>Force of the right spring, N.</summary>
    public required double RightSpring { get; init; }

    /// <summary>Load of each tyre contact, left to right, N.</summary>
    public required ImmutableArray<double> TyreLoads { get; init; }

    /// <summary>Whether it stands there by itself; otherwise it is drawn there to find out where it does.</summary>
    public bool IsRest { get; init; } = true;

    /// <summary>Roll angle of the body, rad; 0 is level.</summary>
    public double BodyRoll { get; init; }

    /// <summary>Roll angle of the axle, or of both wheels, rad; 0 is level.</summary>
    public double UnsprungRoll { get; init; }

    /// <summary>Force of the spring of one side, N.</summary>
    public double Spring(Side side) => side == Side.Left ? LeftSpring : RightSpring;

    /// <summary>Load of one side's tyres together, N.</summary>
    public double SideLoad(Side side)
    {
        var half = TyreLoads.Length / 2;
        var loads = TyreLoads.AsSpan(side == Side.Left ? 0 : half, half);
        return loads.Length == 1 ? loads[0] : loads[0] + loads[1];
    }
}
