using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>What the friction of a spring does in a steady loop.</summary>
/// <param name="Amplitude">Amplitude of the spring's compression <c>X</c>, m.</param>
/// <param name="Energy">Heat in a cycle, J.</param>
/// <param name="AddedStiffness">Stiffness between the tips, N/m.</param>
/// <param name="DampingRatio">Damping ratio of one mass on the spring with its friction and nothing else (<see cref="SpringFriction.DampingRatio"/>).</param>
public sealed record SpringFrictionLoop(double Amplitude, double Energy, double AddedStiffness, double DampingRatio);

/// <summary>The friction of a spring over amplitude: it rules small motions, and next to nothing of it is left in wide ones.</summary>
public static class SpringFrictionLoops
{
    private static readonly ImmutableArray<double> Amplitudes = [0.0005, 0.001, 0.002, 0.005, 0.010, 0.020, 0.050];

    /// <summary>The loops of 0.5 mm to 50 mm about the rest position.</summary>
    /// <param name="car">The vehicle at rest.</param>
    /// <param name="side">Side of the spring; without friction there are no loops.</param>
    public static ImmutableArray<SpringFrictionLoop> Of(AssembledHalfCar car, Side side)
    {
        ArgumentNullException.ThrowIfNull(car);
        if (car.Vehicle.On(side).Spring.Friction is not { } friction)
            return [];

        // Between the tips too: a table's rate changes with the amplitude.
        var force = car.SpringForceOn(side);
        return [.. Amplitudes.Select(x => new SpringFrictionLoop(x, friction.LoopEnergy(x), friction.StiffnessAt(x), friction.DampingRatio((force.Value(x) - force.Value(-x)) / (2 * x), x)))];
    }
}
