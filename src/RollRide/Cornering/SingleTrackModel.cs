using RollRide.Numerics;

namespace RollRide.Cornering;

/// <summary>
/// The linear single-track ("bicycle") model: two states, lateral velocity <c>v</c> of the centre of gravity and yaw rate
/// <c>r</c>, at constant speed <c>V</c>. Small angles, linear axle cornering stiffnesses, no load transfer. ISO 8855:
/// positive is to the left. Immutable, checked when made.
/// </summary>
/// <remarks>
/// <c>m (v̇ + V r) = Yf + Yr</c>, <c>Izz ṙ = a Yf − b Yr</c>, <c>Yf = Cf (δ − (v + a r)/V)</c>, <c>Yr = −Cr (v − b r)/V</c>.
/// T. D. Gillespie, Fundamentals of Vehicle Dynamics, SAE 1992, ch. 6; J. Y. Wong, Theory of Ground Vehicles, 3rd ed. 2001, ch. 5.
/// </remarks>
public sealed record SingleTrackModel
{
    /// <summary>Mass of the whole vehicle <c>m</c>, kg; positive.</summary>
    public required double Mass { get; init => field = Require.Positive(value, "kg", nameof(Mass)); }

    /// <summary>Yaw moment of inertia about the centre of gravity <c>Izz</c>, kg·m²; positive.</summary>
    public required double YawInertia { get; init => field = Require.Positive(value, "kg·m²", nameof(YawInertia)); }

    /// <summary>Distance <c>a</c> from the centre of gravity to the front axle, m; positive.</summary>
    public required double A { get; init => field = Require.Positive(value, "m", nameof(A)); }

    /// <summary>Distance <c>b</c> from the centre of gravity to the rear axle, m; positive.</summary>
    public required double B { get; init => field = Require.Positive(value, "m", nameof(B)); }

    /// <summary>Cornering stiffness of the front axle <c>Cf</c> (both tyres), N/rad; positive.</summary>
    public required double FrontCorneringStiffness
    {
        get;
        init => field = Require.Positive(value, "N/rad", nameof(FrontCorneringStiffness));
    }

    /// <summary>Cornering stiffness of the rear axle <c>Cr</c> (all its tyres), N/rad; positive.</summary>
    public required double RearCorneringStiffness
    {
        get;
        init => field = Require.Positive(value, "N/rad", nameof(RearCorneringStiffness));
    }

    /// <summary>Steering ratio: steering-wheel angle over road-wheel angle; positive.</summary>
    public required double SteeringRatio { get; init => field = Require.Positive(value, "", nameof(SteeringRatio)); }

    /// <summary>Wheelbase <c>l = a + b</c>, m.</summary>
    public double Wheelbase => A + B;

    /// <summary>
    /// Stability factor <c>K = (m/l²)(b/Cf − a/Cr)</c>, s²/m²: the yaw gain is that of a neutral vehicle over <c>1 + K V²</c>.
    /// Positive for an understeering vehicle.
    /// </summary>
    public double StabilityFactor =>
        Mass / (Wheelbase * Wheelbase) * (B / FrontCorneringStiffness - A / RearCorneringStiffness);

    /// <summary>
    /// The speed <c>√(1/K)</c> at which an understeering vehicle's yaw gain peaks, m/s; null for a neutral or oversteering one.
    /// </summary>
    public double? CharacteristicSpeed => StabilityFactor > 0 ? Math.Sqrt(1 / StabilityFactor) : null;

    /// <summary>The speed <c>√(−1/K)</c> from which an oversteering vehicle is unstable, m/s; null for all others.</summary>
    public double? CriticalSpeed => StabilityFactor < 0 ? Math.Sqrt(-1 / StabilityFactor) : null;

    /// <summary>
    /// Understeer gradient <c>η = (m g/l)(b/Cf − a/Cr)</c>, rad of road-wheel angle per g: <c>δ = l/R + η ay/g</c>.
    /// </summary>
    /// <param name="gravity">Acceleration of gravity, m/s²; positive.</param>
    public double UndersteerGradient(double gravity) => StabilityFactor * Wheelbase * Require.Positive(gravity, "m/s²");

    /// <summary>Whether the vehicle is stable at a speed.</summary>
    /// <param name="speed">Forward speed, m/s; positive.</param>
    public bool IsStable(double speed) => 1 + StabilityFactor * Square(Require.Positive(speed, "m/s")) > 0;

