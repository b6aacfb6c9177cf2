namespace RollRide.Tests.Results;

/// <summary>
/// The half-car of docs/theory.md with constant motion ratios, written down once more for the tests of the output files: its own equations, its
/// own integration (classical Runge–Kutta in steps of 0.1 ms) and nothing of the program. The numbers are those of the scenario in
/// <see cref="OutputFilesTests"/>, turned into SI by hand.
/// </summary>
internal sealed class PlainHalfCar
{
    /// <summary>Step, s. Every kink of the inputs stands at a multiple of it.</summary>
    public const double Step = 1e-4;

    public const double Duration = 3.5, CornerStart = 1.2, RampDuration = 0.2, FinalLateralAcceleration = 5;

    /// <summary>How long the corner by itself is followed, s: 10 s beyond its ramp.</summary>
    public const double CornerDuration = RampDuration + 10;

    /// <summary>Body roll inertia about the roll centre, kg·m², and mass times arm, kg·m.</summary>
    public const double RollInertia = BodyInertia + (BodyMass * Arm * Arm), MassMoment = BodyMass * Arm;

    private const double G = 9.80665, T = 0.8, Speed = 10;
    private const double BodyMass = 1200, BodyInertia = 450, Arm = 0.8 - 0.4, UnsprungMass = 160, UnsprungInertia = 50 + (160 * 0.05 * 0.05);
    private const double SpringRate = 50e3, SpringRoll = 0.7 * T, AntiRollBar = 100 * 180 / Math.PI;
    private const double TyreStiffness = 150e3, TyreDamping = 200, StaticTyreLoad = (BodyMass + UnsprungMass) * G / 4;
    private const double BumpClearance = 0.025, BumpStiffness = 12e3 / (0.020 * 0.020), BumpHeave = 0.95, BumpRoll = 0.6 * T;
    private const double ReboundClearance = 0.022, ReboundStiffness = 9e3 / 0.015, ReboundHeave = 0.9, ReboundRoll = 0.65 * T;
    private const double SeatOffset = 0.35, GasForce = 120;
    private static readonly double[] Contacts = [T + 0.15, T - 0.15, -T + 0.15, -T - 0.15];
    private readonly double _damperHeave, _damperRoll, _preload;
    private readonly Dictionary<string, double[]> _channels = [];
    private readonly bool _cornerAlone;
    private int _sample;

    /// <summary>Runs a layout through the manoeuvre.</summary>
    /// <param name="heaveRatio">Heave ratio of the dampers.</param>
    /// <param name="rollRatio">Their roll ratio.</param>
    /// <param name="cornerAlone">Whether it is the corner alone, at once, without the bumps.</param>
    public PlainHalfCar(double heaveRatio, double rollRatio, bool cornerAlone = false)
    {
        _cornerAlone = cornerAlone;
        (_damperHeave, _damperRoll) = (heaveRatio, rollRatio * T);
        _preload = (BodyMass * G / 2) - (heaveRatio * GasForce);
        Count = (int)Math.Round((cornerAlone ? CornerDuration : Duration) / Step) + 1;
        Integrate();
    }

    /// <summary>Number of instants, both ends among them.</summary>
    public int Count { get; }

    /// <summary>A channel at all instants, SI.</summary>
    public double[] this[string channel] => _channels[channel];

    /// <summary>Body roll at rest under a lateral acceleration on a flat road, rad: where the accelerations vanish.</summary>
    public double SteadyRoll(double lateralAcceleration)
    {
        // Newton's method with differences; the car is smooth about the solution.
        var position = new double[4];
        for (var iteration = 0; iteration < 50; iteration++)
        {
            var here = Accelerations(position, lateralAcceleration);
            var slopes = MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.Dense(4, 4, (i, j) =>
            {
                var moved = (double[])position.Clone();
                moved[j] += 1e-7;
                return (Accelerations(moved, lateralAcceleration)[i] - here[i]) / 1e-7;
            });
            var step = slopes.Solve(MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense(here));
            for (var j = 0; j < 4; j++)
                position[j] -= step[j];
        }

        Assert.All(Accelerations(position, lateralAcceleration), acceleration => Assert.Equal(0, acceleration, 1e-8));
        return position[1];
    }

    private double[] Accelerations(double[] position, double lateralAcceleration)
    {
        var derivative = new double[States];
        double[] state = [.. position, .. new double[States - 4]];
        Derivative(state, (0, 0), (0, 0), lateralAcceleration, derivative, null);
        return derivative[4..8];
    }

    // Four coordinates, four rates, and the weighting filters of body and seat with four sections of two states each.
    private const int States = 8 + (2 * 8);

