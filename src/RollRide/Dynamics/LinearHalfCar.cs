using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>
/// The half-car linearised at an operating point, of a vehicle with two axles the one that the layouts are for by itself: <c>M ẍ + C ẋ + K x = inputs</c> with
/// <c>x = (zs, φs, zu, φu)</c> counted from that point. Dampers enter through one coefficient, of which unlike ones have unlike shares.
/// </summary>
/// <remarks>
/// The equations of motion are differentiated as they stand. So an element of stiffness <c>k</c> whose compression has the gradient
/// <c>j = ∂X/∂x</c> adds <c>k j jᵀ</c>, and the force <c>F0</c> it carries adds <c>F0 ∂²X/∂x²</c> where its ratio changes with travel.
/// </remarks>
public sealed class LinearHalfCar : ILinearMotion
{
    private const int N = HalfCarState.Rates;

    internal LinearHalfCar(Matrix<double> mass, Matrix<double> stiffness, Matrix<double> otherDamping, Vector<double>[] damperArms, double mountStiffness)
        : this(mass, stiffness, otherDamping, damperArms, [mountStiffness, mountStiffness])
    {
    }

    private LinearHalfCar(Matrix<double> mass, Matrix<double> stiffness, Matrix<double> otherDamping, Vector<double>[] damperArms, double[] mountStiffness)
    {
        Mass = mass;
        Stiffness = stiffness;
        OtherDamping = otherDamping;
        DamperArms = damperArms;
        MountStiffness = mountStiffness;
    }

    /// <inheritdoc/>
    int ILinearMotion.Coordinates => N;

    /// <summary>Mass matrix <c>M</c>: kg, kg·m².</summary>
    public Matrix<double> Mass { get; }

    /// <summary>Stiffness matrix <c>K</c> without the top mounts: N/m, N, N·m/rad.</summary>
    public Matrix<double> Stiffness { get; }

    /// <summary>The part of the damping matrix that does not come from the dampers: the tyres.</summary>
    public Matrix<double> OtherDamping { get; }

    /// <summary>Gradients <c>j</c> of the left and right damper's compression.</summary>
    internal Vector<double>[] DamperArms { get; }

    /// <summary>Stiffness of the left and the right damper's top mount, N/m; 0 for none.</summary>
    internal double[] MountStiffness { get; }

    /// <summary>Whether the dampers sit in top mounts.</summary>
    internal bool HasTopMounts => MountStiffness[0] > 0;

    /// <summary>What the left and the right damper have of the coefficient that is given for both: 1 and 1 where they are the same.</summary>
    internal double[] SideShares { get; private init; } = [1, 1];

    /// <summary>Lateral position of the body's centre of gravity seen from the roll centre <c>e</c>, m: it couples heave and roll by inertia.</summary>
    private double CgArm { get; init; }

    /// <summary>
    /// Moment of the body's weight per roll angle <c>ms g h</c>, N·m/rad; the stiffness matrix has it subtracted already.
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
        car = car.Alone();
        var vehicle = car.Vehicle;
        var slopes = new HalfCarSlopes(car.WithoutDamping());
        slopes.Hold(roadLeft, roadRight, 0);
        var mass = DenseMatrix.OfDiagonalArray(slopes.Masses.ToArray());
        mass[HalfCarState.BodyHeave, HalfCarState.BodyRoll] = mass[HalfCarState.BodyRoll, HalfCarState.BodyHeave] = vehicle.Body.Mass * slopes.CgArm;
        var (stiffness, damping) = (DenseMatrix.Create(N, N, 0), DenseMatrix.Create(N, N, 0));
        var (roadStiffness, roadDamping) = (DenseMatrix.Create(N, 2, 0), DenseMatrix.Create(N, 2, 0));
        var lateral = DenseVector.Create(N, 0);
        Vector<double>[] damperArms = [DenseVector.Create(N, 0), DenseVector.Create(N, 0)];
        for (var i = 0; i < N; i++)
        {
            slopes.ByState(position, i, stiffness.Values.AsSpan(N * i, N));
            (damperArms[0][i], damperArms[1][i]) = slopes.DamperArms;
            slopes.ByState(position, HalfCarState.Rates + i, damping.Values.AsSpan(N * i, N));
        }

