using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

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
        var (zu, phiU) = (position[HalfCarState.UnsprungHeave], position[HalfCarState.UnsprungRoll]);
        var (q, r) = (zu - position[HalfCarState.BodyHeave], phiU - position[HalfCarState.BodyRoll]);
        Vector<double>[] damperArms = [Arms(car.Layout.Fitting.At(q, r, Side.Left)), Arms(car.Layout.Fitting.At(q, r, Side.Right))];
        var damping = DenseMatrix.Create(N, N, 0);
        var roadStiffness = DenseMatrix.Create(N, 2, 0);
        var roadDamping = DenseMatrix.Create(N, 2, 0);
        foreach (var y in car.ContactPositions)
        {
            if (!IsOnTheRoad(vehicle, y, zu, phiU, roadLeft, roadRight))
                continue;
            ReadOnlySpan<double> arm = [0, 0, 1, y];
            AddOuter(damping.Values, vehicle.Tyre.Damping, arm);
            var column = y > 0 ? 0 : 1;
            for (var i = 0; i < N; i++)
            {
                roadStiffness[i, column] += vehicle.Tyre.Stiffness * arm[i];
                roadDamping[i, column] += vehicle.Tyre.Damping * arm[i];
            }
        }

        var stiffness = DenseMatrix.Create(N, N, 0);
        WriteStiffness(car, position, roadLeft, roadRight, stiffness.Values);
        var mass = DenseMatrix.OfDiagonalArray(
            [vehicle.Body.Mass, vehicle.BodyRollInertia, vehicle.Unsprung.Mass, vehicle.UnsprungRollInertia]);
        return new LinearHalfCar(mass, stiffness, damping, damperArms, car.Layout.Damper.TopMountStiffness ?? 0)
        {
            GravityMoment = GravityMomentAt(vehicle, position),
            LateralInput = Vector<double>.Build.Dense([0, vehicle.Body.Mass * vehicle.RollArm, 0, vehicle.UnsprungLateralMoment]),
            RoadStiffness = roadStiffness,
            RoadDamping = roadDamping,
        };
    }

    /// <summary>Writes the stiffness matrix <c>K</c> alone at an operating point, as <see cref="At(AssembledHalfCar, ReadOnlySpan{double}, double, double)"/> has it.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="position">Displacements <c>(zs, φs, zu, φu)</c> from ride height on a road of height 0, m and rad.</param>
    /// <param name="roadLeft">Height of the road under the left wheel, m.</param>
    /// <param name="roadRight">Height of the road under the right wheel, m.</param>
    /// <param name="stiffness">Receives it, column after column: 16 numbers.</param>
    internal static void WriteStiffness(AssembledHalfCar car, ReadOnlySpan<double> position, double roadLeft, double roadRight, double[] stiffness)
    {
        var vehicle = car.Vehicle;
        var (zu, phiU) = (position[HalfCarState.UnsprungHeave], position[HalfCarState.UnsprungRoll]);
        var (q, r) = (zu - position[HalfCarState.BodyHeave], phiU - position[HalfCarState.BodyRoll]);

        // What stands between body and axle, over (q, r): k j jᵀ with j = (heave ratio, roll arm), and its force times the fitting's curvature.
        var (heave, cross, roll) = (0.0, 0.0, vehicle.AntiRollBar);
        foreach (var side in (ReadOnlySpan<Side>)[Side.Left, Side.Right])
        {
            var spring = vehicle.Spring.Fitting.At(q, r, side);
            Add(vehicle.Spring.Fitting, side, spring, car.SpringForce.Value(spring.Compression), car.SpringForce.Slope(spring.Compression));
            Add(car.Layout.Fitting, side, default, car.Layout.Damper.GasForce, 0);
            if (vehicle.BumpStop is { } bump)
            {
                var motion = bump.Fitting.At(q, r, side);
                var penetration = motion.Compression - bump.Clearance;
                Add(bump.Fitting, side, motion, bump.Force(penetration), bump.Slope(penetration));
            }

            if (vehicle.ReboundStop is { } rebound)
            {
                var motion = rebound.Fitting.At(q, r, side);
                var penetration = -motion.Compression - rebound.Clearance;
                Add(rebound.Fitting, side, motion, -rebound.Force(penetration), rebound.Slope(penetration));
            }
        }

        // q = zu − zs and r = φu − φs: the same block for body and axle, and its opposite between them.
        ReadOnlySpan<double> block = [heave, cross, cross, roll];
        for (var column = 0; column < N; column++)
        {
            for (var row = 0; row < N; row++)
                stiffness[(column * N) + row] = (row < 2 == column < 2 ? 1 : -1) * block[(2 * (column % 2)) + (row % 2)];
        }

        stiffness[(HalfCarState.BodyRoll * N) + HalfCarState.BodyRoll] -= GravityMomentAt(vehicle, position);
        foreach (var y in car.ContactPositions)
        {
            if (IsOnTheRoad(vehicle, y, zu, phiU, roadLeft, roadRight))
                AddOuter(stiffness, vehicle.Tyre.Stiffness, [0, 0, 1, y]);
        }

        void Add(IFitting fitting, Side side, in ElementMotion motion, double force, double slope)
        {
            var curvature = force == 0 ? default : fitting.Curvature(q, r, side);
            heave += (slope * motion.HeaveRatio * motion.HeaveRatio) + (force * curvature.HeaveHeave);
            cross += (slope * motion.HeaveRatio * motion.RollArm) + (force * curvature.HeaveRoll);
            roll += (slope * motion.RollArm * motion.RollArm) + (force * curvature.RollRoll);
        }
    }

    /// <summary>The damping matrix <c>C</c> with both dampers of one coefficient, top mounts taken as rigid.</summary>
    /// <param name="coefficient">Coefficient of each damper, N·s/m.</param>
    public Matrix<double> Damping(double coefficient)
    {
        var damping = OtherDamping.Clone();
        foreach (var arm in DamperArms)
            AddOuter(damping.AsColumnMajorArray(), coefficient, arm.AsArray());
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
            AddOuter(stiffness.AsColumnMajorArray(), MountStiffness, arm.AsArray());
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

    /// <summary>Whether a tyre carries load: one in the air pushes no more, however the road moves.</summary>
    private static bool IsOnTheRoad(HalfCar vehicle, double y, double zu, double phiU, double roadLeft, double roadRight) =>
        vehicle.StaticTyreLoad + (vehicle.Tyre.Stiffness * ((y > 0 ? roadLeft : roadRight) - zu - (y * phiU))) > 0;

    private static double GravityMomentAt(HalfCar vehicle, ReadOnlySpan<double> position) =>
        vehicle.Body.Mass * vehicle.Gravity * vehicle.RollArm * Math.Cos(position[HalfCarState.BodyRoll]);

    private static Vector<double> Arms(ElementMotion motion) =>
        Vector<double>.Build.Dense([-motion.HeaveRatio, -motion.RollArm, motion.HeaveRatio, motion.RollArm]);

    private static void AddOuter(double[] matrix, double factor, ReadOnlySpan<double> arm)
    {
        for (var column = 0; column < N; column++)
        {
            for (var row = 0; row < N; row++)
                matrix[(column * N) + row] += factor * arm[row] * arm[column];
        }
    }
}
