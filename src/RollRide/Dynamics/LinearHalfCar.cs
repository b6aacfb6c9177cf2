using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>
/// The half-car linearised at an operating point: <c>M ẍ + C ẋ + K x = inputs</c> with
/// <c>x = (zs, φs, zu, φu)</c> counted from that point. Dampers enter through one coefficient a side.
/// </summary>
/// <remarks>
/// An element of stiffness <c>k</c> whose compression has the gradient <c>j = ∂X/∂x</c> adds <c>k j jᵀ</c>, and the force
/// <c>F0</c> it carries adds <c>F0 ∂²X/∂x²</c> where its ratio changes with travel.
/// </remarks>
public sealed class LinearHalfCar
{
    private const int N = HalfCarState.Rates;

    internal LinearHalfCar(Matrix<double> mass, Matrix<double> stiffness, Matrix<double> otherDamping, Vector<double>[] damperArms, double mountStiffness)
    {
        Mass = mass;
        Stiffness = stiffness;
        OtherDamping = otherDamping;
        DamperArms = damperArms;
        MountStiffness = mountStiffness;
    }

    /// <summary>Mass matrix <c>M</c>: kg, kg·m².</summary>
    public Matrix<double> Mass { get; }

    /// <summary>Stiffness matrix <c>K</c> without the top mounts: N/m, N, N·m/rad.</summary>
    public Matrix<double> Stiffness { get; }

    /// <summary>The part of the damping matrix that does not come from the dampers: the tyres.</summary>
    public Matrix<double> OtherDamping { get; }

    /// <summary>Gradients <c>j</c> of the left and right damper's compression.</summary>
    internal Vector<double>[] DamperArms { get; }

    /// <summary>Stiffness of each damper's top mount, N/m; 0 for none.</summary>
    internal double MountStiffness { get; }

    /// <summary>
    /// Moment of the body's weight over its roll angle <c>ms g h</c>, N·m/rad: what the stiffness has already lost to gravity.
    /// </summary>
    public double GravityMoment { get; private init; }

    /// <summary>Lateral acceleration's generalised force over <c>ay</c>, kg and kg·m.</summary>
    public required Vector<double> LateralInput { get; init; }

    /// <summary>The tyres' forces over the left (column 0) and right (column 1) road elevation, N/m.</summary>
    public required Matrix<double> RoadStiffness { get; init; }

    /// <summary>The tyres' forces over the left and right road velocity, N·s/m.</summary>
    public required Matrix<double> RoadDamping { get; init; }

    /// <summary>Linearises at ride height.</summary>
    /// <param name="car">Vehicle and layout.</param>
    public static LinearHalfCar AtRest(AssembledHalfCar car) => At(car, new double[N]);

    /// <summary>Linearises at an operating point, the road being flat and nothing moving.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="position">Displacements <c>(zs, φs, zu, φu)</c> from ride height, m and rad.</param>
    public static LinearHalfCar At(AssembledHalfCar car, ReadOnlySpan<double> position) => At(car, position, 0, 0);

    /// <summary>Linearises at an operating point on a road that is level under each wheel, nothing moving.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="position">Displacements <c>(zs, φs, zu, φu)</c> from ride height on a road of height 0, m and rad.</param>
    /// <param name="roadLeft">Height of the road under the left wheel, m.</param>
    /// <param name="roadRight">Height of the road under the right wheel, m.</param>
    public static LinearHalfCar At(AssembledHalfCar car, ReadOnlySpan<double> position, double roadLeft, double roadRight)
    {
        ArgumentNullException.ThrowIfNull(car);
        var vehicle = car.Vehicle;
        var zu = position[HalfCarState.UnsprungHeave];
        var phiU = position[HalfCarState.UnsprungRoll];
        var q = zu - position[HalfCarState.BodyHeave];
        var r = phiU - position[HalfCarState.BodyRoll];

        var stiffness = DenseMatrix.Create(N, N, 0);
        var damperArms = new Vector<double>[2];
        foreach (var side in (ReadOnlySpan<Side>)[Side.Left, Side.Right])
        {
            void AddElement(IFitting fitting, Func<double, (double Force, double Slope)> element)
            {
                var motion = fitting.At(q, r, side);
                var (force, slope) = element(motion.Compression);
                AddOuter(stiffness, slope, Arms(motion));
                AddPreload(stiffness, force, fitting.Curvature(q, r, side));
            }

            AddElement(vehicle.Spring.Fitting, x => (car.SpringForce.Value(x), car.SpringForce.Slope(x)));
            AddElement(car.Layout.Fitting, _ => (car.Layout.Damper.GasForce, 0));
            if (vehicle.BumpStop is { } bump)
                AddElement(bump.Fitting, x => (bump.Force(x - bump.Clearance), bump.Slope(x - bump.Clearance)));
            if (vehicle.ReboundStop is { } rebound)
                AddElement(rebound.Fitting, x => (-rebound.Force(-x - rebound.Clearance), rebound.Slope(-x - rebound.Clearance)));
            damperArms[side == Side.Left ? 0 : 1] = Arms(car.Layout.Fitting.At(q, r, side));
        }

        AddOuter(stiffness, vehicle.AntiRollBar, Vector<double>.Build.Dense([0, -1, 0, 1]));
        var gravityMoment = vehicle.Body.Mass * vehicle.Gravity * vehicle.RollArm * Math.Cos(position[HalfCarState.BodyRoll]);
        stiffness[HalfCarState.BodyRoll, HalfCarState.BodyRoll] -= gravityMoment;

        var damping = DenseMatrix.Create(N, N, 0);
        var roadStiffness = DenseMatrix.Create(N, 2, 0);
        var roadDamping = DenseMatrix.Create(N, 2, 0);
        foreach (var y in vehicle.ContactPositions)
        {
            // A tyre in the air pushes no more, however the road moves.
            var road = y > 0 ? roadLeft : roadRight;
            if (vehicle.StaticTyreLoad + (vehicle.Tyre.Stiffness * (road - zu - (y * phiU))) <= 0)
                continue;
            var arm = Vector<double>.Build.Dense([0, 0, 1, y]);
            AddOuter(stiffness, vehicle.Tyre.Stiffness, arm);
            AddOuter(damping, vehicle.Tyre.Damping, arm);
            var column = y > 0 ? 0 : 1;
            for (var i = 0; i < N; i++)
            {
                roadStiffness[i, column] += vehicle.Tyre.Stiffness * arm[i];
                roadDamping[i, column] += vehicle.Tyre.Damping * arm[i];
            }
        }

        var mass = DenseMatrix.OfDiagonalArray(
            [vehicle.Body.Mass, vehicle.BodyRollInertia, vehicle.Unsprung.Mass, vehicle.UnsprungRollInertia]);
        return new LinearHalfCar(mass, stiffness, damping, damperArms, car.Layout.Damper.TopMountStiffness ?? 0)
        {
            GravityMoment = gravityMoment,
            LateralInput = Vector<double>.Build.Dense([0, vehicle.Body.Mass * vehicle.RollArm, 0, vehicle.UnsprungLateralMoment]),
            RoadStiffness = roadStiffness,
            RoadDamping = roadDamping,
        };
    }

