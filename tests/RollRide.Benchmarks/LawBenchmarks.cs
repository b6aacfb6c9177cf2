using System.Diagnostics;
using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Engines;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Benchmarks;

/// <summary>
/// What each element's law alone takes of a right-hand side, left and right together, and what all of it takes. Time a right-hand side and lane.
/// Tyres have no law apart from the equations: a pair of them is what dual tyres take more than single ones.
/// </summary>
/// <remarks><code>dotnet run -c Release --project tests/RollRide.Benchmarks -- --filter "*Law*" --job short</code>, or <see cref="Write"/> with <code>-- laws</code></remarks>
[Config(typeof(PatientBuild))]
public class LawBenchmarks
{
    private const int Evaluations = 512;

    private readonly Consumer _consumer = new();
    private Func<double> _evaluate = () => 0;

    /// <summary>The element, or all of them.</summary>
    [ParamsSource(nameof(Laws))]
    public string Law { get; set; } = "";

    /// <summary>The names of what is measured.</summary>
    public static IEnumerable<string> Laws => Elements<OneLane>.All.Keys;

    /// <summary>Prepares the law in lanes of each width.</summary>
    [GlobalSetup(Target = nameof(OneLane))]
    public void SetUpOne() => _evaluate = Elements<OneLane>.All[Law]();

    /// <inheritdoc cref="SetUpOne"/>
    [GlobalSetup(Target = nameof(FourLanes))]
    public void SetUpFour() => _evaluate = Elements<FourLanes>.All[Law]();

    /// <inheritdoc cref="SetUpOne"/>
    [GlobalSetup(Target = nameof(EightLanes))]
    public void SetUpEight() => _evaluate = Elements<EightLanes>.All[Law]();

    /// <summary>One number.</summary>
    [Benchmark(OperationsPerInvoke = Evaluations)]
    public void OneLane() => _consumer.Consume(_evaluate());

    /// <summary>Four side by side.</summary>
    [Benchmark(OperationsPerInvoke = 4 * Evaluations)]
    public void FourLanes() => _consumer.Consume(_evaluate());

    /// <summary>Eight side by side.</summary>
    [Benchmark(OperationsPerInvoke = 8 * Evaluations)]
    public void EightLanes() => _consumer.Consume(_evaluate());

    /// <summary>Prints the least time of each law in lanes of each width, in half a minute and beside other work too; then all of a right-hand side over the sum of its parts.</summary>
    /// <param name="output">Receives a line for each law: nanoseconds a right-hand side and lane.</param>
    public static void Write(TextWriter output)
    {
        output.WriteLine("law, ns in one lane, ns a lane in four, ns a lane in eight");
        var times = Laws.ToDictionary(law => law, law => (double[])[Least<OneLane>(law), Least<FourLanes>(law), Least<EightLanes>(law)]);
        foreach (var (law, lanes) in times)
            output.WriteLine(FormattableString.Invariant($"{law}, {lanes[0]:F1}, {lanes[1]:F1}, {lanes[2]:F1}"));
        foreach (var (all, damperFitting, damper) in ((string, string, string)[])[("all: given", "fitting: ratio", "damper: 8 lines"), ("all: mounts", "fitting: axle mounts", "damper: 8 lines, friction")])
        {
            double[] sum = [.. Enumerable.Range(0, 3).Select(width =>
                (3 * times["fitting: ratio"][width]) + times[damperFitting][width] + times["spring: linear"][width] + times[damper][width]
                + (2 * times["stop: free"][width]) + times["all: given, dual tyres"][width] - times["all: given"][width])];
            output.WriteLine(FormattableString.Invariant(
                $"{all} over the sum of fittings, spring, damper, stops and tyres: {times[all][0] / sum[0]:F2}, {times[all][1] / sum[1]:F2}, {times[all][2] / sum[2]:F2}"));
        }
    }

    private static double Least<T>(string law)
        where T : struct, ILanes<T>
    {
        const int Batches = 40, Calls = 20;
        var (evaluate, least, clock) = (Elements<T>.All[law](), double.PositiveInfinity, Stopwatch.StartNew());
        while (clock.ElapsedMilliseconds < 150)
            evaluate();
        for (var batch = 0; batch < Batches; batch++)
        {
            clock.Restart();
            for (var call = 0; call < Calls; call++)
                evaluate();
            least = Math.Min(least, clock.Elapsed.TotalNanoseconds);
        }

        return least / (Calls * Evaluations * T.Count);
    }

