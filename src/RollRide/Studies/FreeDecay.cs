using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using MathNet.Numerics.Optimization;
using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Studies;

/// <summary>
/// The damping of one mode as a free-decay test would measure it: the vehicle is displaced along the mode's shape, let go, and its
/// simulated decay evaluated, with the real force–velocity curve, the stops and the tyres. It is released to one side and then, anew,
/// to the other, and the figures are the means of both: with unequal compression and rebound a release to one side alone shows more of
/// the direction that swings first.
/// </summary>
/// <remarks>
/// The linear ratio stands beside it, at the velocity amplitude of the release. A decay runs through smaller and smaller
/// velocities, so with a curve that is no straight line the two differ; <see cref="MeanVelocity"/> and
/// <see cref="LinearRatioAtMeanVelocity"/> show how much of the difference is that.
/// </remarks>
public sealed record FreeDecay
{
    // A damper near the centre hardly moves in roll: asked for its velocity alone, the body would be thrown over. No wheel is
    // moved further than this against the body, m; common practice, no source.
    private const double LargestWheelTravel = 0.04;

    // Fitted over so many damped cycles: later ones are lost in friction and noise on a real vehicle.
    private const int FittedCycles = 3;
    private const int SamplesPerCycle = 60;
    private const int Samples = FittedCycles * SamplesPerCycle;
    private const int MaximumIterations = 200;

    // A fit whose damped frequency is off the linear one by more than this factor describes no oscillation of this mode but a mere
    // creep, or a ripple on it; common practice, no source.
    private const double LargestFrequencyRatio = 2;

    /// <summary>The mode.</summary>
    public required ModeName Mode { get; init; }

    /// <summary>
    /// Velocity amplitude at the damper upon release, m/s: the one asked for, or less where the wheels would move more than 40 mm.
    /// </summary>
    public required double ReleaseVelocity { get; init; }

    /// <summary>The linear mode with the equivalent coefficient at the release velocity.</summary>
    public required Mode Linear { get; init; }

    /// <summary>
    /// Damping ratio by the logarithmic decrement over the first cycle; null if the motion shows no full cycle. From the ranges between
    /// extrema, on which a shift of the mean has no influence: <c>δ = ln((x₀ − x₁)/(x₁ − x₂))</c> over half a cycle. If compression
    /// takes the amplitude down by <c>a</c> and rebound by <c>b</c> a swing, one release gives <c>(1 + a)/(a(1 + b))</c> and the other
    /// <c>(1 + b)/(b(1 + a))</c>; the sum of both δ is <c>−ln ab</c>, the decrement of a full cycle (derived).
    /// </summary>
    public double? DecrementRatio { get; internal init; }

    /// <summary>
    /// Damping ratio by a least-squares fit of a decaying oscillation; null if the motion shows no full cycle, or if the fit finds no
    /// oscillation near the mode's frequency.
    /// </summary>
    public double? FittedRatio { get; internal init; }

    /// <summary>Natural frequency of the fitted oscillation, Hz; null where the fit gives no ratio.</summary>
    public double? FittedFrequency { get; internal init; }

    /// <summary>Root mean square of what the fit leaves, over the amplitude at release; null where the fit gives no ratio.</summary>
    public double? FitResidual { get; internal init; }

    /// <summary>
    /// Amplitude of the sine whose root mean square is that of the left damper's velocity over the first cycle, m/s; null if the
    /// motion shows no full cycle.
    /// </summary>
    public double? MeanVelocity { get; internal init; }

    /// <summary>The linear damping ratio with the equivalent coefficient at the mean velocity; null if the motion shows no full cycle.</summary>
    public double? LinearRatioAtMeanVelocity { get; internal init; }

    /// <summary>Whether a stop was touched or a tyre left the road, so that the decay is not that of the damper alone.</summary>
    public bool LeftLinearRange { get; internal init; }

