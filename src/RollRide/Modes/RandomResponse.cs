using System.Numerics;
using MathNet.Numerics;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;

namespace RollRide.Modes;

/// <summary>
/// The half-car linearised at ride height on a random road: root mean squares by integrating spectra over frequency, and by the
/// Lyapunov equation for a white road velocity. Two routes to the same numbers, and a reference for simulations.
/// </summary>
/// <remarks>
/// Each output is <c>C x + Dz z + Dv ż</c> of the states <c>x</c> and the left and right road <c>z</c>. A. Preumont,
/// Random Vibration and Spectral Analysis, gives both routes (chapters from memory).
/// </remarks>
public sealed class RandomResponse
{
    private const int N = HalfCarState.Rates;
    private const int Tracks = 2;

    // Rows of the outputs; of a pair the left side's, which the right side's follows.
    private const int BodyAcceleration = 0, RollAcceleration = 1, SeatAcceleration = 2, WheelTravel = 3, DamperVelocity = 5, TyreLoad = 7, Outputs = 9;

    private readonly Matrix<double> _a;
    private readonly Matrix<double> _byRoad;
    private readonly Matrix<double> _byRoadRate;
    private readonly Matrix<double> _c;
    private readonly Matrix<double> _dRoad = DenseMatrix.Create(Outputs, Tracks, 0);
    private readonly Matrix<double> _dRoadRate = DenseMatrix.Create(Outputs, Tracks, 0);
    private readonly Matrix<double> _static;

    /// <summary>Prepares the linear model.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="coefficient">Coefficient of each damper, N·s/m; above 0 with top mounts, else 0 or more.</param>
    /// <param name="shares">What the left and the right damper have of it where they are unlike; null where they are the same.</param>
    public RandomResponse(AssembledHalfCar car, double coefficient, (double Left, double Right)? shares = null)
    {
        ArgumentNullException.ThrowIfNull(car);
        Require.NotNegative(coefficient, "N·s/m");
        if (coefficient == 0 && car.HasTopMount)
            throw new ArgumentOutOfRangeException(nameof(coefficient), coefficient, "A damper in a top mount needs a coefficient above 0 N·s/m.");
        var linear = LinearHalfCar.AtRest(car).WithShares(shares ?? (1, 1));
        _a = linear.StateMatrix(coefficient);
        var states = _a.RowCount;
        var inverseMass = linear.Mass.Inverse();
        _byRoad = DenseMatrix.Create(states, Tracks, 0);
        _byRoad.SetSubMatrix(N, 0, inverseMass * linear.RoadStiffness);
        _byRoadRate = DenseMatrix.Create(states, Tracks, 0);
        _byRoadRate.SetSubMatrix(N, 0, inverseMass * linear.RoadDamping);

        // Where the states stand when the road rests at z: the road wanders off without bound, what matters is seen from there.
        _static = -_a.Solve(_byRoad);

        _c = DenseMatrix.Create(Outputs, states, 0);
        SetOutputs(car.Vehicle, linear);
    }

    /// <summary>Root mean squares on a road with a given spectrum, integrated over its band.</summary>
    /// <param name="road">The road: spectrum, coherence and contact length.</param>
    /// <param name="speed">Speed, m/s; above 0.</param>
    /// <param name="intervals">Number of intervals, 2 or more and even, evenly spaced in the logarithm of frequency.</param>
    public LinearRideResponse OnRoad(RandomRoad road, double speed, int intervals = 1200)
    {
        ArgumentNullException.ThrowIfNull(road);
        Require.Positive(speed, "m/s");
        if (intervals < 2 || int.IsOddInteger(intervals))
            throw new ArgumentOutOfRangeException(nameof(intervals), intervals, "Simpson's rule needs an even number of intervals, 2 or more.");
        var (low, high) = (road.Spectrum.LowestWavenumber, road.Spectrum.HighestWavenumber);
        var step = Math.Log(high / low) / intervals;
        var meanSquares = new double[Outputs];
        for (var i = 0; i <= intervals; i++)
        {
            // The ends are set to the band's own numbers: rounded, they could fall outside it.
            var n = i == 0 ? low : i == intervals ? high : low * Math.Exp(i * step);
            var simpson = (i == 0 || i == intervals ? 1 : i % 2 == 1 ? 4 : 2) * step / 3;
            var envelope = Trig.Sinc(n * road.ContactLength);
            var density = road.Spectrum.Density(n) * envelope * envelope;
            var gamma = road.Coherence.Gamma(n);
            var h = Response(2 * Math.PI * n * speed);
            for (var o = 0; o < Outputs; o++)
            {
                var (left, right) = (h[o, 0], h[o, 1]);
                var gain = (left * Complex.Conjugate(left)).Real + (right * Complex.Conjugate(right)).Real
                    + (2 * gamma * (left * Complex.Conjugate(right)).Real);
                meanSquares[o] += simpson * n * density * gain;
            }
        }

        return ToResponse(meanSquares);
    }