    /// <summary>The elements in lanes of one kind: each makes a function that evaluates its law for both sides, again and again.</summary>
    private static class Elements<T>
        where T : struct, ILanes<T>
    {
        private const double HalfTrack = 0.78;

        private static readonly StrutSuspension Strut = new(new(0.35, 0.22), new(0.72, 0.19), new(0.64, 0.27), new(0.57, 0.82), 0.31, HalfTrack);
        private static readonly DoubleWishbone Wishbones = new(new(0.36, 0.21), new(0.71, 0.18), new(0.43, 0.46), new(0.67, 0.49), 0.31, HalfTrack);
        private static readonly TrailingArm Arm = new(new(0.32, 0.25, 0.28), new(0.47, 0.65, 0.31), 0.31, HalfTrack);

        // States move from one evaluation to the next, so that nothing can be worked out once for all.
        private static readonly T[] Moves = [.. Enumerable.Range(0, Evaluations).Select(i => T.All(Math.Sin(0.1 * i)))];

        public static IReadOnlyDictionary<string, Func<Func<double>>> All { get; } = new Dictionary<string, Func<Func<double>>>
        {
            ["fitting: ratio"] = () => Fitting(new FixedRatioFitting(1, 0.64, HalfTrack)),
            ["fitting: axle mounts"] = () => Fitting(ReferenceCase.Mounts.Layout.Fitting),
            ["fitting: arm"] = () => Fitting(new ArmMountFitting(new(0.3, 0.25), new(0.7, 0.22), new(0.6, 0.26), new(0.5, 0.7), HalfTrack)),
            ["fitting: strut"] = () => Fitting(new LinkageMountFitting(Strut, LinkagePart.Upright, new(0, 0.64, 0.27), new(0, 0.57, 0.82))),
            ["fitting: wishbones"] = () => Fitting(new LinkageMountFitting(Wishbones, LinkagePart.LowerArm, new(0, 0.60, 0.20), new(0.05, 0.52, 0.70))),
            ["fitting: trailing arm"] = () => Fitting(new LinkageMountFitting(Arm, LinkagePart.TrailingArm, new(-0.08, 0.68, 0.25), new(0.02, 0.60, 0.72))),
            ["spring: linear"] = () => Spring(new LinearSpring(52e3)),
            ["spring: 4 lines"] = () => Spring(new RideHeightSpringTable(PiecewiseLinear.Through([-0.1, -0.03, 0, 0.04, 0.1], [-4000, -1300, 0, 1400, 6000]))),
            ["spring: 40 lines"] = () => Spring(new RideHeightSpringTable(PiecewiseLinear.Through(
                [.. Enumerable.Range(-20, 41).Select(i => 0.006 * i)], [.. Enumerable.Range(-20, 41).Select(i => (240.0 * i) + (0.3 * i * i * i))]))),
            ["damper: linear"] = () => Damper(new Damper("linear", ForceVelocityCurve.Linear(2500))),
            ["damper: 8 lines"] = () => Damper(ReferenceCase.Given.Layout.Damper),
            ["damper: 8 lines, friction"] = () => Damper(ReferenceCase.Mounts.Layout.Damper),
            ["damper: 30 lines"] = () => Damper(new Damper("long", ForceVelocityCurve.FromPoints(
                [.. Enumerable.Range(-15, 31).Select(i => 0.1 * i)], [.. Enumerable.Range(-15, 31).Select(i => 2000 * Math.CopySign(Math.Pow(Math.Abs(i) / 15.0, 0.6), i))]))),
            ["damper: cubics"] = () => Damper(new Damper("cubic", ForceVelocityCurve.FromPoints(
                [-1.4, -0.3, -0.1, 0, 0.1, 0.3, 1.4], [-4100, -1700, -800, 0, 330, 750, 1950], CurveInterpolation.MonotoneCubic))),
            ["damper: in top mount"] = () => InTopMount(ReferenceCase.Mounts.Layout.Damper with { TopMountStiffness = 4e5 }),
            ["stop: free"] = () => Stop(2, 1),
            ["stop: linear"] = () => Stop(1, -1),
            ["stop: quadratic"] = () => Stop(2, -1),
            ["stop: power 1.5"] = () => Stop(1.5, -1),
            ["all: given"] = () => RightHandSide(ReferenceCase.Given),
            ["all: mounts"] = () => RightHandSide(ReferenceCase.Mounts),
            ["all: mounts, gas"] = () => RightHandSide(ReferenceCase.Car("gas")),
            ["all: mounts, spring friction"] = () => RightHandSide(ReferenceCase.Car("spring friction")),
            ["all: mounts, worn damper"] = () => RightHandSide(ReferenceCase.Car("worn damper")),
            ["all: given, dual tyres"] = () => RightHandSide(WithDuals(ReferenceCase.Given)),
        };

        private static Func<double> Fitting(IFitting fitting)
        {
            var law = FittingLaw<T>.Of(fitting);
            for (var lane = 0; lane < T.Count; lane++)
                law.Load(lane, fitting);
            var position = new RelativePosition<T>();
            return () =>
            {
                var sum = default(T);
                foreach (var move in Moves)
                {
                    (position.Heave, position.Roll) = (T.All(0.05) * move, T.All(0.03) * move);
                    if (law.TurnsMounts)
                        LaneMath.SinCos(position.Roll, out position.SinRoll, out position.CosRoll);
                    law.AtBoth(position, out var left, out var right);
                    sum += left.Compression + right.RollArm;
                }

                return LaneMath.Get(sum, 0);
            };
        }

        private static Func<double> Spring(SpringCharacteristic characteristic)
        {
            var force = characteristic.AtRideHeight(5600);
            var law = new CurveLaw<T>(CurveForm.Of(force.Pieces));
            for (var lane = 0; lane < T.Count; lane++)
                law.Load(lane, force.Pieces, force);
            return () => Sum(0.05, (in T x, out T left, out T right) =>
            {
                law.At(x, out left);
                law.At(-x, out right);
            });
        }

        private static Func<double> Damper(Damper damper)
        {
            var law = Loaded(damper);
            return () => Sum(1, (in T x, out T left, out T right) => DamperLaw<T>.Force(law, law, x, -x, out left, out right));
        }

        private static Func<double> InTopMount(Damper damper)
        {
            var law = Loaded(damper);
            return () => Sum(1500, (in T x, out T left, out T right) =>
            {
                law.VelocityAt(x, out left);
                law.VelocityAt(-x, out right);
            });
        }

        private static DamperLaw<T> Loaded(Damper damper)
        {
            var law = new DamperLaw<T>(DamperForm.Of(damper));
            for (var lane = 0; lane < T.Count; lane++)
                law.Load(lane, damper);
            return law;
        }

        private static Func<double> Stop(double exponent, double clearance)
        {
            var stop = new TravelStop { Clearance = clearance, Stiffness = 1e5, Exponent = exponent, Fitting = new FixedRatioFitting(1, 1, HalfTrack) };
            var law = new StopLaw<T>(stop.Form);
            for (var lane = 0; lane < T.Count; lane++)
                law.Load(lane, stop);
            return () => Sum(0.05, (in T x, out T left, out T right) =>
            {
                law.Force(x, out left);
                law.Force(-x, out right);
            });
        }

        private static Func<double> RightHandSide(AssembledHalfCar car)
        {
            var equations = new HalfCarEquations<T>(car);
            for (var lane = 0; lane < T.Count; lane++)
            {
                equations.Load(lane, car);
                equations.Hold(lane, 0.01, 0, 1);
            }

            var (state, derivative) = (new LaneBuffer<T>(equations.Dimension), new LaneBuffer<T>(equations.Dimension));
            return () =>
            {
                var sum = default(T);
                foreach (var move in Moves)
                {
                    for (var i = 0; i < HalfCarState.Rates; i++)
                        (state[i], state[HalfCarState.Rates + i]) = (T.All(0.01 * (i + 1)) * move, T.All(0.2) * move);
                    equations.Derivatives(default, state.Elements, derivative.Elements);
                    sum += derivative[HalfCarState.Rates];
                }

                return LaneMath.Get(sum, 0);
            };
        }

        private static AssembledHalfCar WithDuals(AssembledHalfCar car)
        {
            var tyre = car.Vehicle.Tyre;
            return new(car.Vehicle with { Tyre = tyre with { Stiffness = tyre.Stiffness / 2, Damping = tyre.Damping / 2, DualSpacing = 0.3 } }, car.Layout);
        }

        private static double Sum(double amplitude, BothSides law)
        {
            var (sum, size) = (default(T), T.All(amplitude));
            foreach (var move in Moves)
            {
                law(size * move, out var left, out var right);
                sum += left + right;
            }

            return LaneMath.Get(sum, 0);
        }

        private delegate void BothSides(in T x, out T left, out T right);
    }
}