    /// <summary>Steady yaw rate over road-wheel angle, <c>(V/l)/(1 + K V²)</c>, 1/s.</summary>
    /// <param name="speed">Forward speed, m/s; positive, stable.</param>
    public double YawGain(double speed) => RequireStable(speed) / Wheelbase / (1 + StabilityFactor * Square(speed));

    /// <summary>Steady lateral acceleration over road-wheel angle, <c>V · r/δ</c>, (m/s²)/rad.</summary>
    /// <param name="speed">Forward speed, m/s; positive, stable.</param>
    public double LateralAccelerationGain(double speed) => speed * YawGain(speed);

    /// <summary>
    /// Steady sideslip angle at the centre of gravity over road-wheel angle: <c>β = b/R − (m a/(l Cr)) ay</c>, positive when the
    /// velocity points to the left of the vehicle's axis.
    /// </summary>
    /// <param name="speed">Forward speed, m/s; positive, stable.</param>
    public double SideslipGain(double speed) =>
        YawGain(speed) / speed * (B - Mass * A / (Wheelbase * RearCorneringStiffness) * Square(speed));

    /// <summary>Undamped natural frequency of sideslip and yaw, <c>ωn = √det A</c>, rad/s.</summary>
    /// <param name="speed">Forward speed, m/s; positive, stable.</param>
    public double NaturalFrequency(double speed) => Math.Sqrt(
        FrontCorneringStiffness * RearCorneringStiffness * Square(Wheelbase) / (Mass * YawInertia)
        * (1 / Square(RequireStable(speed)) + StabilityFactor));

    /// <summary>Damping ratio of sideslip and yaw, <c>−tr A/(2 ωn)</c>; 1 and above does not oscillate.</summary>
    /// <param name="speed">Forward speed, m/s; positive, stable.</param>
    public double DampingRatio(double speed) =>
        ((FrontCorneringStiffness + RearCorneringStiffness) / Mass
            + (Square(A) * FrontCorneringStiffness + Square(B) * RearCorneringStiffness) / YawInertia)
        / speed / (2 * NaturalFrequency(speed));

    /// <summary>Lateral acceleration <c>v̇ + V r</c> of the centre of gravity, m/s².</summary>
    /// <param name="lateralVelocity">Lateral velocity <c>v</c>, m/s.</param>
    /// <param name="yawRate">Yaw rate <c>r</c>, rad/s.</param>
    /// <param name="roadWheelAngle">Road-wheel angle <c>δ</c>, rad.</param>
    /// <param name="speed">Forward speed <c>V</c>, m/s; positive; not checked.</param>
    public double LateralAcceleration(double lateralVelocity, double yawRate, double roadWheelAngle, double speed) =>
        (FrontForce(lateralVelocity, yawRate, roadWheelAngle, speed) + RearForce(lateralVelocity, yawRate, speed)) / Mass;

    /// <summary>Rates of the two states: <c>v̇</c>, m/s², and <c>ṙ</c>, rad/s².</summary>
    /// <param name="lateralVelocity">Lateral velocity <c>v</c>, m/s.</param>
    /// <param name="yawRate">Yaw rate <c>r</c>, rad/s.</param>
    /// <param name="roadWheelAngle">Road-wheel angle <c>δ</c>, rad.</param>
    /// <param name="speed">Forward speed <c>V</c>, m/s; positive; not checked.</param>
    public (double LateralVelocityRate, double YawAcceleration) Derivatives(
        double lateralVelocity, double yawRate, double roadWheelAngle, double speed)
    {
        double front = FrontForce(lateralVelocity, yawRate, roadWheelAngle, speed);
        double rear = RearForce(lateralVelocity, yawRate, speed);
        return ((front + rear) / Mass - speed * yawRate, (A * front - B * rear) / YawInertia);
    }

    private static double Square(double x) => x * x;

    private double FrontForce(double lateralVelocity, double yawRate, double roadWheelAngle, double speed) =>
        FrontCorneringStiffness * (roadWheelAngle - (lateralVelocity + A * yawRate) / speed);

    private double RearForce(double lateralVelocity, double yawRate, double speed) =>
        -RearCorneringStiffness * (lateralVelocity - B * yawRate) / speed;

    private double RequireStable(double speed) => IsStable(speed)
        ? speed
        : throw new ArgumentOutOfRangeException(nameof(speed), speed,
            FormattableString.Invariant($"speed must be below the critical speed of this oversteering vehicle, {CriticalSpeed:G5} m/s: there is no steady state above."));
}