    /// <summary>Simulates and evaluates one decay.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="mode">The mode.</param>
    /// <param name="velocity">Velocity amplitude at the damper upon release, m/s; greater than 0.</param>
    /// <param name="includeFriction">Whether friction counts in the linear coefficient; it always acts in the simulation.</param>
    /// <param name="solver">Settings of the integrator.</param>
    /// <param name="cancellation">Stops the run.</param>
    /// <exception cref="UnstableBodyException">The body is unstable in roll.</exception>
    /// <exception cref="IntegrationException">The run diverges.</exception>
    public static FreeDecay Of(
        AssembledHalfCar car, ModeName mode, double velocity, bool includeFriction, IntegratorOptions solver, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(car);
        Require.Positive(velocity, "m/s");
        var linear = LinearHalfCar.AtRest(car);
        Mode At(double amplitude) => ModeFollower.Solve(linear, car.Layout, amplitude, includeFriction)[mode];
        velocity = Math.Min(velocity, LargestVelocity(linear, At(velocity), car.Vehicle.HalfTrack));
        var released = At(velocity);
        var result = new FreeDecay { Mode = mode, ReleaseVelocity = velocity, Linear = released };
        double Coefficient(Side side) => car.Layout.On(side).Damper.EquivalentCoefficient(velocity, DampingDirection.Both, includeFriction);
        if (released.IsOverdamped || Displaced(linear, released, velocity, [Coefficient(Side.Left), Coefficient(Side.Right)]) is not { } initial)
            return result;

        var (one, other) = (
            Release(car, mode, released, initial, solver, cancellation),
            Release(car, mode, released, [.. initial.Select(x => -x)], solver, cancellation));
        result = result with { LeftLinearRange = one.LeftLinearRange || other.LeftLinearRange };
        if (one.Decrement is not { } first || other.Decrement is not { } second)
            return result;
        var decrement = (first + second) / 2;
        var mean = (one.MeanVelocity + other.MeanVelocity) / 2;
        result = result with
        {
            // Over half a cycle the amplitude falls by exp(−πζ/√(1−ζ²)).
            DecrementRatio = decrement / Math.Sqrt((Math.PI * Math.PI) + (decrement * decrement)),
            MeanVelocity = mean,
            LinearRatioAtMeanVelocity = At(mean).DampingRatio,
        };
        return one.Fit is { } a && other.Fit is { } b
            ? result with
            {
                FittedRatio = (a.Ratio + b.Ratio) / 2,
                FittedFrequency = (a.Frequency + b.Frequency) / 2,
                FitResidual = Math.Max(a.Residual, b.Residual),
            }
            : result;
    }

    /// <summary>One release and what its decay shows.</summary>
    private static Decay Release(
        AssembledHalfCar car, ModeName mode, Mode released, double[] initial, IntegratorOptions solver, CancellationToken cancellation)
    {
        var period = 1 / released.DampedFrequency;
        var span = FittedCycles * period;
        var coordinate = (int)mode;
        var simulation = new Simulation(
            car, new Manoeuvre { Road = Road.Flat(1), Cornering = GivenLateralAcceleration.StraightAhead, Duration = span }, solver);
        var trajectory = new Trajectory();
        var limits = new LimitWatch(simulation.Equations);
        simulation.Run([trajectory, limits], initial.AsSpan(0, car.StateCount), cancellation);
        var state = new double[simulation.Equations.Dimension];
        double Read(double time, int index)
        {
            trajectory.StateAt(Math.Min(time, trajectory.End), state);
            return state[index];
        }

        var extrema = Extrema(time => Read(time, coordinate), time => Read(time, HalfCarState.Rates + coordinate), span);
        return extrema.Count < 3
            ? new Decay(null, null, double.NaN, limits.Left)
            : new Decay(
                Math.Log(Math.Abs(extrema[0] - extrema[1]) / Math.Abs(extrema[1] - extrema[2])),
                Fit(time => Read(time, coordinate), span, released),
                MeanAmplitude(simulation.Equations, trajectory, period),
                limits.Left);
    }

    /// <summary>The damper velocity amplitude at which a mode moves the wheels by as much as is allowed, m/s.</summary>
    private static double LargestVelocity(LinearHalfCar linear, Mode mode, double halfTrack)
    {
        var shape = Vector<System.Numerics.Complex>.Build.Dense([.. mode.Shape]);
        var (q, r) = (shape[HalfCarState.UnsprungHeave] - shape[HalfCarState.BodyHeave], shape[HalfCarState.UnsprungRoll] - shape[HalfCarState.BodyRoll]);
        var wheel = Math.Max((q + (halfTrack * r)).Magnitude, (q - (halfTrack * r)).Magnitude);
        var damper = linear.DamperArms.Max(arm => (arm.ToComplex() * shape * mode.Eigenvalue).Magnitude);
        return damper == 0 || wheel == 0 ? double.PositiveInfinity : LargestWheelTravel * damper / wheel;
    }

    /// <summary>
    /// The state of a pure mode at the instant at which its own coordinate is farthest out and, in the linear vehicle, the damper
    /// has the velocity amplitude asked for; null if the mode does not move the damper.
    /// </summary>
    private static double[]? Displaced(LinearHalfCar linear, Mode mode, double velocity, double[] coefficients)
    {
        var shape = Vector<System.Numerics.Complex>.Build.Dense([.. mode.Shape]);
        var arms = linear.DamperArms.Select(arm => arm.ToComplex() * shape).ToArray();
        var rate = mode.Eigenvalue;
        var fastest = arms.Max(x => (x * rate).Magnitude);
        if (fastest < 1e-9)
            return null;

        // Re(λ a) = 0 puts the extreme of the coordinate at time 0.
        var own = mode.Shape[(int)mode.Name] * rate;
        var amplitude = velocity / fastest * new System.Numerics.Complex(0, 1) / (own / own.Magnitude);
        if ((amplitude * mode.Shape[(int)mode.Name]).Real < 0)
            amplitude = -amplitude;
        var state = new double[HalfCarState.Most];
        for (var i = 0; i < HalfCarState.Rates; i++)
        {
            state[i] = (amplitude * mode.Shape[i]).Real;
            state[HalfCarState.Rates + i] = (amplitude * rate * mode.Shape[i]).Real;
        }

        // Damper and mount carry the same force: s = km x/(km + λ c).
        for (var side = 0; linear.HasTopMounts && side < arms.Length; side++)
            state[HalfCarState.LeftStroke + side] = (amplitude * arms[side] * linear.MountStiffness[side] / (linear.MountStiffness[side] + (rate * coefficients[side]))).Real;
        return state;
    }

