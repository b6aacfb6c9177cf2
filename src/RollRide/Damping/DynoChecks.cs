using System.Collections.Immutable;
using System.Globalization;

namespace RollRide.Damping;

/// <summary>Tells a damper from a mistake in its record: signs the wrong way round, columns swapped, a load cell off its zero.</summary>
internal static class DynoChecks
{
    // A load cell that was not zeroed is off by no more than this share of the largest force; common practice, no source.
    private const double LargestOffsetShare = 0.01;

    // Ordinary dampers give more rebound than compression; below this share the two are likely to be mixed up; common practice, no source.
    private const double LeastRebound = 0.7;

    /// <summary>
    /// Gas pushes the rod out. With both signs turned round energy looks right, and compression and rebound stand in each other's place:
    /// only the gas shows it.
    /// </summary>
    public static void GasForce(double gasForce, double largestForce, ImmutableArray<string>.Builder warnings)
    {
        if (gasForce < -LargestOffsetShare * largestForce)
        {
            throw new DynoDataException(null, null, string.Create(
                CultureInfo.InvariantCulture,
                $"the force at rest is {gasForce:F0} N: the gas would pull the rod in, but gas pushes it out. The direction declared positive is the wrong one (compression and rebound would change places), or the load cell was not zeroed without the damper"));
        }

        if (gasForce < -DynoReducer.LoadCellShare * largestForce)
        {
            warnings.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"The force at rest is {gasForce:F1} N, as if the gas pulled the rod in: the load cell may be off its zero, or the direction declared positive is the wrong one."));
        }
    }

    /// <summary>Warns where rebound is so soft against compression that the two may be mixed up; without gas nothing else shows it.</summary>
    public static void Directions(ForceVelocityCurve curve, ImmutableArray<string>.Builder warnings)
    {
        double fastest = Math.Min(curve.MaximumVelocity, -curve.MinimumVelocity);
        double ratio = curve.EquivalentCoefficient(fastest, DampingDirection.Rebound) / curve.EquivalentCoefficient(fastest, DampingDirection.Compression);
        if (ratio < LeastRebound)
        {
            warnings.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"Rebound is only {ratio:F2} times compression up to {fastest:F2} m/s, and most dampers have more rebound than compression: is the right direction declared positive?"));
        }
    }

    /// <summary>Energy's view of points: <c>ΣFv</c> is a power, and its sign and size tell a damper from a mistake.</summary>
    public static void Power(List<ForceVelocityPoint> points, double gasForce)
    {
        double power = points.Sum(p => (p.Force - gasForce) * p.Velocity);
        if (power <= 0)
            throw new DynoDataException(null, null, "over all points force times velocity is negative, and a damper cannot make energy: force or velocity has the other sign");
        double coefficient = power / points.Sum(p => p.Velocity * p.Velocity);
        if (coefficient is not (>= DynoCycle.SmallestCoefficient and <= DynoCycle.LargestCoefficient))
        {
            throw new DynoDataException(null, null, string.Create(
                CultureInfo.InvariantCulture,
                $"the points dissipate like a damping coefficient of {coefficient:G3} N·s/m; from {DynoCycle.SmallestCoefficient} to {DynoCycle.LargestCoefficient} is accepted: are force and velocity swapped, or is a unit wrong?"));
        }
    }
}
