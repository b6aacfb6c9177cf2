using MathNet.Numerics.LinearAlgebra;
using RollRide.Dynamics;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

public sealed class LinearHalfCarTests
{
    private const double Coefficient = 2500;

    // At rest; leaning in a corner; with bump and rebound stops touching; with the left wheels in the air. Where a knee of a spring
    // table or a stop would lie within the difference's reach, the difference itself would be wrong: these places are off them.
    public static readonly TheoryData<string, double, double, double, double> Places = [];

    static LinearHalfCarTests()
    {
        (double, double, double, double)[] positions =
            [(0.001, 0.0003, 0.0005, 0.0001), (-0.004, 0.05, -0.006, 0.006), (-0.08, 0.1, 0.001, 0.002), (0.06, 0.02, 0.05, 0.03)];
        foreach (var (name, _) in AllFittings())
        {
            foreach (var (zs, roll, zu, axleRoll) in positions)
                Places.Add(name, zs, roll, zu, axleRoll);
        }
    }

    [Theory]
    [MemberData(nameof(Places))]
    public void StateMatrix_AnyFittingAndPlace_IsTheJacobianOfTheEquationsOfMotion(string name, double zs, double roll, double zu, double axleRoll)
    {
        // Damping through one coefficient means a linear damper; gas and top mount stay.
        var given = Find(name);
        var damper = given.Layout.Damper;
        var linear = LinearDamper(Coefficient) with { GasForce = damper.GasForce, Gas = damper.Gas, TopMountStiffness = damper.TopMountStiffness };
        var car = new AssembledHalfCar(given.Vehicle, given.Layout with { Damper = linear });

        double[] position = [zs, roll, zu, axleRoll];
        var state = new StaticEquilibrium(0, zs, roll, zu, axleRoll, 0).ToState(car);
        var analytic = LinearHalfCar.At(car, position).StateMatrix(Coefficient);
        var numeric = Jacobian(Equations(car), state);

        // A central difference of 1e-6 m: rounding 1e-16·1e3 m/s² over 1e-6 and curvature 1e5·1e-12, against entries of 1 to 1e4.
        // The friction of springs, whose states come last, is left out.
        for (var i = 0; i < analytic.RowCount; i++)
        {
            var scale = analytic.Row(i).AbsoluteMaximum();
            for (var j = 0; j < analytic.ColumnCount; j++)
                Assert.Equal(analytic[i, j] / scale, numeric[i, j] / scale, 2e-7);
        }
    }

    [Fact]
    public void Inputs_OfRoadAndCorner_AreTheirForces()
    {
        var car = Find("duals");
        var linear = LinearHalfCar.AtRest(car);
        var (still, turning) = (Rates(Equations(car)), Rates(Equations(car, 1)));
        for (var i = 0; i < 4; i++)
            Assert.Equal(linear.LateralInput[i] / linear.Mass[i, i], turning[i] - still[i], 1e-12);

        // Raising both roads is lowering the axle, as the tyres see it.
        var tyre = car.Vehicle.Tyre;
        Assert.Equal(4 * tyre.Stiffness, linear.RoadStiffness.Row(HalfCarState.UnsprungHeave).Sum(), 1e-9);
        Assert.Equal(2 * tyre.Stiffness * HalfTrack, linear.RoadStiffness[HalfCarState.UnsprungRoll, 0], 1e-9);
        Assert.Equal(-2 * tyre.Damping * HalfTrack, linear.RoadDamping[HalfCarState.UnsprungRoll, 1], 1e-9);
    }

    [Fact]
    public void DualTyres_AddTheirSpacingToTheRollStiffness()
    {
        // Σ kt y² = 2 kt [(T + d/2)² + (T − d/2)²] = 4 kt (T² + d²/4); in heave four tyres of kt are two of 2 kt. Derived.
        const double Stiffness = 110e3, Spacing = 0.3;
        var duals = LinearHalfCar.AtRest(new AssembledHalfCar(LiveAxle with { Tyre = new Tyre { Stiffness = Stiffness, DualSpacing = Spacing } }, LinearLayout()));
        var singles = LinearHalfCar.AtRest(new AssembledHalfCar(LiveAxle with { Tyre = new Tyre { Stiffness = 2 * Stiffness } }, LinearLayout()));
        Assert.Equal(singles.Stiffness[2, 2], duals.Stiffness[2, 2], 1e-9);
        Assert.Equal(Stiffness * Spacing * Spacing, duals.Stiffness[3, 3] - singles.Stiffness[3, 3], 1e-9);
    }

    [Fact]
    public void Damping_OfOneCoefficient_IsTheDampersOuterProducts()
    {
        // Two vertical dampers at lateral offset y: 2c in heave, 2c y² in roll.
        var damping = LinearHalfCar.AtRest(new AssembledHalfCar(LiveAxle, LinearLayout())).Damping(Coefficient);
        Assert.Equal(2 * Coefficient, damping[0, 0], 1e-9);
        Assert.Equal(-2 * Coefficient, damping[0, 2], 1e-9);
        Assert.Equal(2 * Coefficient * 0.45 * 0.45, damping[1, 1], 1e-9);
        Assert.Equal(0, damping[0, 1], 1e-12);
    }

    [Theory]
    [InlineData(null, -1)]
    [InlineData(4e5, 0)]
    [InlineData(null, double.NaN)]
    public void StateMatrix_CoefficientOutOfRange_IsRefused(double? mount, double coefficient)
    {
        var damper = LinearDamper(Coefficient) with { TopMountStiffness = mount };
        var linear = LinearHalfCar.AtRest(new AssembledHalfCar(LiveAxle, Layout(Ratio(1, 0.6), damper)));
        Assert.Throws<ArgumentOutOfRangeException>(() => linear.StateMatrix(coefficient));
    }

    private static double[] Rates(HalfCarEquations equations)
    {
        var derivative = new double[equations.Dimension];
        equations.Derivatives(0.5, new double[equations.Dimension], derivative);
        return derivative[4..8];
    }

    private static Matrix<double> Jacobian(HalfCarEquations equations, double[] state)
    {
        const double Step = 1e-6;
        var jacobian = Matrix<double>.Build.Dense(state.Length, state.Length);
        var (high, low) = (new double[state.Length], new double[state.Length]);
        for (var j = 0; j < state.Length; j++)
        {
            var moved = state.ToArray();
            moved[j] = state[j] + Step;
            equations.Derivatives(0.5, moved, high);
            moved[j] = state[j] - Step;
            equations.Derivatives(0.5, moved, low);
            for (var i = 0; i < state.Length; i++)
                jacobian[i, j] = (high[i] - low[i]) / (2 * Step);
        }

        return jacobian;
    }
}
