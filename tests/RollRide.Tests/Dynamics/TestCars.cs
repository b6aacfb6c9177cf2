using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;

namespace RollRide.Tests.Dynamics;

/// <summary>The vehicles of the tests; all are invented.</summary>
internal static class TestCars
{
    /// <summary>Gravity of the textbook examples, m/s².</summary>
    public const double TextbookGravity = 9.81;

    /// <summary>So stiff, N/m, that tyres change a result by parts in 1e5 at most.</summary>
    public const double RigidTyre = 1e10;

    /// <summary>Half the track of <see cref="LiveAxle"/>, m.</summary>
    public const double HalfTrack = 0.75;

    /// <summary>Axle A, which is also axle D: ms, Iφ, mu, Iu = 1000, 450, 180, 60; h, hrc, hu = 0.50, 0.30, 0.32 m.</summary>
    public static HalfCar LiveAxle { get; } = new()
    {
        Name = "live axle",
        Suspension = new LiveAxleSuspension(),
        Track = 2 * HalfTrack,
        RollCentreHeight = 0.30,
        Body = new SprungBody { Mass = 1000, RollInertia = 450 - (1000 * 0.5 * 0.5), CgHeight = 0.80 },
        Unsprung = new UnsprungMass { Mass = 180, CgHeight = 0.32, AxleRollInertia = 60 - (180 * 0.02 * 0.02) },
        Spring = new Spring(new LinearSpring(35e3), Ratio(1, 0.50 / HalfTrack)),
        AntiRollBar = 10e3,
        Tyre = new Tyre { Stiffness = 220e3 },
        Gravity = TextbookGravity,
    };

    /// <summary>The live axle with everything that makes it nonlinear: stops, tyre damping, mounts inclined in space.</summary>
    public static HalfCar Full { get; } = LiveAxle with
    {
        BumpStop = new TravelStop { Clearance = 0.05, Stiffness = 3e6, Exponent = 2, Fitting = Ratio(1, 0.6) },
        ReboundStop = new TravelStop { Clearance = 0.06, Stiffness = 2e5, Exponent = 1.5, Fitting = Ratio(0.9, 0.6) },
        Tyre = new Tyre { Stiffness = 220e3, Damping = 300 },
        SeatOffset = 0.4,
    };

    /// <summary>Independent wheels of the same size.</summary>
    public static HalfCar Independent { get; } = LiveAxle with
    {
        Suspension = new IndependentSuspension(),
        Unsprung = new UnsprungMass { Mass = 90, CgHeight = 0.32 },
        Spring = new Spring(new LinearSpring(50e3), Ratio(0.7, 0.7)),
    };

    /// <summary>A damper inclined in all three directions.</summary>
    public static LiveAxleMountFitting InclinedMounts { get; } =
        new(new Point3(-0.1, 0.6, 0.25), new Point3(-0.05, 0.45, 0.7), 0.30, HalfTrack);

    /// <summary>A digressive damper, stiffer in rebound, with friction and gas.</summary>
    public static Damper RealDamper { get; } =
        new("digressive", ForceVelocityCurve.FromPoints([-1, -0.3, -0.1, 0, 0.1, 0.3, 1], [-3200, -1700, -1000, 0, 400, 700, 1300]))
        {
            Friction = 40,
            GasForce = 150,
        };

    /// <summary>Gas of a thick rod, so that its rate is felt: 25 bar, 0.12 l, 22 mm in a piston of 46 mm.</summary>
    public static GasChamber Gas { get; } = new(25e5, 0.12e-3, Math.PI / 4 * 0.022 * 0.022) { PistonRingArea = Math.PI / 4 * ((0.046 * 0.046) - (0.022 * 0.022)) };

    /// <summary>The spring of axle A with the friction of leaves.</summary>
    public static Spring LeafSpring { get; } = LiveAxle.Spring with { Friction = new SpringFriction(600, 0.004) };

    public static FixedRatioFitting Ratio(double heave, double roll) => new(heave, roll, HalfTrack);

    public static Damper LinearDamper(double coefficient) => new("linear", ForceVelocityCurve.Linear(coefficient));