    /// <summary>
    /// Root mean squares on a road whose velocity is white under each wheel, with one correlation between the two, by the
    /// Lyapunov equation. Infinite where the road's slow wandering or, with tyre damping, its white velocity comes through.
    /// </summary>
    /// <param name="intensity">Two-sided intensity <c>W</c> of the road velocity under each wheel, m²/s; above 0.</param>
    /// <param name="correlation">Correlation <c>ρ</c> of left and right, −1 to 1.</param>
    public LinearRideResponse OnWhiteVelocity(double intensity, double correlation)
    {
        Require.Positive(intensity, "m²/s");
        if (!(correlation is >= -1 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(correlation), correlation, "A correlation lies between −1 and 1.");

        // With x = y + S z: ẏ = A y + (Bv − S) ż, where ż is white.
        var b = _byRoadRate - _static;
        var road = DenseMatrix.OfArray(new[,] { { intensity, correlation * intensity }, { correlation * intensity, intensity } });
        var covariance = Lyapunov(_a, b * road * b.Transpose());
        var wandering = (_c * _static) + _dRoad;
        var meanSquares = new double[Outputs];
        for (var o = 0; o < Outputs; o++)
        {
            var row = _c.Row(o);
            double Through(Matrix<double> gains) => Math.Sqrt(Math.Max(0, gains.Row(o) * road * gains.Row(o) / intensity));
            var scale = _dRoad.Row(o).L2Norm() + row.L2Norm();
            meanSquares[o] = Through(_dRoadRate) > 0 || Through(wandering) > 1e-9 * scale
                ? double.PositiveInfinity
                : row * covariance * row;
        }

        return ToResponse(meanSquares);
    }

    /// <summary>Solves <c>A P + P Aᵀ + Q = 0</c> as one linear system for the elements of P.</summary>
    private static Matrix<double> Lyapunov(Matrix<double> a, Matrix<double> q)
    {
        var n = a.RowCount;
        var identity = DenseMatrix.CreateIdentity(n);
        var system = identity.KroneckerProduct(a) + a.KroneckerProduct(identity);
        var p = system.Solve(-DenseVector.OfArray(q.ToColumnMajorArray()));
        return DenseMatrix.OfColumnMajor(n, n, p.ToArray());
    }

    private Matrix<Complex> Response(double frequency)
    {
        var s = new Complex(0, frequency);
        var system = (-_a).ToComplex();
        for (var i = 0; i < system.RowCount; i++) system[i, i] += s;
        var input = _byRoad.ToComplex() + (_byRoadRate.ToComplex() * s);
        return (_c.ToComplex() * system.Solve(input)) + _dRoad.ToComplex() + (_dRoadRate.ToComplex() * s);
    }

    private void SetOutputs(HalfCar vehicle, LinearHalfCar linear)
    {
        var t = vehicle.HalfTrack;
        var heave = _a.Row(N + HalfCarState.BodyHeave);
        var roll = _a.Row(N + HalfCarState.BodyRoll);
        _c.SetRow(BodyAcceleration, heave);
        _c.SetRow(RollAcceleration, roll);
        _c.SetRow(SeatAcceleration, heave + (vehicle.SeatOffset * roll));
        _c.SetSubMatrix(WheelTravel, 0, DenseMatrix.OfArray(new[,] { { -1, -t, 1, t }, { -1, t, 1, -t } }));
        for (var side = 0; side < Tracks; side++)
        {
            var arm = linear.DamperArms[side];
            if (linear.HasTopMounts)
                _c.SetRow(DamperVelocity + side, _a.Row((2 * N) + side));
            else
                _c.SetSubMatrix(DamperVelocity + side, N, arm.ToRowMatrix());
        }

        foreach (var y in vehicle.ContactPositions)
        {
            var side = y > 0 ? 0 : 1;
            var row = TyreLoad + side;
            var (k, c) = (vehicle.Tyre.Stiffness, vehicle.Tyre.Damping);
            _dRoad[row, side] += k;
            _dRoadRate[row, side] += c;
            _c[row, HalfCarState.UnsprungHeave] -= k;
            _c[row, HalfCarState.UnsprungRoll] -= k * y;
            _c[row, N + HalfCarState.UnsprungHeave] -= c;
            _c[row, N + HalfCarState.UnsprungRoll] -= c * y;
        }
    }

    private static LinearRideResponse ToResponse(double[] meanSquares)
    {
        // A mean square of zero, as of roll where both tracks are the same, may come out negative by rounding.
        double Rms(int output) => Math.Sqrt(Math.Max(0, meanSquares[output]));
        double LargerRms(int pair) => Math.Max(Rms(pair), Rms(pair + 1));
        return new LinearRideResponse(
            Rms(BodyAcceleration), Rms(RollAcceleration), Rms(SeatAcceleration), LargerRms(WheelTravel), LargerRms(DamperVelocity), LargerRms(TyreLoad));
    }
}
