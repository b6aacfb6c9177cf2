using RollRide.Cornering;

namespace RollRide.Tests.Cornering;

/// <summary>Vehicles of published examples; where the example gives none, yaw inertia and steering ratio are arbitrary.</summary>
internal static class ReferenceVehicles
{
    public const double Foot = 0.3048;
    public const double PoundForce = 4.4482216152605;
    public const double MilePerHour = 0.44704;

    /// <summary>g of car 1: 32.2 ft/s².</summary>
    public const double GillespieGravity = 32.2 * Foot;

    /// <summary>T. D. Gillespie, Fundamentals of Vehicle Dynamics, SAE 1992, ch. 6, example 1 (from memory).</summary>
    public static SingleTrackModel Gillespie { get; } = FromAxleLoads(
        1901 * PoundForce, 1552 * PoundForce, 100.6 / 12 * Foot, GillespieGravity,
        2 * 217 * PoundForce * 180 / Math.PI, 2 * 187 * PoundForce * 180 / Math.PI);

    /// <summary>H. B. Pacejka, Tire and Vehicle Dynamics, ch. 1, table of parameters (from memory).</summary>
    public static SingleTrackModel Pacejka { get; } = new()
    {
        Mass = 1600,
        YawInertia = 1600 * 1.5 * 1.5,
        A = 1.4,
        B = 1.6,
        FrontCorneringStiffness = 60e3,
        RearCorneringStiffness = 60e3,
        SteeringRatio = 16,
    };

    /// <summary>An exercise found without printed answers; the numbers are derived.</summary>
    public static SingleTrackModel SmallCar { get; } = new()
    {
        Mass = 1008,
        YawInertia = 1031,
        A = 1.2,
        B = 1.0,
        FrontCorneringStiffness = 117e3,
        RearCorneringStiffness = 145e3,
        SteeringRatio = 16,
    };

    /// <summary>
    /// J. Y. Wong, Theory of Ground Vehicles, 3rd ed., Wiley 2001, example 5.1 (from memory); 53.5 % of 20.105 kN in front.
    /// </summary>
    public static SingleTrackModel Wong(double frontTyreStiffness) => FromAxleLoads(
        0.535 * 20105, 0.465 * 20105, 2.8, 9.81, 2 * frontTyreStiffness, 2 * 38.25e3);

    private static SingleTrackModel FromAxleLoads(
        double front, double rear, double wheelbase, double gravity, double frontStiffness, double rearStiffness) => new()
        {
            Mass = (front + rear) / gravity,
            YawInertia = 2500,
            A = wheelbase * rear / (front + rear),
            B = wheelbase * front / (front + rear),
            FrontCorneringStiffness = frontStiffness,
            RearCorneringStiffness = rearStiffness,
            SteeringRatio = 16,
        };
}
