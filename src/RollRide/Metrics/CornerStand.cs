using RollRide.Cornering;
using RollRide.Dynamics;

namespace RollRide.Metrics;

/// <summary>How the body stands before a corner and after it, by the static solution; angles are counted from level.</summary>
/// <param name="AngleBefore">Body roll before it, rad.</param>
/// <param name="SteadyAngle">Body roll under its final lateral acceleration, rad; null where there is no stable position.</param>
/// <param name="Gradient">Roll gradient, rad per m/s²: from rest to the final lateral acceleration, or to 1 m/s² where that is zero; null where there is no stable position.</param>
internal sealed record CornerStand(double AngleBefore, double? SteadyAngle, double? Gradient)
{
    /// <summary>Finds it.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="corner">The corner.</param>
    public static CornerStand Of(AssembledHalfCar car, CornerAlone corner)
    {
        var (initial, final) = (corner.InitialLateralAcceleration, corner.Input.FinalLateralAcceleration);
        var reference = final == 0 ? 1 : final;
        var atReference = StaticEquilibrium.RollAngle(car, reference);
        return new CornerStand(
            StaticEquilibrium.RollAngle(car, initial) ?? car.RestRoll,
            final == 0 ? car.RestRoll : atReference,
            (atReference - car.RestRoll) / reference);
    }
}
