namespace RollRide.Damping;

/// <summary>One point of a force–velocity curve.</summary>
/// <param name="Velocity">Damper velocity, m/s, positive in compression.</param>
/// <param name="Force">Damper force, N, positive when it resists compression.</param>
public sealed record ForceVelocityPoint(double Velocity, double Force);