    public static DamperLayout Layout(IFitting fitting, Damper damper) => new() { Name = "layout", Fitting = fitting, Damper = damper };

    /// <summary>The damper of axle A, 2500 N·s/m at 0.45 m, unless told otherwise.</summary>
    public static DamperLayout LinearLayout(double coefficient = 2500, double heave = 1, double roll = 0.45 / HalfTrack) =>
        Layout(Ratio(heave, roll), LinearDamper(coefficient));

    /// <summary>Every kind of fitting, with and without what else a damper may have.</summary>
    public static IEnumerable<(string Name, AssembledHalfCar Car)> AllFittings()
    {
        var mounted = RealDamper with { TopMountStiffness = 4e5 };
        var arm = new ArmMountFitting(new(0.3, 0.25), new(0.7, 0.22), new(0.55, 0.26), new(0.5, 0.7), HalfTrack);
        var progressive = PiecewiseLinear.Through([0, 0.05, 0.12, 0.25], [0, 1200, 3500, 11000]);
        var change = PiecewiseLinear.Through([-0.1, 0, 0.04, 0.1], [-3000, 0, 1400, 5000]);
        yield return ("ratios", new(LiveAxle, LinearLayout()));
        yield return ("mounts, gas, friction, stops", new(Full, Layout(InclinedMounts, RealDamper)));
        yield return ("top mount", new(Full, Layout(InclinedMounts, mounted)));
        yield return ("spring table from free length", new(Full with { Spring = new Spring(new FreeLengthSpringTable(progressive), InclinedMounts) }, Layout(InclinedMounts, RealDamper)));
        yield return ("spring table from ride height", new(Full with { Spring = new Spring(new RideHeightSpringTable(change), Ratio(1, 0.6)) }, Layout(InclinedMounts, mounted)));
        yield return ("gas chamber", new(Full, Layout(InclinedMounts, RealDamper with { Gas = Gas })));
        yield return ("spring friction", new(Full with { Spring = LeafSpring }, Layout(InclinedMounts, RealDamper)));
        yield return ("spring friction, gas chamber, top mount", new(Full with { Spring = LeafSpring }, Layout(InclinedMounts, mounted with { Gas = Gas })));
        yield return ("arm", new(Independent, Layout(arm, RealDamper)));
        yield return ("duals", new(Full with { Tyre = new Tyre { Stiffness = 110e3, Damping = 150, DualSpacing = 0.3 } }, Layout(InclinedMounts, RealDamper)));
    }

    public static AssembledHalfCar Find(string name) => AllFittings().Single(entry => entry.Name == name).Car;

    public static TheoryData<string> FittingNames => [.. AllFittings().Select(entry => entry.Name)];

    public static GivenLateralAcceleration Steady(double ay) =>
        new(new PiecewiseSignal(new SignalPiece(double.NegativeInfinity, double.PositiveInfinity, new ConstantShape(ay))));

    /// <summary>Equations on a flat road under a steady lateral acceleration, ready for use.</summary>
    public static HalfCarEquations Equations(AssembledHalfCar car, double ay = 0)
    {
        var equations = new HalfCarEquations(car, Road.Flat(20), Steady(ay));
        equations.EnterSegment(0, 1);
        return equations;
    }

    /// <summary>All channels where the car stands under a lateral acceleration.</summary>
    public static double[] ChannelsAt(AssembledHalfCar car, StaticEquilibrium stand)
    {
        var channels = new double[ChannelTable.Count];
        Equations(car, stand.LateralAcceleration).WriteChannels(0.5, stand.ToState(car), channels);
        return channels;
    }

    /// <summary>The loads of all tyres, one number per contact of <see cref="HalfCar.ContactPositions"/>, N.</summary>
    public static double[] TyreLoads(HalfCar car, ReadOnlySpan<double> channels)
    {
        var first = (int)Channel.TyreLoadLeftOuter;
        return car.Tyre.DualSpacing is null
            ? [channels[(int)Channel.TyreLoadLeft], channels[(int)Channel.TyreLoadRight]]
            : channels.Slice(first, 4).ToArray();
    }

