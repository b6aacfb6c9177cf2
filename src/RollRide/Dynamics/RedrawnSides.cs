using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>The elements of one side drawn anew at another position: springs, stops and dampers set as they are, their compressions counted from there.</summary>
/// <param name="redrawn">Draws a fitting there.</param>
/// <param name="compression">Compression there, m, of an element with a fitting as it was.</param>
internal readonly struct RedrawnSides(Func<IFitting, IFitting> redrawn, Func<IFitting, double> compression)
{
    /// <summary>One side at another ride height.</summary>
    /// <param name="side">The side.</param>
    /// <param name="change">How far everything has risen.</param>
    public static RedrawnSides AtHeight(Side side, RideHeightChange change) =>
        new(fitting => fitting.Redrawn(change), fitting => fitting.At(change.Travel, 0, side).Compression);

    /// <summary>One side with the axle turned against the body.</summary>
    /// <param name="side">The side.</param>
    /// <param name="roll">Relative roll <c>r</c>, rad.</param>
    public static RedrawnSides AtRoll(Side side, double roll) =>
        new(fitting => fitting.Turned((int)side * roll), fitting => fitting.At(0, roll, side).Compression);

    /// <summary>Spring and stops.</summary>
    /// <param name="side">As they were.</param>
    /// <param name="springForce">The spring's force, N, over its compression, m, as it was.</param>
    public SuspensionSide Of(SuspensionSide side, PiecewiseLinear springForce) => new(
        new Spring(side.Spring.Characteristic.Redrawn(springForce, compression(side.Spring.Fitting)), redrawn(side.Spring.Fitting)) { Friction = side.Spring.Friction }, Of(side.BumpStop, 1), Of(side.ReboundStop, -1));

    /// <summary>A damper.</summary>
    /// <param name="side">As it was.</param>
    public DamperSide Of(DamperSide side)
    {
        var compressed = compression(side.Fitting);
        return side with
        {
            Fitting = redrawn(side.Fitting),
            Damper = side.Damper.Gas is { } gas ? side.Damper with { Gas = gas.SettledAt(compressed) } : side.Damper,
            CompressionTravel = side.CompressionTravel - compressed,
            ReboundTravel = side.ReboundTravel + compressed,
        };
    }

    /// <summary>Force of a spring there, N.</summary>
    /// <param name="spring">The spring as it was.</param>
    /// <param name="springForce">Its force, N, over its compression, m.</param>
    public double ForceOf(Spring spring, PiecewiseLinear springForce) => springForce.Value(compression(spring.Fitting));

    private TravelStop? Of(TravelStop? stop, int way) => stop is null
        ? null
        : stop with { Clearance = stop.Clearance - (way * compression(stop.Fitting)), Fitting = redrawn(stop.Fitting) };
}
