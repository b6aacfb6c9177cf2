using MathNet.Numerics.RootFinding;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Mounting;
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
    /// <returns>The coefficient, of unlike dampers the mean, N·s/m, what the left and the right damper have of it, and the response with it.</returns>
    /// <exception cref="InvalidOperationException">The iteration creeps on without settling.</exception>
    public static (double Coefficient, (double Left, double Right) Shares, LinearRideResponse Response) OnRoad(AssembledHalfCar car, RandomRoad road, double speed)
    {
        ArgumentNullException.ThrowIfNull(car);
        var (left, right) = (car.Layout.Damper, car.Layout.On(Side.Right).Damper);
        (double Left, double Right) shares = (1, 1);
        double Mean(double velocity)
        {
            var ofLeft = Coefficient(left, velocity);
            if (left == right)
                return ofLeft;

            // Both at the velocity of the faster one, as for like dampers.
            var mean = 0.5 * (ofLeft + Coefficient(right, velocity));
            shares = (ofLeft / mean, 2 - (ofLeft / mean));
            return mean;
        }

        double Fitted(double coefficient)
        {
            var velocity = new RandomResponse(car, coefficient, shares).OnRoad(road, speed).DamperVelocity;

            // At the centre of a live axle in pure roll the damper stands still, and any coefficient fits.
            return velocity == 0 ? coefficient : Mean(velocity);
        }

        var coefficient = Mean(0.2);
        var (before, gapBefore) = (coefficient, 0.0);
        for (var i = 0; ; i++)
        {
            if (i == MostIterations) throw new InvalidOperationException("The damper coefficient for this road does not settle.");
            var next = Fitted(coefficient);
            var gap = Math.Log(next / coefficient);
            if (Math.Abs(gap) <= Tolerance)
            {
                coefficient = next;
                break;
            }

            // With a progressive damper a larger coefficient calls for a smaller one, and repeating that may go to and fro for ever. What
            // was passed lies in between.
            if (gap * gapBefore < 0)
            {
                coefficient = Math.Exp(Brent.FindRoot(
                    log => Math.Log(Fitted(Math.Exp(log))) - log, Math.Log(Math.Min(before, coefficient)), Math.Log(Math.Max(before, coefficient)), Tolerance));
                break;
            }

            (before, gapBefore, coefficient) = (coefficient, gap, next);
        }

        return (coefficient, shares, new RandomResponse(car, coefficient, shares).OnRoad(road, speed));
    }
}
