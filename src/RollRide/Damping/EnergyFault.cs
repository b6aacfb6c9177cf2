namespace RollRide.Damping;

/// <summary>
/// A place of a force–velocity curve where the damper would push instead of resist: force against velocity
/// (<c>F·v &lt; 0</c>), or a force at rest.
/// </summary>
/// <param name="Index">Index of the curve's point, or null for a force at rest found between two points.</param>
/// <param name="Velocity">Damper velocity, m/s, positive in compression.</param>
/// <param name="Force">Damper force, N.</param>
public sealed record EnergyFault(int? Index, double Velocity, double Force);
