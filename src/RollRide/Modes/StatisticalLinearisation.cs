using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Modes;

/// <summary>
/// The damper coefficient that stands for a bent force–velocity curve on a random road:
/// <c>c = E[F(v) v]/E[v²]</c> for a Gaussian velocity, which depends on how fast the damper runs and is found by iteration.
/// </summary>
/// <remarks>R. C. Booton, Nonlinear control systems with random inputs, 1954; T. K. Caughey, 1963 (from memory).</remarks>
public static class StatisticalLinearisation
{
    private const double Tolerance = 1e-6;
    private const int MostIterations = 60;

    /// <summary>Coefficient of a damper whose velocity is Gaussian, N·s/m; friction included, as it acts in the simulation.</summary>
    /// <param name="damper">The damper.</param>
    /// <param name="rmsVelocity">Root mean square velocity, m/s; above 0.</param>
    public static double Coefficient(Damper damper, double rmsVelocity)
    {
        ArgumentNullException.ThrowIfNull(damper);
        Require.Positive(rmsVelocity, "m/s");

        // Beyond eight standard deviations lies 1e-15 of the whole; the steps resolve friction's reversal near rest.
        const double Reach = 8;
        const int Steps = 16_000;
        const double Step = 2 * Reach / Steps;
        double sum = 0;
        for (var i = 0; i < Steps; i++)
        {
            var u = -Reach + ((i + 0.5) * Step);
            sum += damper.Force(rmsVelocity * u) * u * Math.Exp(-0.5 * u * u);
        }

        return sum * Step / (Math.Sqrt(2 * Math.PI) * rmsVelocity);
    }

    /// <summary>The linear half-car on a road with the coefficient that fits its own damper velocity there.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="road">The road.</param>
    /// <param name="speed">Speed, m/s; above 0.</param>
    /// <returns>The coefficient, N·s/m, and the response with it.</returns>
    /// <exception cref="InvalidOperationException">The iteration does not settle.</exception>
    public static (double Coefficient, LinearRideResponse Response) OnRoad(AssembledHalfCar car, RandomRoad road, double speed)
    {
        ArgumentNullException.ThrowIfNull(car);
        const int Coarse = 300;
        var damper = car.Layout.Damper;
        var coefficient = Coefficient(damper, 0.2);
        for (var i = 0; i < MostIterations; i++)
        {
            var velocity = new RandomResponse(car, coefficient).OnRoad(road, speed, Coarse).DamperVelocity;
            if (velocity == 0) break; // At the centre of a live axle in pure roll: the damper stands still.
            var next = Coefficient(damper, velocity);
            var settled = Math.Abs(next - coefficient) <= Tolerance * coefficient;
            coefficient = next;
            if (settled) break;
            if (i == MostIterations - 1) throw new InvalidOperationException("The damper coefficient for this road does not settle.");
        }

        return (coefficient, new RandomResponse(car, coefficient).OnRoad(road, speed));
    }
}
