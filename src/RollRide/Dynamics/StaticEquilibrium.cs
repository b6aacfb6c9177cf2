using System.Diagnostics.CodeAnalysis;
using MathNet.Numerics.Providers.LinearAlgebra;

namespace RollRide.Dynamics;

/// <summary>Where the vehicle stands when nothing moves, under a steady lateral acceleration.</summary>
/// <param name="LateralAcceleration">The lateral acceleration <c>ay</c>, m/s².</param>
/// <param name="BodyHeave">Body heave <c>zs</c>, m.</param>
/// <param name="BodyRoll">Body roll <c>φs</c> from rest, rad; 0 is level where nothing leans at rest (<see cref="AssembledHalfCar.RestRoll"/>).</param>
/// <param name="UnsprungHeave">Unsprung heave <c>zu</c>, m.</param>
/// <param name="UnsprungRoll">Unsprung roll <c>φu</c>, rad.</param>
/// <param name="Iterations">Newton steps taken.</param>
public sealed record StaticEquilibrium(
    double LateralAcceleration,
    double BodyHeave,
    double BodyRoll,
    double UnsprungHeave,
    double UnsprungRoll,
    int Iterations)
{
    private const int MaximumIterations = 100;

    // Residual accelerations below this (m/s², rad/s²) are rounding: forces of 1e5 N over masses of 1e3 kg carry 1e-14.
    private const double Tolerance = 1e-10;

    /// <summary>Where the second axle stands; null for one axle.</summary>
    public StaticEquilibrium? Second { get; private init; }

    /// <summary>Roll angle of the body, rad, counted from level.</summary>
    /// <param name="car">The vehicle that this is the static solution of.</param>
    public double RollAngle(AssembledHalfCar car)
    {
        ArgumentNullException.ThrowIfNull(car);
        return BodyRoll + car.RestRoll;
    }

    /// <summary>The displacements <c>(zs, φs, zu, φu)</c>.</summary>
    public IReadOnlyList<double> Position => [BodyHeave, BodyRoll, UnsprungHeave, UnsprungRoll];

    /// <summary>The state vector of a run that starts here, at rest.</summary>
    /// <param name="car">Vehicle and layout.</param>
    public double[] ToState(AssembledHalfCar car)
    {
        ArgumentNullException.ThrowIfNull(car);
        var state = new double[car.StateCount];
        (state[0], state[1], state[2], state[3]) = (BodyHeave, BodyRoll, UnsprungHeave, UnsprungRoll);
        FollowStrokes(car, state);
        Second?.ToState(car.Second!).CopyTo(state, car.OwnStateCount);
        return state;
    }

    /// <summary>Finds the static solution under a lateral acceleration.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="lateralAcceleration">Steady lateral acceleration, m/s².</param>
    /// <exception cref="NoEquilibriumException">The vehicle rolls over or its body is unstable in roll.</exception>
    public static StaticEquilibrium Find(AssembledHalfCar car, double lateralAcceleration) =>
        TryFind(car, lateralAcceleration, out var equilibrium)
            ? equilibrium
            : throw new NoEquilibriumException(lateralAcceleration);

    /// <summary>Finds the static solution under a lateral acceleration, if there is one.</summary>
    /// <remarks>
    /// Newton's method with the analytic stiffness, the step halved until the residual falls: spring tables, stops and lifting
    /// tyres make the stiffness jump, and a long step may ask for a travel that a linkage cannot reach.
    /// </remarks>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="lateralAcceleration">Steady lateral acceleration, m/s².</param>
    /// <param name="equilibrium">The solution.</param>
    /// <returns>Whether there is a stable one.</returns>
    public static bool TryFind(
        AssembledHalfCar car,
        double lateralAcceleration,
        [NotNullWhen(true)] out StaticEquilibrium? equilibrium) => TryFind(car, lateralAcceleration, 0, 0, out equilibrium);

    /// <summary>Finds the static solution under a lateral acceleration with the wheels on roads of given heights, if there is one.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="lateralAcceleration">Steady lateral acceleration, m/s².</param>
    /// <param name="roadLeft">Height of the road under the left wheel, m.</param>
    /// <param name="roadRight">Height of the road under the right wheel, m.</param>
    /// <param name="equilibrium">The solution.</param>
    /// <returns>Whether there is a stable one.</returns>
    public static bool TryFind(
        AssembledHalfCar car,
        double lateralAcceleration,
        double roadLeft,
        double roadRight,
        [NotNullWhen(true)] out StaticEquilibrium? equilibrium)
    {
        // From where the road itself puts the wheels: on a road far below, a tyre that hangs in the air holds nothing.
        ArgumentNullException.ThrowIfNull(car);
        var (heave, roll) = (0.5 * (roadLeft + roadRight), 0.5 * (roadLeft - roadRight) / car.Vehicle.HalfTrack);
        double[] start = [heave, roll, heave, roll];
        return TryFind(car, lateralAcceleration, roadLeft, roadRight, car.Second is null ? start : [.. start, .. start], out equilibrium);
    }

    /// <summary>Body roll of the static solution, rad, counted from level; null where there is no stable one. At rest nothing is sought.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="lateralAcceleration">Steady lateral acceleration, m/s².</param>
    /// <param name="roadLeft">Height of the road under the left wheel, m.</param>
    /// <param name="roadRight">Height of the road under the right wheel, m.</param>
    internal static double? RollAngle(AssembledHalfCar car, double lateralAcceleration, double roadLeft = 0, double roadRight = 0) =>
        (lateralAcceleration, roadLeft, roadRight) == (0, 0, 0) ? car.RestRoll
        : TryFind(car, lateralAcceleration, roadLeft, roadRight, out var stand) ? stand.RollAngle(car)
        : null;

    /// <summary>Finds the static solution from a position near it.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="lateralAcceleration">Steady lateral acceleration, m/s².</param>
    /// <param name="roadLeft">Height of the road under the left wheel, m.</param>
    /// <param name="roadRight">Height of the road under the right wheel, m.</param>
    /// <param name="start">The displacements <c>(zs, φs, zu, φu)</c> to start from, then those of a second axle.</param>
    /// <param name="equilibrium">The solution.</param>
    /// <returns>Whether there is a stable one.</returns>
    internal static bool TryFind(
        AssembledHalfCar car,
        double lateralAcceleration,
        double roadLeft,
        double roadRight,
        ReadOnlySpan<double> start,
        [NotNullWhen(true)] out StaticEquilibrium? equilibrium)
    {
        equilibrium = null;

        // At rest an elastic mount is back at its own rest, and its damper gives no force.
        var still = car.HasTopMount || car.Second is { HasTopMount: true } ? car.WithoutDamping() : car;
        IStandingForces slopes = car.Second is null ? new HalfCarSlopes(still) : new VehicleForces(still);
        slopes.Hold(roadLeft, roadRight, lateralAcceleration);

        var coordinates = slopes.Coordinates;
        var places = VehicleForces.PlacesOf(car.Vehicle.SecondAxle is { Chassis.IsRigid: true });
        var position = new double[coordinates];
        for (var i = 0; i < start.Length; i++)
            position[places[i]] = start[i];
        var (trial, step) = (new double[coordinates], new double[coordinates]);
        var stiffness = new double[coordinates * coordinates];
        Span<double> residual = stackalloc double[coordinates], trialResidual = stackalloc double[coordinates];
        slopes.Accelerations(position, residual);
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            if (Largest(residual) < Tolerance)
            {
                StaticEquilibrium Of(int first) => new(lateralAcceleration, position[places[first]], position[places[first + 1]], position[places[first + 2]], position[places[first + 3]], iteration);
                equilibrium = Of(0) with { Second = car.Second is null ? null : Of(HalfCarState.Rates) };
                slopes.Stiffness(position, stiffness);
                return Stability.Holds(slopes.Masses, stiffness);
            }

            slopes.Stiffness(position, stiffness);
            slopes.Forces(position, step);
            LinearAlgebraControl.Provider.LUSolve(1, stiffness, coordinates, step);
            if (!Array.TrueForAll(step, double.IsFinite))
                return false;
            var share = 1.0;
            do
            {
                for (var i = 0; i < coordinates; i++)
                    trial[i] = position[i] + (share * step[i]);
                slopes.Accelerations(trial, trialResidual);
                share /= 2;
            }
            while (!(SumOfSquares(trialResidual) < SumOfSquares(residual)) && share > 1e-6);
            if (!double.IsFinite(Largest(trialResidual)))
                return false;
            (position, trial) = (trial, position);
            trialResidual.CopyTo(residual);
        }

        return false;
    }

    private static double Largest(ReadOnlySpan<double> values)
    {
        var largest = 0.0;
        foreach (var value in values)
            largest = Math.Max(largest, Math.Abs(value));
        return largest;
    }

    private static double SumOfSquares(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        foreach (var value in values)
            sum += value * value;
        return sum;
    }

    /// <summary>At rest a damper's stroke is all of the travel: its top mount is back at its own rest.</summary>
    private static void FollowStrokes(AssembledHalfCar car, double[] state)
    {
        if (!car.HasTopMount)
            return;
        var q = state[HalfCarState.UnsprungHeave] - state[HalfCarState.BodyHeave];
        var r = state[HalfCarState.UnsprungRoll] - state[HalfCarState.BodyRoll];
        state[HalfCarState.LeftStroke] = car.Layout.Fitting.At(q, r, Mounting.Side.Left).Compression;
        state[HalfCarState.LeftStroke + 1] = car.Layout.On(Mounting.Side.Right).Fitting.At(q, r, Mounting.Side.Right).Compression;
    }
}

/// <summary>There is no position in which the vehicle can stand under a lateral acceleration.</summary>
public sealed class NoEquilibriumException : Exception
{
    /// <summary>Makes the exception for a lateral acceleration.</summary>
    /// <param name="lateralAcceleration">The lateral acceleration, m/s².</param>
    public NoEquilibriumException(double lateralAcceleration)
        : base(FormattableString.Invariant(
            $"The vehicle has no stable position under a lateral acceleration of {lateralAcceleration:F2} m/s²: the body is unstable in roll, or a side lifts and the vehicle rolls over.")) =>
        LateralAcceleration = lateralAcceleration;

    /// <summary>The lateral acceleration, m/s².</summary>
    public double LateralAcceleration { get; }
}
