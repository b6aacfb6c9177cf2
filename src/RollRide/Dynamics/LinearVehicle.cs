using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using Complex = System.Numerics.Complex;

namespace RollRide.Dynamics;

/// <summary>
/// A vehicle with two axles linearised at rest: <c>M ẍ + C ẋ + K x = 0</c>, <c>x</c> being <c>(zs, φs, zu, φu)</c> of the axle that the layouts are for and
/// then of the other; a frame that does not twist has one body roll, and seven coordinates. Immutable.
/// </summary>
public sealed class LinearVehicle
{
    private const int N = HalfCarState.Rates;

    private readonly int[] _places;
    private readonly Matrix<double> _inverseMass;
    private readonly double[] _rootsOfMass;
    private readonly (double Own, double Second) _heaveShare;
    private readonly (double Own, double Second) _rollShare;
    private readonly Vector<double>[] _arms;
    private readonly double[] _mounts;

    private LinearVehicle(AssembledHalfCar car, LinearHalfCar own, LinearHalfCar second)
    {
        (Own, Second) = (own, second);
        var axle = car.Vehicle.SecondAxle!;
        var joined = new JoinedBody(car);
        IsRigid = joined.Stiffness is null;
        _places = VehicleForces.PlacesOf(IsRigid);
        Coordinates = _places[^1] + 1;
        Mass = Spread(own.Mass, second.Mass);
        Stiffness = Spread(own.Stiffness, second.Stiffness);
        OtherDamping = Spread(own.OtherDamping, second.OtherDamping);

        // mff = (ms b² + Iy)/L², mrr = (ms a² + Iy)/L², mfr = (ms a b − Iy)/L².
        var (mass, length, inertia) = (axle.BodyMass(car.Vehicle), axle.Chassis.Wheelbase, axle.PitchInertia(car.Vehicle));
        var a = axle.CgFromStudied(car.Vehicle);
        var b = length - a;
        if (axle.Chassis.PitchInertia is not null)
        {
            Mass[HalfCarState.BodyHeave, HalfCarState.BodyHeave] = ((mass * b * b) + inertia) / (length * length);
            Mass[N + HalfCarState.BodyHeave, N + HalfCarState.BodyHeave] = ((mass * a * a) + inertia) / (length * length);
            Mass[HalfCarState.BodyHeave, N + HalfCarState.BodyHeave] = Mass[N + HalfCarState.BodyHeave, HalfCarState.BodyHeave] = ((mass * a * b) - inertia) / (length * length);
        }

        AddTwist(Stiffness, joined.Stiffness ?? 0);
        AddTwist(OtherDamping, joined.Damping);
        _inverseMass = Mass.Inverse();
        _arms = [.. own.DamperArms.Select(arm => SpreadArm(arm, 0)), .. second.DamperArms.Select(arm => SpreadArm(arm, N))];
        _mounts = [.. own.MountStiffness, .. second.MountStiffness];
        _heaveShare = (b / length, a / length);
        var (j1, j2) = (joined.RollInertia, joined.RollInertiaOfSecond);
        _rollShare = (j1 / (j1 + j2), j2 / (j1 + j2));
        double[] roots = [Math.Sqrt(mass), Math.Sqrt(j1 + j2), .. Roots(own), Math.Sqrt(inertia) / length, Math.Sqrt(j1 * j2 / (j1 + j2)), .. Roots(second)];
        _rootsOfMass = IsRigid ? [.. roots.Where((_, i) => i != N + HalfCarState.BodyRoll)] : roots;

        static double[] Roots(LinearHalfCar axle) =>
            [Math.Sqrt(axle.Mass[HalfCarState.UnsprungHeave, HalfCarState.UnsprungHeave]), Math.Sqrt(axle.Mass[HalfCarState.UnsprungRoll, HalfCarState.UnsprungRoll])];
    }

    /// <summary>The axle that the layouts are for by itself.</summary>
    public LinearHalfCar Own { get; }

    /// <summary>The other axle by itself.</summary>
    public LinearHalfCar Second { get; }

    /// <summary>Whether the frame does not twist.</summary>
    public bool IsRigid { get; }

    /// <summary>Number of coordinates: eight, or seven where the frame does not twist.</summary>
    public int Coordinates { get; }