    public static double Of(this ReadOnlySpan<double> channels, Channel channel) => channels[(int)channel];

    public static double Of(this double[] channels, Channel channel) => channels[(int)channel];

    /// <summary>A bump under one side, then a turn with a short ramp.</summary>
    public static Manoeuvre BumpThenTurn(RoadSide side, double height, double ay, double duration = 3) => new()
    {
        Road = Road.Flat(15).With(RoadEvents.HaversineBump(3, 2.5, height), side),
        Cornering = new GivenLateralAcceleration(CorneringEvents.Ramp(1.2, 0.2, ay)),
        Duration = duration,
        Phases = [new Phase("bump", 0.2, 1.2), new Phase("corner", 1.2, duration)],
    };

    /// <summary>A run on a flat road straight ahead.</summary>
    public static Manoeuvre Free(double duration) =>
        new() { Road = Road.Flat(20), Cornering = GivenLateralAcceleration.StraightAhead, Duration = duration };

    /// <summary>The continuous solution of a run.</summary>
    public static Trajectory Solve(AssembledHalfCar car, Manoeuvre manoeuvre, double tolerance, double[]? initialState = null)
    {
        var trajectory = new Trajectory();
        Run(new Simulation(car, manoeuvre, Tolerance(tolerance)), initialState, trajectory);
        return trajectory;
    }

    /// <summary>The figures of a run.</summary>
    public static RunMetrics Measure(AssembledHalfCar car, Manoeuvre manoeuvre, double tolerance) =>
        new MeasuredRun(car, manoeuvre, Tolerance(tolerance)).Make(TestContext.Current.CancellationToken).Metrics;

    /// <summary>The figures of a run that starts from a given state.</summary>
    public static RunMetrics Measure(AssembledHalfCar car, Manoeuvre manoeuvre, double tolerance, double[] initialState)
    {
        var equations = new HalfCarEquations(car, manoeuvre.Road, manoeuvre.Cornering);
        var figures = new LaneFigures<OneLane>(equations.System, equations, car);
        var gathered = new RunFigures(new MeasuredRun(car, manoeuvre, Tolerance(tolerance)));
        var run = new StartedRun(car, manoeuvre, Tolerance(tolerance), initialState, figures, gathered);
        var integrator = new LaneIntegrator<OneLane>(equations.System, new RolloverGuard<OneLane>(equations.System, figures));
        figures.Watch(integrator.Method);
        var waiting = new Queue<LaneRun>([run]);
        integrator.Run(() => waiting.TryDequeue(out var next) ? next : null, TestContext.Current.CancellationToken);
        Assert.Null(run.Failure);
        return gathered.ToMetrics(null);
    }

    private sealed class StartedRun(
        AssembledHalfCar car, Manoeuvre manoeuvre, IntegratorOptions options, double[] initialState, LaneFigures<OneLane> figures, RunFigures gathered)
        : HalfCarRun(car, manoeuvre, options)
    {
        public Exception? Failure { get; private set; }

        public override double[] Load(int lane)
        {
            figures.Enter(lane, gathered);
            return initialState;
        }

        public override void Complete(int lane, ReadOnlySpan<double> state, RunStatistics statistics) => figures.Leave(lane);

        public override void Fail(int lane, Exception failure) => Failure = failure;
    }

    /// <summary>The sampled channels of a run.</summary>
    public static TimeHistory Record(AssembledHalfCar car, Manoeuvre manoeuvre, double tolerance, double rate, double[]? initialState = null)
    {
        var simulation = new Simulation(car, manoeuvre, Tolerance(tolerance));
        var history = new TimeHistoryRecorder(simulation.Equations, manoeuvre.Duration, rate);
        Run(simulation, initialState, history);
        return history.ToHistory();
    }

    public static RunStatistics Run(Simulation simulation, double[]? initialState, params IReadOnlyList<IStepObserver> observers) =>
        simulation.Run(observers, initialState, TestContext.Current.CancellationToken);

    public static IntegratorOptions Tolerance(double relative) =>
        new() { RelativeTolerance = relative, AbsoluteTolerance = 0.01 * relative };
}