        stiffness.Negate(stiffness);
        damping.Negate(damping);
        slopes.ByInput(position, (ref HalfCarEquations<Dual>.Inputs inputs) => ref inputs.RoadLeft, roadStiffness.Values.AsSpan(0, N));
        slopes.ByInput(position, (ref HalfCarEquations<Dual>.Inputs inputs) => ref inputs.RoadRight, roadStiffness.Values.AsSpan(N, N));
        slopes.ByInput(position, (ref HalfCarEquations<Dual>.Inputs inputs) => ref inputs.RoadLeftRate, roadDamping.Values.AsSpan(0, N));
        slopes.ByInput(position, (ref HalfCarEquations<Dual>.Inputs inputs) => ref inputs.RoadRightRate, roadDamping.Values.AsSpan(N, N));
        slopes.ByInput(position, (ref HalfCarEquations<Dual>.Inputs inputs) => ref inputs.LateralAcceleration, lateral.Values);
        var roll = position[HalfCarState.BodyRoll] + car.RestRoll;
        return new LinearHalfCar(mass, stiffness, damping, damperArms, [car.Layout.Damper.TopMountStiffness ?? 0, car.Layout.On(Mounting.Side.Right).Damper.TopMountStiffness ?? 0])
        {
            CgArm = slopes.CgArm,
            GravityMoment = vehicle.Body.Mass * vehicle.Gravity * ((vehicle.RollArm * Math.Cos(roll)) + (vehicle.Body.CgOffset * Math.Sin(roll))),
            LateralInput = lateral,
            RoadStiffness = roadStiffness,
            RoadDamping = roadDamping,
        };
    }

    /// <summary>
    /// Period of the body's roll without damping and without the axle's inertia, s: <c>2π √(I/K)</c> with the axle's roll condensed out of the stiffness,
    /// <c>K = Kss − Ksu²/Kuu</c>. Null where the body does not stand.
    /// </summary>
    public double? BodyRollPeriod => PeriodOf(Mass[HalfCarState.BodyRoll, HalfCarState.BodyRoll], Stiffness);

    /// <summary><see cref="BodyRollPeriod"/> at ride height, for which nothing but the stiffness is worked out.</summary>
    /// <param name="car">Vehicle and layout.</param>
    internal static double? BodyRollPeriodAtRest(AssembledHalfCar car)
    {
        var slopes = new HalfCarSlopes(car.Alone().WithoutDamping());
        var stiffness = DenseMatrix.Create(N, N, 0);
        slopes.Stiffness(new double[N], stiffness.Values);
        return PeriodOf(slopes.Masses[HalfCarState.BodyRoll], stiffness);
    }

    private static double? PeriodOf(double inertia, Matrix<double> k)
    {
        const int body = HalfCarState.BodyRoll, axle = HalfCarState.UnsprungRoll;
        var stiffness = k[body, body] - (k[body, axle] * k[axle, body] / k[axle, axle]);
        return stiffness > 0 ? 2 * Math.PI * Math.Sqrt(inertia / stiffness) : null;
    }

    /// <summary>The damping matrix <c>C</c> with both dampers of one coefficient, top mounts taken as rigid.</summary>
    /// <param name="coefficient">Coefficient of each damper, of unlike ones the mean, N·s/m.</param>
    public Matrix<double> Damping(double coefficient)
    {
        var damping = OtherDamping.Clone();
        for (var side = 0; side < DamperArms.Length; side++)
            AddOuter(damping.AsColumnMajorArray(), coefficient * SideShares[side], DamperArms[side].AsArray());
        return damping;
    }

    /// <summary>The same half-car with dampers that share the coefficient unequally.</summary>
    /// <param name="shares">What each has of the mean.</param>
    public LinearHalfCar WithShares((double Left, double Right) shares) => shares == (SideShares[0], SideShares[1])
        ? this
        : new(Mass, Stiffness, OtherDamping, DamperArms, MountStiffness)
        {
            CgArm = CgArm,
            SideShares = [shares.Left, shares.Right],
            GravityMoment = GravityMoment,
            LateralInput = LateralInput,
            RoadStiffness = RoadStiffness,
            RoadDamping = RoadDamping,
        };

    /// <summary>
    /// Displacements, each times the root of its mass, so that the squares are kinetic energy: of the body's centre of gravity, of its roll about that,
    /// and of the axle.
    /// </summary>
    void ILinearMotion.Weigh(Span<System.Numerics.Complex> displacements)
    {
        if (CgArm != 0)
            displacements[HalfCarState.BodyHeave] += CgArm * displacements[HalfCarState.BodyRoll];
        for (var i = 0; i < displacements.Length; i++)
            displacements[i] *= RootOfMass(i);
    }

    /// <summary>The displacements of which <see cref="ILinearMotion.Weigh"/> makes these.</summary>
    void ILinearMotion.Unweigh(Span<System.Numerics.Complex> weighted)
    {
        for (var i = 0; i < weighted.Length; i++)
            weighted[i] /= RootOfMass(i);
        if (CgArm != 0)
            weighted[HalfCarState.BodyHeave] -= CgArm * weighted[HalfCarState.BodyRoll];
    }

    private double RootOfMass(int i) => Math.Sqrt(i == HalfCarState.BodyRoll ? Mass[i, i] - (Mass[HalfCarState.BodyHeave, HalfCarState.BodyHeave] * CgArm * CgArm) : Mass[i, i]);

    /// <summary>
    /// The state matrix <c>A</c> of <c>ẏ = A y</c>, <c>y = (x, ẋ)</c>, followed by the two damper strokes where the dampers
    /// sit in top mounts.
    /// </summary>
    /// <param name="coefficient">Coefficient of each damper, N·s/m; greater than 0 with top mounts, else 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The coefficient is out of range.</exception>
    public Matrix<double> StateMatrix(double coefficient)
    {
        var mounted = HasTopMounts;
        _ = mounted ? Require.Positive(coefficient, "N·s/m") : Require.NotNegative(coefficient, "N·s/m");
        var a = DenseMatrix.Create(mounted ? (2 * N) + 2 : 2 * N, mounted ? (2 * N) + 2 : 2 * N, 0);
        var stiffness = mounted ? Stiffness.Clone() : Stiffness;
        var damping = mounted ? OtherDamping : Damping(coefficient);
        for (var side = 0; mounted && side < 2; side++)
        {
            // F = km (j·x − s) on the body, ṡ = F/c in the damper.
            var (arm, mount, damper) = (DamperArms[side], MountStiffness[side], coefficient * SideShares[side]);
            AddOuter(stiffness.AsColumnMajorArray(), mount, arm.AsArray());
            var stroke = (2 * N) + side;
            for (var i = 0; i < N; i++)
            {
                a[N + i, stroke] = mount * arm[i] / Mass[i, i];
                a[stroke, i] = mount * arm[i] / damper;
            }

            a[stroke, stroke] = -mount / damper;
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

        if (CgArm != 0)
            Couple(a);
        return a;
    }

    /// <summary>Accelerations of a body whose centre of gravity stands beside its roll centre, from those that each force alone would give.</summary>
    private void Couple(Matrix<double> a)
    {
        const int heave = N + HalfCarState.BodyHeave, roll = N + HalfCarState.BodyRoll;
        var (m, inertia) = (Mass[HalfCarState.BodyHeave, HalfCarState.BodyHeave], Mass[HalfCarState.BodyRoll, HalfCarState.BodyRoll]);
        for (var column = 0; column < a.ColumnCount; column++)
        {
            a[roll, column] = ((inertia * a[roll, column]) - (m * CgArm * a[heave, column])) / (inertia - (m * CgArm * CgArm));
            a[heave, column] -= CgArm * a[roll, column];
        }
    }

    /// <inheritdoc/>
    Matrix<double> ILinearMotion.Motion(double coefficient) => coefficient == 0 ? WithRigidMounts().StateMatrix(0) : StateMatrix(coefficient);

    /// <summary>The same half-car with the dampers in rigid mounts.</summary>
    internal LinearHalfCar WithRigidMounts() => new(Mass, Stiffness, OtherDamping, DamperArms, 0)
    {
        CgArm = CgArm,
        SideShares = SideShares,
        GravityMoment = GravityMoment,
        LateralInput = LateralInput,
        RoadStiffness = RoadStiffness,
        RoadDamping = RoadDamping,
    };

    private static void AddOuter(double[] matrix, double factor, ReadOnlySpan<double> arm)
    {
        for (var column = 0; column < N; column++)
        {
            for (var row = 0; row < N; row++)
                matrix[(column * N) + row] += factor * arm[row] * arm[column];
        }
    }
}
