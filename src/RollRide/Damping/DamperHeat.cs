using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>How warm a damper gets: heat flows from its oil to the air in proportion to the difference of their temperatures.</summary>
/// <param name="Conductance">Thermal conductance from oil to air, W/K, above 0.</param>
/// <param name="AirTemperature">Temperature of the air around it, °C.</param>
public sealed record DamperHeat(double Conductance, double AirTemperature)
{
    /// <summary>
    /// The default of <see cref="Conductance"/>, W/K: some 0.06 m² of tube (50 mm by 400 mm) at 25 W/(m² K), the lower end of what is usual for air
    /// blown along a surface (F. P. Incropera, Fundamentals of Heat and Mass Transfer, table 1.1, from memory); common practice, no source.
    /// </summary>
    public const double DefaultConductance = 1.5;

    /// <summary>The default of <see cref="AirTemperature"/>, °C.</summary>
    public const double DefaultAirTemperature = 20;

    /// <summary>A damper of which nothing is said.</summary>
    public static DamperHeat Default { get; } = new(DefaultConductance, DefaultAirTemperature);

    /// <summary>Thermal conductance from oil to air, W/K.</summary>
    public double Conductance { get; init => field = Require.Positive(value, "W/K", nameof(Conductance)); } = Require.Positive(Conductance, "W/K");

    /// <summary>Temperature of the oil once it no longer changes, °C: <c>T = T_air + P/G</c>.</summary>
    /// <param name="power">Mean power that the damper takes up, W, at least 0.</param>
    public double SteadyTemperature(double power) => AirTemperature + (Require.NotNegative(power, "W") / Conductance);
}