    /// <summary>Root mean square of the left damper's velocity over a span, times √2.</summary>
    private static double MeanAmplitude(HalfCarEquations equations, Trajectory trajectory, double span)
    {
        var state = new double[equations.Dimension];
        var channels = new double[ChannelTable.Count];
        var sum = 0.0;
        for (var i = 0; i < SamplesPerCycle; i++)
        {
            var time = span * (i + 0.5) / SamplesPerCycle;
            trajectory.StateAt(time, state);
            equations.WriteChannels(time, state, channels);
            sum += channels[(int)Channel.DamperVelocityLeft] * channels[(int)Channel.DamperVelocityLeft];
        }

        return Math.Sqrt(2 * sum / SamplesPerCycle);
    }

    /// <summary>The first extremes of a motion, the release itself included.</summary>
    private static List<double> Extrema(Func<double, double> motion, Func<double, double> rate, double span)
    {
        var extrema = new List<double> { motion(0) };
        double Middle(int sample) => span * (sample + 0.5) / Samples;
        var before = rate(Middle(0));
        for (var sample = 1; sample < Samples && extrema.Count < 3; sample++)
        {
            var now = rate(Middle(sample));
            if (before * now < 0)
                extrema.Add(motion(DenseSearch.Crossing(rate, Middle(sample - 1), Middle(sample))));
            before = now;
        }

        return extrema;
    }

    /// <summary>
    /// Fits <c>exp(−σt) (A cos ωt + B sin ωt + C)</c>. Unequal compression and rebound push the mean aside in proportion to the
    /// amplitude; C takes that. Null if no oscillation near the linear frequency was found.
    /// </summary>
    private static DecayFit? Fit(Func<double, double> motion, double span, Mode linear)
    {
        var times = DenseVector.Create(Samples, i => span * i / Samples);
        var scale = Math.Abs(motion(0));
        var values = DenseVector.Create(Samples, i => motion(times[i]) / scale);

        // Frequency and decay count from the linear ones, so that all parameters are of the order of one.
        var (sigma, omega) = (-linear.Eigenvalue.Real, linear.Eigenvalue.Imaginary);
        var model = ObjectiveFunction.NonlinearModel(
            (p, t) => t.Map(time => Math.Exp(-((p[0] * omega) + sigma) * time) * ((p[2] * Math.Cos(p[1] * omega * time)) + (p[3] * Math.Sin(p[1] * omega * time)) + p[4])),
            times,
            values);
        var fit = new LevenbergMarquardtMinimizer(maximumIterations: MaximumIterations)
            .FindMinimum(model, DenseVector.OfArray([1e-3, 1, Math.Sign(values[0]), 1e-3, 1e-3]));
        if (fit.ReasonForExit == ExitCondition.ExceedIterations || !(Math.Abs(Math.Log(fit.MinimizingPoint[1])) < Math.Log(LargestFrequencyRatio)))
            return null;
        var found = new System.Numerics.Complex((fit.MinimizingPoint[0] * omega) + sigma, fit.MinimizingPoint[1] * omega);
        var residual = (fit.MinimizedValues - values).L2Norm() / Math.Sqrt(Samples);
        return new DecayFit(found.Real / found.Magnitude, found.Magnitude / (2 * Math.PI), residual);
    }

    /// <summary>What one release shows: the decrement over half a cycle, null without a full cycle; the fit, if it found the mode.</summary>
    private sealed record Decay(double? Decrement, DecayFit? Fit, double MeanVelocity, bool LeftLinearRange);

    /// <summary>Damping ratio, natural frequency, Hz, and what is left over the amplitude at release.</summary>
    private sealed record DecayFit(double Ratio, double Frequency, double Residual);

    /// <summary>Notes whether a stop was touched or a tyre lifted at any step.</summary>
    private sealed class LimitWatch(HalfCarEquations equations) : IStepObserver
    {
        private static readonly Channel[] Stops = [Channel.BumpStopForceLeft, Channel.BumpStopForceRight, Channel.ReboundStopForceLeft, Channel.ReboundStopForceRight];
        private static readonly Channel[] Contacts = [Channel.TyreContactLeftOuter, Channel.TyreContactLeftInner, Channel.TyreContactRightInner, Channel.TyreContactRightOuter];

        private readonly double[] _state = new double[equations.Dimension];
        private readonly double[] _channels = new double[ChannelTable.Count];

        public bool Left { get; private set; }

        public void Observe(IDenseStep step)
        {
            step.StateAt(step.End, _state);
            equations.WriteChannels(step.End, _state, _channels);
            Left |= Array.Exists(Stops, stop => _channels[(int)stop] != 0) || Array.Exists(Contacts, contact => _channels[(int)contact] < 0);
        }
    }
}
