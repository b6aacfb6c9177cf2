using System.Diagnostics.CodeAnalysis;
using MathNet.Numerics.Providers.LinearAlgebra;
using RollRide.Cornering;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Dynamics;

/// <summary>Where the vehicle stands when nothing moves, under a steady lateral acceleration.</summary>
/// <param name="LateralAcceleration">The lateral acceleration <c>ay</c>, m/s².</param>
/// <param name="BodyHeave">Body heave <c>zs</c>, m.</param>
/// <param name="BodyRoll">Body roll <c>φs</c>, rad.</param>
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
    private const int Coordinates = HalfCarState.Rates;
    private const int MaximumIterations = 100;

    // Residual accelerations below this (m/s², rad/s²) are rounding: forces of 1e5 N over masses of 1e3 kg carry 1e-14.
    private const double Tolerance = 1e-10;

    /// <summary>The displacements <c>(zs, φs, zu, φu)</c>.</summary>
    public IReadOnlyList<double> Position => [BodyHeave, BodyRoll, UnsprungHeave, UnsprungRoll];

    /// <summary>The state vector of a run that starts here, at rest.</summary>
    /// <param name="car">Vehicle and layout.</param>
    public double[] ToState(AssembledHalfCar car)
    {
        ArgumentNullException.ThrowIfNull(car);
        var state = new double[car.HasTopMount ? HalfCarState.Count + 2 : HalfCarState.Count];
        (state[0], state[1], state[2], state[3]) = (BodyHeave, BodyRoll, UnsprungHeave, UnsprungRoll);
        FollowStrokes(car, state);
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
        ArgumentNullException.ThrowIfNull(car);
        equilibrium = null;
        var equations = new HalfCarEquations(car, new Road(Held(roadLeft), Held(roadRight), 1), new GivenLateralAcceleration(Held(lateralAcceleration)));
        equations.EnterSegment(0, 1);
        var state = new double[equations.Dimension];
        var trial = new double[state.Length];
        var derivative = new double[state.Length];
        var stiffness = new double[Coordinates * Coordinates];
        var step = new double[Coordinates];
        var vehicle = car.Vehicle;
        ReadOnlySpan<double> masses = [vehicle.Body.Mass, vehicle.BodyRollInertia, vehicle.Unsprung.Mass, vehicle.UnsprungRollInertia];
        Span<double> residual = stackalloc double[Coordinates], trialResidual = stackalloc double[Coordinates];
        WriteResidual(equations, state, derivative, residual);
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            if (Largest(residual) < Tolerance)
            {
                equilibrium = new StaticEquilibrium(lateralAcceleration, state[0], state[1], state[2], state[3], iteration);
                return IsStable(car, state, roadLeft, roadRight, stiffness);
            }

            // Arrays instead of matrices: every run through a corner asks for this solution.
            LinearHalfCar.WriteStiffness(car, state.AsSpan(0, Coordinates), roadLeft, roadRight, stiffness);
            for (var i = 0; i < Coordinates; i++)
                step[i] = masses[i] * residual[i];
            LinearAlgebraControl.Provider.LUSolve(1, stiffness, Coordinates, step);
            if (!Array.TrueForAll(step, double.IsFinite))
                return false;
            bool isWithinReach;
            var share = 1.0;
            do
            {
                for (var i = 0; i < Coordinates; i++)
                    trial[i] = state[i] + (share * step[i]);
                isWithinReach = TryWriteResidual(car, equations, trial, derivative, trialResidual);
                share /= 2;
            }
            while (!(isWithinReach && SumOfSquares(trialResidual) < SumOfSquares(residual)) && share > 1e-6);
            if (!isWithinReach || !double.IsFinite(Largest(trialResidual)))
                return false;
            (state, trial) = (trial, state);
            trialResidual.CopyTo(residual);
        }

        return false;
    }

    /// <summary>Writes the residual at a trial position.</summary>
    /// <returns>Whether every linkage can follow there.</returns>
    private static bool TryWriteResidual(AssembledHalfCar car, HalfCarEquations equations, double[] trial, double[] derivative, Span<double> residual)
    {
        try
        {
            FollowStrokes(car, trial);
            WriteResidual(equations, trial, derivative, residual);
            return true;
        }
        catch (Mounting.UnreachableTravelException)
        {
            return false;
        }
    }

    private static void WriteResidual(HalfCarEquations equations, double[] state, double[] derivative, Span<double> residual)
    {
        equations.Derivatives(0.5, state, derivative);
        derivative.AsSpan(HalfCarState.Rates, Coordinates).CopyTo(residual);
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

    private static PiecewiseSignal Held(double value) => value == 0 ? PiecewiseSignal.Zero : new(new SignalPiece(0, double.PositiveInfinity, new ConstantShape(value)));

    /// <summary>At rest a damper's stroke is all of the travel: its top mount is back at its own rest.</summary>
    private static void FollowStrokes(AssembledHalfCar car, double[] state)
    {
        if (!car.HasTopMount)
            return;
        var q = state[HalfCarState.UnsprungHeave] - state[HalfCarState.BodyHeave];
        var r = state[HalfCarState.UnsprungRoll] - state[HalfCarState.BodyRoll];
        state[HalfCarState.LeftStroke] = car.Layout.Fitting.At(q, r, Mounting.Side.Left).Compression;
        state[HalfCarState.LeftStroke + 1] = car.Layout.Fitting.At(q, r, Mounting.Side.Right).Compression;
    }

    /// <summary>A rest position is stable if the stiffness there is positive definite.</summary>
    private static bool IsStable(AssembledHalfCar car, double[] state, double roadLeft, double roadRight, double[] stiffness)
    {
        LinearHalfCar.WriteStiffness(car, state.AsSpan(0, Coordinates), roadLeft, roadRight, stiffness);

        // It is where every pivot of its elimination is positive.
        for (var pivot = 0; pivot < Coordinates; pivot++)
        {
            var diagonal = stiffness[(pivot * Coordinates) + pivot];
            if (!(diagonal > 0))
                return false;
            for (var row = pivot + 1; row < Coordinates; row++)
            {
                for (var column = pivot + 1; column < Coordinates; column++)
                    stiffness[(column * Coordinates) + row] -= stiffness[(pivot * Coordinates) + row] * stiffness[(column * Coordinates) + pivot] / diagonal;
            }
        }

        return true;
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
