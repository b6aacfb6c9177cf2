namespace RollRide.Modes;

/// <summary>Root mean squares of the linearised half-car on a random road; of left and right the larger.</summary>
/// <param name="BodyAcceleration">Body acceleration at the centre of gravity, m/s².</param>
/// <param name="RollAcceleration">Roll acceleration of the body, rad/s².</param>
/// <param name="SeatAcceleration">Vertical acceleration at the vehicle's seat, m/s².</param>
/// <param name="WheelTravel">Travel of a wheel, m.</param>
/// <param name="DamperVelocity">Velocity of a damper, m/s.</param>
/// <param name="TyreLoad">Load change of one side's tyres, N.</param>
public sealed record LinearRideResponse(
    double BodyAcceleration,
    double RollAcceleration,
    double SeatAcceleration,
    double WheelTravel,
    double DamperVelocity,
    double TyreLoad);