    private void Integrate()
    {
        var state = new double[States];
        double[] k1 = new double[States], k2 = new double[States], k3 = new double[States], k4 = new double[States], at = new double[States];
        for (_sample = 0; ; _sample++)
        {
            var time = _sample * Step;
            Derivative(time, state, k1, Record);
            if (_sample == Count - 1)
                return;
            Move(state, k1, Step / 2, at);
            Derivative(time + (Step / 2), at, k2, null);
            Move(state, k2, Step / 2, at);
            Derivative(time + (Step / 2), at, k3, null);
            Move(state, k3, Step, at);
            Derivative(time + Step, at, k4, null);
            for (var i = 0; i < States; i++)
                state[i] += Step / 6 * (k1[i] + (2 * k2[i]) + (2 * k3[i]) + k4[i]);
        }
    }

    private static void Move(double[] from, double[] slope, double step, double[] to)
    {
        for (var i = 0; i < States; i++)
            to[i] = from[i] + (step * slope[i]);
    }

    private void Record(string channel, double value)
    {
        if (!_channels.TryGetValue(channel, out var values))
            _channels[channel] = values = new double[Count];
        values[_sample] = value;
    }

    private void Derivative(double time, double[] x, double[] derivative, Action<string, double>? record)
    {
        var ramp = Math.Clamp((time - (_cornerAlone ? 0 : CornerStart)) / RampDuration, 0, 1);
        if (_cornerAlone)
            Derivative(x, (0, 0), (0, 0), ramp * FinalLateralAcceleration, derivative, record);
        else
            Derivative(x, Bump(time, start: 1, length: 2, height: 0.08), Bump(time, start: 5, length: 1.6, height: 0.06), ramp * FinalLateralAcceleration, derivative, record);
    }

    /// <summary>A bump <c>½ H (1 − cos 2πu/l)</c>: height, m, and its rate, m/s.</summary>
    private static (double Height, double Rate) Bump(double time, double start, double length, double height)
    {
        var u = (Speed * time) - start;
        if (u <= 0 || u >= length)
            return (0, 0);
        var angle = 2 * Math.PI * u / length;
        return (0.5 * height * (1 - Math.Cos(angle)), 0.5 * height * Math.Sin(angle) * 2 * Math.PI / length * Speed);
    }

