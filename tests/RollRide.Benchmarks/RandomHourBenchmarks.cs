using BenchmarkDotNet.Attributes;
using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;

namespace RollRide.Benchmarks;

/// <summary>
/// One hour of a class C road at 80 km/h: the steps alone, and with all figures of the run and of the ride. Run it with
/// <c>dotnet run -c Release --project tests/RollRide.Benchmarks -- --filter *RandomHour*</c>; the errors against a run of the same road at a
/// tight tolerance are printed before the times.
/// </summary>
[MemoryDiagnoser]
[Config(typeof(PatientConfig))]
public class RandomHourBenchmarks
{
    private const double Hour = 3600;

    // Statistics of a long run need no tighter tolerance: see the errors.
    private const double Usual = 1e-4;

    // Dampers between real mount points, so that their ratios change with travel, and with friction: the most work for the equations.
    private static readonly AssembledHalfCar Car = new(
        new HalfCar
        {
            Name = "rescue van",
            Suspension = new LiveAxleSuspension(),
            Track = 1.66,
            RollCentreHeight = 0.5,
            Body = new SprungBody { Mass = 1350, RollInertia = 520, CgHeight = 0.95 },
            Unsprung = new UnsprungMass { Mass = 185, CgHeight = 0.365, AxleRollInertia = 58 },
            Spring = new Spring(new LinearSpring(62e3), new FixedRatioFitting(1, 0.62, 0.83)),
            BumpStop = new TravelStop { Clearance = 0.07, Stiffness = 6.67e6, Exponent = 2, Fitting = new FixedRatioFitting(1, 0.62, 0.83) },
            ReboundStop = new TravelStop { Clearance = 0.09, Stiffness = 20e6, Exponent = 2, Fitting = new FixedRatioFitting(1, 0.62, 0.83) },
            AntiRollBar = 34e3,
            Tyre = new Tyre { Stiffness = 290e3, Damping = 400 },
            SeatOffset = 0.42,
        },
        new DamperLayout
        {
            Name = "outboard",
            Fitting = new LiveAxleMountFitting(new Point3(-0.12, 0.639, 0.3), new Point3(-0.12, 0.6, 0.75), 0.5, 0.83),
            Damper = new Damper("reference", ForceVelocityCurve.FromPoints(
                [-1.2, -0.6, -0.3, -0.15, -0.05, 0, 0.05, 0.15, 0.3, 0.6, 1.2],
                [-3600, -2300, -1600, -1100, -450, 0, 250, 520, 760, 1100, 1750]))
            { Friction = 25 },
        });

    /// <summary>Relative tolerance of the integration.</summary>
    [Params(Usual)]
    public double Tolerance { get; set; }

    /// <summary>The integration alone.</summary>
    [Benchmark(Baseline = true)]
    public RunStatistics StepsOnly() => new Simulation(Car, Manoeuvre(Hour), Solver(Tolerance)).Run([]);

    /// <summary>With all figures, as a command takes them.</summary>
    [Benchmark]
    public RideMetrics? WithMetrics() => Run(Hour, Tolerance).Ride;

    /// <summary>Times one hour with all figures at once, without the harness.</summary>
    internal static RideMetrics RunHour() => Run(Hour, Usual).Ride;

    /// <summary>Errors of the figures of ten minutes against a run over the same road at a tight tolerance.</summary>
    internal static void WriteErrors(TextWriter output)
    {
        var (run, ride) = Run(Hour / 6, Usual);
        var (exactRun, exactRide) = Run(Hour / 6, 1e-9);
        (string Name, double Value, double Exact)[] figures =
        [
            ("weighted acceleration at the seat", ride.WorstSeat.Vertical.Rms, exactRide.WorstSeat.Vertical.Rms),
            ("maximum transient vibration at the seat", ride.WorstSeat.Vertical.MaximumTransient, exactRide.WorstSeat.Vertical.MaximumTransient),
            ("dynamic load coefficient", ride.DynamicLoadCoefficient, exactRide.DynamicLoadCoefficient),
            ("load exceeded 99 % of the time", ride.Loads[0].ExceededMostOfTheTime, exactRide.Loads[0].ExceededMostOfTheTime),
            ("energy of the dampers", run.Whole.DamperEnergy, exactRun.Whole.DamperEnergy),
            ("largest body acceleration", run.Whole.BodyAccelerationPeak, exactRun.Whole.BodyAccelerationPeak),
        ];
        output.WriteLine(FormattableString.Invariant($"random road, relative tolerance {Usual:E0}: figure, value, relative error"));
        foreach (var (name, value, exact) in figures)
            output.WriteLine(FormattableString.Invariant($"{name}, {value:G6}, {Math.Abs(value / exact - 1):E1}"));
    }

    private static (RunMetrics Run, RideMetrics Ride) Run(double duration, double tolerance)
    {
        var run = new MeasuredRun(Car, Manoeuvre(duration), Solver(tolerance)).Make();
        return (run.Metrics, run.Ride!);
    }

    private static IntegratorOptions Solver(double tolerance) =>
        new() { RelativeTolerance = tolerance, AbsoluteTolerance = 1e-2 * tolerance, MaximumSteps = long.MaxValue };

    private static Manoeuvre Manoeuvre(double duration) => new()
    {
        Road = Road.Flat(80 / 3.6) with
        {
            Unevenness = new RandomRoad
            {
                Spectrum = RoughnessSpectrum.Of(RoadClass.C),
                Coherence = TrackCoherence.Isotropic(1.66),
                ContactLength = 0.11,
                Seed = 1,
            },
        },
        Cornering = GivenLateralAcceleration.StraightAhead,
        Duration = duration,
        Phases = [new Phase("rough road", 5, duration)],
    };
}
