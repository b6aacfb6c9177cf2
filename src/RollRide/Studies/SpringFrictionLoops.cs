using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>What the friction of a spring does in a steady loop, and the damper of its side beside it.</summary>
/// <param name="Amplitude">Amplitude of the spring's compression <c>X</c>, m.</param>
/// <param name="Energy">Heat in a cycle of the friction, J.</param>
/// <param name="AddedStiffness">Stiffness of the friction between the tips, N/m.</param>
/// <param name="FrictionRatio">Damping ratio by friction alone (<see cref="SpringFriction.DampingRatio"/>).</param>
/// <param name="DamperRatio">Damping ratio by the damper alone, in the same motion.</param>
public sealed record SpringFrictionLoop(double Amplitude, double Energy, double AddedStiffness, double FrictionRatio, double DamperRatio)
{
    /// <summary>Damping ratio by both: their energies add up.</summary>
    public double Together => FrictionRatio + DamperRatio;
}

/// <summary>The friction of a spring over amplitude: it rules small motions, and next to nothing of it is left in wide ones.</summary>
public static class SpringFrictionLoops
{
    private static readonly ImmutableArray<double> Amplitudes = [0.0005, 0.001, 0.002, 0.005, 0.010, 0.020, 0.050];

    /// <summary>The loops of 0.5 mm to 50 mm about the rest position.</summary>
    /// <remarks>
    /// Ratios are those of half the body on the spring of this side with its friction, in heave on rigid tyres: with the stiffness <c>k</c> of both and the heave ratios
    /// <c>Rs</c> and <c>Rd</c> of spring and damper, <c>ω = Rs √(2k/ms)</c>, and the damper's share of the energy of a cycle is <c>c ω (Rd/Rs)²/(2k)</c> with its equivalent
    /// coefficient at the velocity amplitude <c>ω X Rd/Rs</c>.
    /// </remarks>
    /// <param name="car">The vehicle at rest.</param>
    /// <param name="side">Side of the spring; without friction there are no loops.</param>
    /// <param name="includeFriction">Whether the friction of the damper's seals counts in its coefficient.</param>
    public static ImmutableArray<SpringFrictionLoop> Of(AssembledHalfCar car, Side side, bool includeFriction)
    {
        ArgumentNullException.ThrowIfNull(car);
        var (spring, damper) = (car.Vehicle.On(side).Spring, car.Layout.On(side));
        if (spring.Friction is not { } friction)
            return [];
        var force = car.SpringForceOn(side);
        var ratio = damper.Fitting.HeaveRatio / spring.Fitting.HeaveRatio;
        return
        [
            .. Amplitudes.Select(x =>
            {
                // Between the tips too: a table's rate changes with the amplitude.
                var rate = (force.Value(x) - force.Value(-x)) / (2 * x);
                var stiffness = rate + friction.StiffnessAt(x);
                var omega = spring.Fitting.HeaveRatio * Math.Sqrt(2 * stiffness / car.Vehicle.Body.Mass);
                var coefficient = damper.Damper.EquivalentCoefficient(omega * x * ratio, DampingDirection.Both, includeFriction);
                return new SpringFrictionLoop(x, friction.LoopEnergy(x), friction.StiffnessAt(x), friction.DampingRatio(rate, x), coefficient * omega * ratio * ratio / (2 * stiffness));
            }),
        ];
    }

    /// <summary>The sides whose loops are told apart, each with a name: one without a name where both springs and both dampers are the same.</summary>
    /// <param name="car">The vehicle at rest.</param>
    public static IEnumerable<(string? Name, Side Side)> SidesOf(AssembledHalfCar car)
    {
        ArgumentNullException.ThrowIfNull(car);
        return car.HasUnlikeSides ? [("left", Side.Left), ("right", Side.Right)] : [(null, Side.Left)];
    }
}