    private void Derivative(double[] x, (double Height, double Rate) leftRoad, (double Height, double Rate) rightRoad, double ay, double[] derivative, Action<string, double>? record)
    {
        var (zs, phiS, zu, phiU) = (x[0], x[1], x[2], x[3]);
        var (zsRate, phiSRate, zuRate, phiURate) = (x[4], x[5], x[6], x[7]);
        var (q, r, qRate, rRate) = (zu - zs, phiU - phiS, zuRate - zsRate, phiURate - phiSRate);
        var (force, moment) = (0.0, AntiRollBar * r);
        foreach (var (name, side) in (ReadOnlySpan<(string, int)>)[("Left", 1), ("Right", -1)])
        {
            var spring = _preload + (SpringRate * (q + (side * SpringRoll * r)));
            var damperTravel = (_damperHeave * q) + (side * _damperRoll * r);
            var damperVelocity = (_damperHeave * qRate) + (side * _damperRoll * rRate);
            var damper = DamperForce(damperVelocity);
            var bump = Math.Max(0, (BumpHeave * q) + (side * BumpRoll * r) - BumpClearance);
            var bumpForce = BumpStiffness * bump * bump;
            var rebound = Math.Max(0, -(ReboundHeave * q) - (side * ReboundRoll * r) - ReboundClearance);
            var reboundForce = -ReboundStiffness * rebound;
            force += spring + (_damperHeave * (damper + GasForce)) + (BumpHeave * bumpForce) + (ReboundHeave * reboundForce);
            moment += side * ((SpringRoll * spring) + (_damperRoll * (damper + GasForce)) + (BumpRoll * bumpForce) + (ReboundRoll * reboundForce));
            if (record is null)
                continue;
            record($"wheelTravel{name}", q + (side * T * r));
            record($"damperTravel{name}", damperTravel);
            record($"damperVelocity{name}", damperVelocity);
            record($"damperForce{name}", damper);
            record($"springForce{name}", spring);
            record($"bumpStopForce{name}", bumpForce);
            record($"reboundStopForce{name}", reboundForce);
        }

        var (tyreForce, tyreMoment) = (0.0, 0.0);
        Span<double> loads = stackalloc double[4];
        for (var i = 0; i < 4; i++)
        {
            var y = Contacts[i];
            var (height, rate) = y > 0 ? leftRoad : rightRoad;
            loads[i] = StaticTyreLoad + (TyreStiffness * (height - zu - (y * phiU))) + (TyreDamping * (rate - zuRate - (y * phiURate)));
            tyreForce += Math.Max(0, loads[i]) - StaticTyreLoad;
            tyreMoment += y * (Math.Max(0, loads[i]) - StaticTyreLoad);
        }

        var bodyAcceleration = (force / BodyMass) - G;
        var rollAcceleration = (moment + (BodyMass * Arm * ay) + (BodyMass * G * Arm * Math.Sin(phiS))) / (BodyInertia + (BodyMass * Arm * Arm));
        var unsprungAcceleration = (tyreForce - force + (BodyMass * G)) / UnsprungMass;
        var unsprungRollAcceleration = (tyreMoment - moment + (((BodyMass * 0.4) + (UnsprungMass * 0.35)) * ay)) / UnsprungInertia;
        (derivative[0], derivative[1], derivative[2], derivative[3]) = (zsRate, phiSRate, zuRate, phiURate);
        (derivative[4], derivative[5], derivative[6], derivative[7]) = (bodyAcceleration, rollAcceleration, unsprungAcceleration, unsprungRollAcceleration);
        var seat = bodyAcceleration + (SeatOffset * rollAcceleration);
        var weightedBody = Weighted(bodyAcceleration, x.AsSpan(8, 8), derivative.AsSpan(8, 8));
        var weightedSeat = Weighted(seat, x.AsSpan(16, 8), derivative.AsSpan(16, 8));
        if (record is null)
            return;
        foreach (var (channel, value) in (ReadOnlySpan<(string, double)>)
        [
            ("roadLeft", leftRoad.Height), ("roadRight", rightRoad.Height), ("lateralAcceleration", ay),
            ("bodyHeave", zs), ("bodyRoll", phiS), ("unsprungHeave", zu), ("unsprungRoll", phiU),
            ("bodyHeaveVelocity", zsRate), ("bodyRollVelocity", phiSRate), ("unsprungHeaveVelocity", zuRate), ("unsprungRollVelocity", phiURate),
            ("bodyAcceleration", bodyAcceleration), ("bodyRollAcceleration", rollAcceleration),
            ("unsprungAcceleration", unsprungAcceleration), ("unsprungRollAcceleration", unsprungRollAcceleration), ("seatAcceleration", seat),
            ("tyreLoadLeft", Math.Max(0, loads[0]) + Math.Max(0, loads[1])), ("tyreLoadRight", Math.Max(0, loads[2]) + Math.Max(0, loads[3])),
            ("tyreLoadLeftOuter", Math.Max(0, loads[0])), ("tyreLoadLeftInner", Math.Max(0, loads[1])),
            ("tyreLoadRightInner", Math.Max(0, loads[2])), ("tyreLoadRightOuter", Math.Max(0, loads[3])),
            ("contactLeftOuter", loads[0]), ("contactLeftInner", loads[1]), ("contactRightInner", loads[2]), ("contactRightOuter", loads[3]),
            ("contactLeft", Math.Max(loads[0], loads[1])), ("contactRight", Math.Max(loads[2], loads[3])),
            ("rideHeight", -q), ("weightedBody", weightedBody), ("weightedSeat", weightedSeat),
        ])
        {
            record(channel, value);
        }
    }

    /// <summary>Straight lines through (−1, −4000), (−0.1, −900), (0, 0), (0.1, 500), (1, 2000), m/s and N.</summary>
    private static double DamperForce(double velocity) => velocity switch
    {
        < -0.1 => -900 + ((4000 - 900) / 0.9 * (velocity + 0.1)),
        < 0 => 9000 * velocity,
        < 0.1 => 5000 * velocity,
        _ => 500 + ((2000 - 500) / 0.9 * (velocity - 0.1)),
    };

    /// <summary>The weighting Wk of ISO 2631-1:1997, Annex A (formula from memory), as differential equations.</summary>
    private static double Weighted(double acceleration, ReadOnlySpan<double> x, Span<double> derivative)
    {
        const double two = 2 * Math.PI;
        var value = acceleration;
        for (var section = 0; section < 4; section++)
        {
            // Numerator and denominator, ascending in s.
            var (b0, b1, b2, a0, a1, a2) = section switch
            {
                0 => (0, 0, 1, Squared(two * 0.4), Math.Sqrt(2) * two * 0.4, 1.0),
                1 => (1, 0, 0, 1, Math.Sqrt(2) / (two * 100), 1 / Squared(two * 100)),
                2 => (1, 1 / (two * 12.5), 0, 1, 1 / (0.63 * two * 12.5), 1 / Squared(two * 12.5)),
                _ => (Squared(two * 2.37), two * 2.37 / 0.91, 1, Squared(two * 3.35), two * 3.35 / 0.91, 1.0),
            };
            var (first, second) = (x[2 * section], x[(2 * section) + 1]);
            var third = (value - (a0 * first) - (a1 * second)) / a2;
            (derivative[2 * section], derivative[(2 * section) + 1]) = (second, third);
            value = (b0 * first) + (b1 * second) + (b2 * third);
        }

        return value;
    }

    private static double Squared(double value) => value * value;
}