    /// <summary>The damping matrix <c>C</c> with both dampers of one coefficient, top mounts taken as rigid.</summary>
    /// <param name="coefficient">Coefficient of each damper, N·s/m.</param>
    public Matrix<double> Damping(double coefficient)
    {
        var damping = OtherDamping.Clone();
        foreach (var arm in DamperArms)
            AddOuter(damping, coefficient, arm);
        return damping;
    }

    /// <summary>
    /// The state matrix <c>A</c> of <c>ẏ = A y</c>, <c>y = (x, ẋ)</c>, followed by the two damper strokes where the dampers
    /// sit in top mounts.
    /// </summary>
    /// <param name="coefficient">Coefficient of each damper, N·s/m; greater than 0 with top mounts, else 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The coefficient is out of range.</exception>
    public Matrix<double> StateMatrix(double coefficient)
    {
        var mounted = MountStiffness > 0;
        _ = mounted ? Require.Positive(coefficient, "N·s/m") : Require.NotNegative(coefficient, "N·s/m");
        var a = DenseMatrix.Create(mounted ? (2 * N) + 2 : 2 * N, mounted ? (2 * N) + 2 : 2 * N, 0);
        var stiffness = mounted ? Stiffness.Clone() : Stiffness;
        var damping = mounted ? OtherDamping : Damping(coefficient);
        for (var side = 0; mounted && side < 2; side++)
        {
            // F = km (j·x − s) on the body, ṡ = F/c in the damper.
            var arm = DamperArms[side];
            AddOuter(stiffness, MountStiffness, arm);
            var stroke = (2 * N) + side;
            for (var i = 0; i < N; i++)
            {
                a[N + i, stroke] = MountStiffness * arm[i] / Mass[i, i];
                a[stroke, i] = MountStiffness * arm[i] / coefficient;
            }

            a[stroke, stroke] = -MountStiffness / coefficient;
        }

        for (var i = 0; i < N; i++)
        {
            a[i, N + i] = 1;
            for (var j = 0; j < N; j++)
            {
                a[N + i, j] = -stiffness[i, j] / Mass[i, i];
                a[N + i, N + j] = -damping[i, j] / Mass[i, i];
            }
        }

        return a;
    }

    /// <summary>The same half-car with the dampers in rigid mounts.</summary>
    internal LinearHalfCar WithRigidMounts() => new(Mass, Stiffness, OtherDamping, DamperArms, 0)
    {
        GravityMoment = GravityMoment,
        LateralInput = LateralInput,
        RoadStiffness = RoadStiffness,
        RoadDamping = RoadDamping,
    };

    private static Vector<double> Arms(ElementMotion motion) =>
        Vector<double>.Build.Dense([-motion.HeaveRatio, -motion.RollArm, motion.HeaveRatio, motion.RollArm]);

    private static void AddOuter(Matrix<double> matrix, double factor, Vector<double> arm)
    {
        for (var i = 0; i < N; i++)
        {
            for (var j = 0; j < N; j++)
                matrix[i, j] += factor * arm[i] * arm[j];
        }
    }

    /// <summary>Adds <c>F0 ∂²X/∂x²</c>, the second derivatives in (q, r) spread over body (−) and axle (+).</summary>
    private static void AddPreload(Matrix<double> stiffness, double force, ElementCurvature curvature)
    {
        ReadOnlySpan<double> sign = [-1, -1, 1, 1];
        for (var i = 0; i < N; i++)
        {
            for (var j = 0; j < N; j++)
            {
                var second = ((i & 1) + (j & 1)) switch
                {
                    0 => curvature.HeaveHeave,
                    1 => curvature.HeaveRoll,
                    _ => curvature.RollRoll,
                };
                stiffness[i, j] += force * sign[i] * sign[j] * second;
            }
        }
    }
}
