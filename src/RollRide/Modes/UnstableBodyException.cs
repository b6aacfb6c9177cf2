using MathNet.Numerics.LinearAlgebra;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Modes;

/// <summary>The body does not swing about rest: gravity's moment on the leaning body is as strong as the roll stiffness.</summary>
public sealed class UnstableBodyException : Exception
{
    /// <summary>Makes the exception with a message that gives both in N·m per degree of roll.</summary>
    /// <param name="linear">The linearised half-car.</param>
    public UnstableBodyException(LinearHalfCar linear)
        : this((linear ?? throw new ArgumentNullException(nameof(linear))).GravityMoment, RollStiffnessOf(linear))
    {
    }

    /// <summary>Makes the exception for a vehicle with two axles, from what each has by itself.</summary>
    /// <param name="one">One axle by itself.</param>
    /// <param name="other">The other axle by itself.</param>
    public UnstableBodyException(LinearHalfCar one, LinearHalfCar other)
        : this(
            (one ?? throw new ArgumentNullException(nameof(one))).GravityMoment + (other ?? throw new ArgumentNullException(nameof(other))).GravityMoment,
            RollStiffnessOf(one) + RollStiffnessOf(other))
    {
    }

    private UnstableBodyException(double gravityMoment, double rollStiffness)
        : base(MessageFor(gravityMoment, rollStiffness)) =>
        (GravityMoment, RollStiffness) = (gravityMoment, rollStiffness);

    /// <summary>Moment of the body's weight over its roll angle <c>ms g h</c>, N·m/rad.</summary>
    public double GravityMoment { get; }

    /// <summary>Roll stiffness of springs, bar and tyres together, as the body feels it, N·m/rad.</summary>
    public double RollStiffness { get; }

    /// <summary>
    /// The moment that holds the body per angle of roll while everything else is free to follow (springs and bar in series with
    /// the tyres), gravity added back.
    /// </summary>
    private static double RollStiffnessOf(LinearHalfCar linear)
    {
        int[] others = [HalfCarState.BodyHeave, HalfCarState.UnsprungHeave, HalfCarState.UnsprungRoll];
        var k = linear.Stiffness;
        var coupling = Vector<double>.Build.Dense(others.Length, i => k[others[i], HalfCarState.BodyRoll]);
        var rest = Matrix<double>.Build.Dense(others.Length, others.Length, (i, j) => k[others[i], others[j]]);
        return k[HalfCarState.BodyRoll, HalfCarState.BodyRoll] - coupling.DotProduct(rest.Solve(coupling)) + linear.GravityMoment;
    }

    private static string MessageFor(double gravityMoment, double rollStiffness)
    {
        return Math.Abs(rollStiffness) < 1e-6 * Math.Max(1, gravityMoment)
            ? "The vehicle has no roll stiffness: neither springs nor anti-roll bar resist roll, so the body has no natural roll mode. Give the springs a roll ratio or add a bar."
            : FormattableString.Invariant(
                $"The body is unstable in roll: its weight above the roll centre takes {Unit.NewtonMetrePerDegree.Of(gravityMoment):F0} N·m per degree (ms g h), and springs, bar and tyres together give back only {Unit.NewtonMetrePerDegree.Of(rollStiffness):F0} N·m per degree. Natural modes exist only about a stable position.");
    }
}