    /// <summary>Mass matrix <c>M</c>: kg, kg·m².</summary>
    public Matrix<double> Mass { get; }

    /// <summary>Stiffness matrix <c>K</c> without the top mounts: N/m, N, N·m/rad.</summary>
    public Matrix<double> Stiffness { get; }

    /// <summary>The part of the damping matrix that does not come from the dampers: tyres and frame.</summary>
    public Matrix<double> OtherDamping { get; }

    /// <summary>Linearises a vehicle at rest.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <exception cref="ArgumentException">It has one axle.</exception>
    public static LinearVehicle AtRest(AssembledHalfCar car)
    {
        ArgumentNullException.ThrowIfNull(car);
        return new(car, LinearHalfCar.AtRest(car), LinearHalfCar.AtRest(car.Second ?? throw new ArgumentException("The vehicle has one axle.", nameof(car))));
    }

    /// <summary>Where a coordinate of an axle by itself stands among those of the vehicle.</summary>
    /// <param name="coordinate">One of <see cref="HalfCarState"/>.</param>
    /// <param name="isSecond">Whether it is the other axle's.</param>
    public int PlaceOf(int coordinate, bool isSecond) => _places[(isSecond ? N : 0) + coordinate];

    /// <summary>
    /// The state matrix <c>A</c> of <c>ẏ = A y</c>: coordinates, rates, and the strokes of those dampers that sit in top mounts and have a coefficient. Rates are
    /// over the highest frequency of a coordinate by itself, so that the numbers are of one size and eigenvalues are found.
    /// </summary>
    /// <param name="coefficients">Coefficients of the left and the right damper of the axle that the layouts are for, then of the other, N·s/m.</param>
    public Matrix<double> StateMatrix(IReadOnlyList<double> coefficients)
    {
        ArgumentNullException.ThrowIfNull(coefficients);
        var n = Coordinates;
        bool Strokes(int damper) => _mounts[damper] > 0 && coefficients[damper] > 0 && coefficients[damper ^ 1] > 0;
        int[] inMounts = [.. Enumerable.Range(0, _arms.Length).Where(Strokes)];
        var (stiffness, damping) = (Stiffness.Clone(), OtherDamping.Clone());
        for (var k = 0; k < _arms.Length; k++)
        {
            if (Strokes(k))
                stiffness += _mounts[k] * _arms[k].OuterProduct(_arms[k]);
            else
                damping += coefficients[k] * _arms[k].OuterProduct(_arms[k]);
        }

        var a = DenseMatrix.Create((2 * n) + inMounts.Length, (2 * n) + inMounts.Length, 0);
        var scale = Math.Sqrt((_inverseMass * stiffness).Diagonal().AbsoluteMaximum());
        a.SetSubMatrix(0, n, scale * DenseMatrix.CreateIdentity(n));
        a.SetSubMatrix(n, 0, _inverseMass * stiffness / -scale);
        a.SetSubMatrix(n, n, -(_inverseMass * damping));
        for (var i = 0; i < inMounts.Length; i++)
        {
            // F = km (j·x − s) on the body, ṡ = F/c in the damper.
            var (damper, stroke) = (inMounts[i], (2 * n) + i);
            a.SetSubMatrix(n, n, stroke, 1, (_mounts[damper] / scale * (_inverseMass * _arms[damper])).ToColumnMatrix());
            a.SetSubMatrix(stroke, 1, 0, n, (_mounts[damper] / coefficients[damper] * _arms[damper]).ToRowMatrix());
            a[stroke, stroke] = -_mounts[damper] / coefficients[damper];
        }

        return a;
    }

    /// <summary>The motion over one coefficient.</summary>
    /// <param name="coefficients">Gives the coefficients of all four dampers.</param>
    internal ILinearMotion Over(Func<double, IReadOnlyList<double>> coefficients) => new OverOne(this, coefficients);

    /// <summary>Displacements as roots of kinetic energy: of heave at the centre of gravity, roll of the whole body, the axles, pitch and twist.</summary>
    internal void Weigh(Span<Complex> x)
    {
        var (heave, second) = (x[HalfCarState.BodyHeave], x[N + HalfCarState.BodyHeave]);
        (x[HalfCarState.BodyHeave], x[N + HalfCarState.BodyHeave]) = ((_heaveShare.Own * heave) + (_heaveShare.Second * second), second - heave);
        if (!IsRigid)
        {
            var (roll, other) = (x[HalfCarState.BodyRoll], x[N + HalfCarState.BodyRoll]);
            (x[HalfCarState.BodyRoll], x[N + HalfCarState.BodyRoll]) = ((_rollShare.Own * roll) + (_rollShare.Second * other), other - roll);
        }

        for (var i = 0; i < x.Length; i++)
            x[i] *= _rootsOfMass[i];
    }

