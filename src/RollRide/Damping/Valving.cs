using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>The valving of a damper: one valve characteristic in compression, one in rebound.</summary>
/// <param name="Compression">The valve in compression.</param>
/// <param name="Rebound">The valve in rebound.</param>
public sealed record Valving(ValveCharacteristic Compression, ValveCharacteristic Rebound)
{
    /// <summary>
    /// The usual test velocities of a damper dynamometer, m/s: <c>π · stroke · n / 60</c> for a 100 mm stroke at 10, 25, 50, 75, 100
    /// and 200 revolutions a minute (usual test velocities; common practice, no source).
    /// </summary>
    public static IReadOnlyList<double> StandardTestVelocities { get; } =
        [.. new[] { 10, 25, 50, 75, 100, 200 }.Select(rpm => Math.PI * 0.1 * rpm / 60)];

    /// <summary>Force at a velocity, N, positive in compression.</summary>
    /// <param name="velocity">Damper velocity, m/s, positive in compression.</param>
    public double Force(double velocity) => velocity >= 0 ? Compression.Force(velocity) : -Rebound.Force(-velocity);

    /// <summary>The table that goes to the workshop: force at each test velocity, both ways.</summary>
    /// <param name="velocities">Test velocities, m/s, above 0.</param>
    public IReadOnlyList<TestPoint> ForcesAt(IEnumerable<double> velocities) =>
        [.. velocities.Select(v => new TestPoint(Require.Positive(v, "m/s", nameof(velocities)), Compression.Force(v), Rebound.Force(v)))];

    /// <summary>
    /// The force–velocity curve with a point at each corner: exactly this valving where the knees are sharp, otherwise within a
    /// thousandth of the change of slope times the half-width of the bend.
    /// </summary>
    /// <param name="compressionVelocity">Highest velocity in compression, m/s, above 0.</param>
    /// <param name="reboundVelocity">Highest velocity in rebound, m/s, above 0, as a positive number.</param>
    public ForceVelocityCurve ToCurve(double compressionVelocity, double reboundVelocity)
    {
        Require.Positive(compressionVelocity, "m/s");
        Require.Positive(reboundVelocity, "m/s");
        double[] velocities =
        [
            .. Rebound.Corners(reboundVelocity).Reverse().Select(v => -v),
            0,
            .. Compression.Corners(compressionVelocity),
        ];
        return ForceVelocityCurve.FromPoints(velocities, [.. velocities.Select(Force)]);
    }

    /// <summary>A damper with this valving in place of its own. Its points reach as far each way as those of the present curve, or farther.</summary>
    /// <param name="damper">The damper.</param>
    /// <param name="velocity">The velocity, m/s, that the points reach at least, both ways; above 0.</param>
    public Damper In(Damper damper, double velocity)
    {
        ArgumentNullException.ThrowIfNull(damper);
        return damper with
        {
            Curve = ToCurve(Math.Max(damper.Curve.MaximumVelocity, velocity), Math.Max(-damper.Curve.MinimumVelocity, velocity)),
        };
    }
}

/// <summary>What a damper gives at one test velocity.</summary>
/// <param name="Velocity">Test velocity, m/s.</param>
/// <param name="Compression">Force in compression, N.</param>
/// <param name="Rebound">Force in rebound, N, as a positive number.</param>
public readonly record struct TestPoint(double Velocity, double Compression, double Rebound)
{
    /// <summary>Rebound force over compression force.</summary>
    public double ReboundToCompression => Rebound / Compression;
}
