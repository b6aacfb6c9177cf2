using System.Diagnostics.CodeAnalysis;
using MathNet.Numerics.LinearAlgebra;
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
        var derivative = new double[equations.Dimension];
        var vehicle = car.Vehicle;
        var masses = Vector<double>.Build.Dense([vehicle.Body.Mass, vehicle.BodyRollInertia, vehicle.Unsprung.Mass, vehicle.UnsprungRollInertia]);
        var residual = Residual(equations, state, derivative);
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            if (residual.AbsoluteMaximum() < Tolerance)
            {
                equilibrium = new StaticEquilibrium(lateralAcceleration, state[0], state[1], state[2], state[3], iteration);
                return IsStable(car, state, roadLeft, roadRight);
            }

            var step = LinearHalfCar.StiffnessAt(car, state.AsSpan(0, 4), roadLeft, roadRight).Solve(masses.PointwiseMultiply(residual));
            if (!Array.TrueForAll(step.AsArray(), double.IsFinite))
                return false;
            var trial = new double[state.Length];
            Vector<double>? trialResidual;
            var share = 1.0;
            do
            {
                for (var i = 0; i < 4; i++)
                    trial[i] = state[i] + (share * step[i]);
                trialResidual = ResidualWithinReach(car, equations, trial, derivative);
                share /= 2;
            }
            while (!(trialResidual?.L2Norm() < residual.L2Norm()) && share > 1e-6);
            if (trialResidual is null || !Array.TrueForAll(trialResidual.AsArray(), double.IsFinite))
                return false;
            state = trial;
            residual = trialResidual;
        }

        return false;
    }

    /// <summary>The residual at a trial position; null where a linkage cannot follow.</summary>
    private static Vector<double>? ResidualWithinReach(AssembledHalfCar car, HalfCarEquations equations, double[] trial, double[] derivative)
    {
        try
        {
            FollowStrokes(car, trial);
            return Residual(equations, trial, derivative);
        }
        catch (Mounting.UnreachableTravelException)
        {
            return null;
        }
    }

    private static Vector<double> Residual(HalfCarEquations equations, double[] state, double[] derivative)
    {
        equations.Derivatives(0.5, state, derivative);
        return Vector<double>.Build.Dense([.. derivative.AsSpan(HalfCarState.Rates, 4)]);
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
    private static bool IsStable(AssembledHalfCar car, double[] state, double roadLeft, double roadRight)
    {
        var stiffness = LinearHalfCar.StiffnessAt(car, state.AsSpan(0, 4), roadLeft, roadRight);

        // It is where every pivot of its elimination is positive.
        for (var pivot = 0; pivot < stiffness.RowCount; pivot++)
        {
            if (!(stiffness[pivot, pivot] > 0))
                return false;
            for (var row = pivot + 1; row < stiffness.RowCount; row++)
            {
                for (var column = pivot + 1; column < stiffness.RowCount; column++)
                    stiffness[row, column] -= stiffness[row, pivot] * stiffness[pivot, column] / stiffness[pivot, pivot];
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