    /// <summary>The displacements of which <see cref="Weigh"/> makes these.</summary>
    internal void Unweigh(Span<Complex> x)
    {
        for (var i = 0; i < x.Length; i++)
            x[i] /= _rootsOfMass[i];
        var (centre, difference) = (x[HalfCarState.BodyHeave], x[N + HalfCarState.BodyHeave]);
        (x[HalfCarState.BodyHeave], x[N + HalfCarState.BodyHeave]) = (centre - (_heaveShare.Second * difference), centre + (_heaveShare.Own * difference));
        if (IsRigid)
            return;
        var (roll, twist) = (x[HalfCarState.BodyRoll], x[N + HalfCarState.BodyRoll]);
        (x[HalfCarState.BodyRoll], x[N + HalfCarState.BodyRoll]) = (roll - (_rollShare.Second * twist), roll + (_rollShare.Own * twist));
    }

    /// <summary>What each damper takes out of a motion, and last what tyres and frame do: in one unit, that of <c>c |s|²</c> of the amplitudes given.</summary>
    /// <param name="coefficients">Coefficients of the four dampers, N·s/m.</param>
    /// <param name="eigenvalue">The eigenvalue, 1/s.</param>
    /// <param name="shape">Amplitudes of the coordinates.</param>
    internal double[] Losses(IReadOnlyList<double> coefficients, Complex eigenvalue, IReadOnlyList<Complex> shape)
    {
        var losses = new double[_arms.Length + 1];
        for (var k = 0; k < _arms.Length; k++)
        {
            var travel = Complex.Zero;
            for (var i = 0; i < shape.Count; i++)
                travel += _arms[k][i] * shape[i];

            // In a top mount the damper strokes less: km (j·x − s) = c λ s.
            var stroke = _mounts[k] > 0 ? travel * _mounts[k] / (_mounts[k] + (eigenvalue * coefficients[k])) : travel;
            losses[k] = coefficients[k] * ((stroke.Real * stroke.Real) + (stroke.Imaginary * stroke.Imaginary));
        }

        for (var i = 0; i < shape.Count; i++)
        {
            for (var j = 0; j < shape.Count; j++)
                losses[^1] += OtherDamping[i, j] * (Complex.Conjugate(shape[i]) * shape[j]).Real;
        }

        return losses;
    }

    private Matrix<double> Spread(Matrix<double> own, Matrix<double> second)
    {
        var whole = DenseMatrix.Create(Coordinates, Coordinates, 0);
        for (var i = 0; i < N; i++)
        {
            for (var j = 0; j < N; j++)
            {
                whole[_places[i], _places[j]] += own[i, j];
                whole[_places[N + i], _places[N + j]] += second[i, j];
            }
        }

        return whole;
    }

    private Vector<double> SpreadArm(Vector<double> arm, int first)
    {
        var whole = DenseVector.Create(Coordinates, 0);
        for (var i = 0; i < N; i++)
            whole[_places[first + i]] += arm[i];
        return whole;
    }

    private void AddTwist(Matrix<double> matrix, double factor)
    {
        if (IsRigid)
            return;
        const int Own = HalfCarState.BodyRoll, Second = N + HalfCarState.BodyRoll;
        matrix[Own, Own] += factor;
        matrix[Second, Second] += factor;
        matrix[Own, Second] -= factor;
        matrix[Second, Own] -= factor;
    }

    private sealed class OverOne(LinearVehicle vehicle, Func<double, IReadOnlyList<double>> coefficients) : ILinearMotion
    {
        public int Coordinates => vehicle.Coordinates;

        public Matrix<double> Motion(double coefficient) => vehicle.StateMatrix(coefficients(coefficient));

        public void Weigh(Span<Complex> displacements) => vehicle.Weigh(displacements);

        public void Unweigh(Span<Complex> weighted) => vehicle.Unweigh(weighted);
    }
}
