using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>
/// A state of a damper, such as hot or worn: what becomes of the force of its valves at each speed, as a ratio to the force that the damper has
/// otherwise. As a ratio it carries over to another valving of the same damper, which is an assumption: oil and wear act on the bleed more than on
/// the shims. Immutable and thread-safe.
/// </summary>
public sealed class DamperState
{
    // Ratio over speed, both ways; at either end it is held.
    private readonly PiecewiseLinear _compression, _rebound;

    private DamperState(string name, double? temperature, PiecewiseLinear compression, PiecewiseLinear rebound)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        (Name, Temperature, _compression, _rebound) = (name, temperature, compression, rebound);
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>Temperature of the oil, °C; null where it is not known.</summary>
    public double? Temperature { get; }

    /// <summary>The state in which a damper has another curve.</summary>
    /// <param name="name">Name of the state.</param>
    /// <param name="otherwise">The damper's curve otherwise; with a force at every speed above 0 where it has a point.</param>
    /// <param name="curve">Its curve in this state.</param>
    /// <param name="temperature">Temperature of the oil, °C; null where it is not known.</param>
    /// <exception cref="ArgumentException">The ratio of both forces is not a finite number above 0 somewhere.</exception>
    public static DamperState Of(string name, ForceVelocityCurve otherwise, ForceVelocityCurve curve, double? temperature = null)
    {
        ArgumentNullException.ThrowIfNull(otherwise);
        ArgumentNullException.ThrowIfNull(curve);
        return new DamperState(name, temperature, Ratio(1), Ratio(-1));

        PiecewiseLinear Ratio(int way)
        {
            double[] speeds = [.. otherwise.Points.Concat(curve.Points).Select(point => way * point.Velocity).Where(speed => speed > 0).Distinct().Order()];
            double[] ratios = [.. speeds.Select(speed => curve.Force(way * speed) / otherwise.Force(way * speed))];
            var bad = Array.FindIndex(ratios, ratio => !(ratio > 0 && double.IsFinite(ratio)));
            if (bad >= 0)
            {
                throw new ArgumentException(FormattableString.Invariant(
                    $"at {way * speeds[bad]:0.####} m/s the force is {curve.Force(way * speeds[bad]):0.#} N in state “{name}” and {otherwise.Force(way * speeds[bad]):0.#} N otherwise; both must resist the motion"));
            }

            return PiecewiseLinear.Through([0, .. speeds], [ratios[0], .. ratios]);
        }
    }

    /// <summary>The state at a temperature between those of two others: force is linear in temperature.</summary>
    /// <param name="name">Name of the state.</param>
    /// <param name="temperature">Its temperature, °C, between those of the two.</param>
    /// <param name="cooler">The state at the lower temperature.</param>
    /// <param name="hotter">The state at the higher temperature.</param>
    public static DamperState Between(string name, double temperature, DamperState cooler, DamperState hotter)
    {
        ArgumentNullException.ThrowIfNull(cooler);
        ArgumentNullException.ThrowIfNull(hotter);
        if (!(cooler.Temperature <= temperature && temperature <= hotter.Temperature && cooler.Temperature < hotter.Temperature))
            throw new ArgumentOutOfRangeException(nameof(temperature), temperature, FormattableString.Invariant($"The temperature must lie between those of the two states, {cooler.Temperature} and {hotter.Temperature} °C."));
        var share = (temperature - cooler.Temperature.Value) / (hotter.Temperature.Value - cooler.Temperature.Value);
        return new DamperState(name, temperature, Mixed(cooler._compression, hotter._compression, share), Mixed(cooler._rebound, hotter._rebound, share));
    }

    /// <summary>What both sides give on average where each is in a state of its own, as a state; null where both are as written.</summary>
    /// <param name="left">The state on the left; null for the damper as written.</param>
    /// <param name="right">The state on the right; null for the damper as written.</param>
    public static DamperState? Mean(DamperState? left, DamperState? right)
    {
        if (left == right)
            return left;
        var (one, other) = (left ?? AsWritten(right!), right ?? AsWritten(left!));
        return new DamperState($"{one.Name}, {other.Name}", null, Mixed(one._compression, other._compression, 0.5), Mixed(one._rebound, other._rebound, 0.5));

        static DamperState AsWritten(DamperState state) => new("as written", null, Ones(state._compression), Ones(state._rebound));
        static PiecewiseLinear Ones(PiecewiseLinear ratio) => PiecewiseLinear.Through([.. ratio.X], [.. ratio.X.Select(_ => 1.0)]);
    }

    /// <summary>Whether another state does the same to every force.</summary>
    /// <param name="other">The other state.</param>
    public bool IsSameAs(DamperState other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Name == other.Name && IsSame(_compression, other._compression) && IsSame(_rebound, other._rebound);

        static bool IsSame(PiecewiseLinear one, PiecewiseLinear another) => one.X.SequenceEqual(another.X) && one.Y.SequenceEqual(another.Y);
    }

    /// <summary>Force in this state over the force otherwise.</summary>
    /// <param name="velocity">Damper velocity, m/s, positive in compression.</param>
    public double RatioAt(double velocity) => At(velocity >= 0 ? _compression : _rebound, Math.Abs(velocity));

    /// <summary>A curve as it is in this state.</summary>
    /// <param name="curve">The curve of the damper otherwise, whatever its valving.</param>
    public ForceVelocityCurve Of(ForceVelocityCurve curve)
    {
        ArgumentNullException.ThrowIfNull(curve);
        var (low, high) = (curve.MinimumVelocity, curve.MaximumVelocity);
        double[] velocities =
        [
            .. curve.Points.Select(point => point.Velocity).Concat(Velocities).Where(velocity => velocity >= low && velocity <= high).Distinct().Order(),
        ];
        return ForceVelocityCurve.FromPoints(velocities, [.. velocities.Select(velocity => RatioAt(velocity) * curve.Force(velocity))], curve.Interpolation);
    }

    /// <summary>The velocities at which the ratio is known, m/s, ascending: none at rest.</summary>
    public ImmutableArray<double> Velocities => [.. _rebound.X.Where(speed => speed > 0).Reverse().Select(speed => -speed), .. _compression.X.Where(speed => speed > 0)];

    private static PiecewiseLinear Mixed(PiecewiseLinear one, PiecewiseLinear other, double share)
    {
        double[] speeds = [.. one.X.Concat(other.X).Distinct().Order()];
        return PiecewiseLinear.Through(speeds, [.. speeds.Select(speed => ((1 - share) * At(one, speed)) + (share * At(other, speed)))]);
    }

    private static double At(PiecewiseLinear ratio, double speed) => ratio.Value(Math.Clamp(speed, 0, ratio.X[^1]));
}
