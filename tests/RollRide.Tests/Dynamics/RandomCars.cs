using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Tests.Cornering;
using RollRide.Tests.Mounting;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

/// <summary>Any car, over any road, through any corner; drawn from the numbers of a generator.</summary>
/// <param name="random">The generator.</param>
internal sealed class RandomCars(Random random)
{
    private const double Wheelbase = 2.5;

    private static readonly RoadClass[] RoadClasses = Enum.GetValues<RoadClass>();

    /// <summary>Which elements a car is made of: cars of one form stand side by side in the lanes.</summary>
    public sealed record Form
    {
        /// <summary>Mount points, a given ratio or a wheel's linkage.</summary>
        public enum Fitting
        {
            /// <summary>A given ratio.</summary>
            Ratio,

            /// <summary>Mount points on a live axle.</summary>
            Mounts,

            /// <summary>On a linkage of an independent wheel.</summary>
            Linkage,
        }

        /// <summary>A table's lines, few or many, or cubics.</summary>
        public enum Curve
        {
            /// <summary>Proportional.</summary>
            Linear,

            /// <summary>Few straight lines.</summary>
            Table,

            /// <summary>More straight lines than are added up.</summary>
            LongTable,

            /// <summary>Cubics.</summary>
            Cubic,
        }

        public Fitting Spring { get; init; }

        public Fitting Damper { get; init; }

        public Curve SpringCurve { get; init; }

        public Curve DamperCurve { get; init; }

        public bool Friction { get; init; }

        public bool TopMount { get; init; }

        public bool Duals { get; init; }

        public double? BumpExponent { get; init; }

        public double? ReboundExponent { get; init; }

        public Fitting StopFitting { get; init; }

        /// <summary>Whether the gas of the dampers changes its force over the stroke.</summary>
        public bool Gas { get; init; }

        /// <summary>Whether the springs have friction.</summary>
        public bool SpringFriction { get; init; }

        /// <summary>Whether the right side has elements of its own.</summary>
        public bool UnlikeSides { get; init; }

        /// <summary>Whether a load stands beside the centre plane.</summary>
        public bool Leans { get; init; }

        /// <summary>Whether there is another axle, with dampers of its own in mounts.</summary>
        public bool Whole { get; init; }

        /// <summary>Those without another axle.</summary>
        public static IReadOnlyList<Form> OfOneAxle => [.. All.Where(form => !form.Whole)];

        /// <summary>Forms in which every element occurs.</summary>
        public static IReadOnlyList<Form> All { get; } =
        [
            new(),
            new() { Damper = Fitting.Mounts, DamperCurve = Curve.Table, Friction = true },
            new() { Damper = Fitting.Mounts, DamperCurve = Curve.Table, Friction = true, TopMount = true, BumpExponent = 1, ReboundExponent = 2 },
            new() { Spring = Fitting.Mounts, SpringCurve = Curve.Table, Damper = Fitting.Mounts, DamperCurve = Curve.Cubic, BumpExponent = 1.5, StopFitting = Fitting.Mounts },
            new() { SpringCurve = Curve.LongTable, DamperCurve = Curve.LongTable, Friction = true, Duals = true, ReboundExponent = 1.5 },
            new() { Spring = Fitting.Linkage, Damper = Fitting.Linkage, DamperCurve = Curve.Table, Friction = true, BumpExponent = 2, ReboundExponent = 1, StopFitting = Fitting.Linkage },
            new() { Spring = Fitting.Linkage, SpringCurve = Curve.Table, Damper = Fitting.Linkage, DamperCurve = Curve.Cubic, TopMount = true },
            new() { Damper = Fitting.Linkage, DamperCurve = Curve.LongTable, Duals = true, BumpExponent = 1 },
            new() { Spring = Fitting.Mounts, DamperCurve = Curve.Linear, Friction = true, Duals = true, TopMount = true, BumpExponent = 2 },
            new() { Damper = Fitting.Mounts, DamperCurve = Curve.LongTable, TopMount = true, Friction = true },
            new() { Damper = Fitting.Mounts, DamperCurve = Curve.Table, Friction = true, BumpExponent = 2, ReboundExponent = 1, UnlikeSides = true },
            new() { Spring = Fitting.Mounts, SpringCurve = Curve.Table, Damper = Fitting.Mounts, DamperCurve = Curve.Table, BumpExponent = 1, Leans = true, Duals = true },
            new() { Spring = Fitting.Linkage, Damper = Fitting.Linkage, DamperCurve = Curve.Table, TopMount = true, UnlikeSides = true, Leans = true },
            new() { Damper = Fitting.Mounts, DamperCurve = Curve.Table, Friction = true, Gas = true },
            new() { Spring = Fitting.Mounts, SpringFriction = true, BumpExponent = 2 },
            new() { Damper = Fitting.Mounts, DamperCurve = Curve.Table, Friction = true, TopMount = true, Duals = true, Gas = true, SpringFriction = true, UnlikeSides = true, Leans = true },
            new() { Damper = Fitting.Mounts, DamperCurve = Curve.Table, Friction = true, BumpExponent = 2, Whole = true },
            new() { Spring = Fitting.Linkage, Damper = Fitting.Linkage, DamperCurve = Curve.Table, TopMount = true, SpringFriction = true, Whole = true },
        ];
    }

    /// <summary>A car of a form, its masses and forces of any size.</summary>
    /// <param name="form">The form.</param>
    /// <param name="scale">Masses and forces over those of a car.</param>
    public AssembledHalfCar Car(Form form, double scale)
    {
        var independent = form.Spring == Form.Fitting.Linkage || form.Damper == Form.Fitting.Linkage;
        var mass = scale * In(900, 1100);
        var (stops, tyre) = (form.StopFitting, scale * In(180e3, 300e3));
        var vehicle = new HalfCar
        {
            Name = "any",
            Suspension = independent ? new IndependentSuspension() : new LiveAxleSuspension(),
            Track = 2 * ReferenceLinkages.HalfTrack,
            RollCentreHeight = In(0, 0.4),
            Body = new SprungBody { Mass = mass, RollInertia = mass * In(0.15, 0.4), CgHeight = In(0.5, 1) },
            Unsprung = new UnsprungMass
            {
                Mass = scale * In(60, 200),
                CgHeight = In(0.28, 0.36),
                AxleRollInertia = independent ? null : scale * In(30, 80),
            },
            Spring = new Spring(Spring(form.SpringCurve, scale), Fitting(form.Spring)),
            AntiRollBar = scale * In(0, 20e3),
            Tyre = new Tyre { Stiffness = form.Duals ? tyre / 2 : tyre, Damping = scale * In(0, 400), DualSpacing = form.Duals ? In(0.2, 0.4) : null },
            BumpStop = form.BumpExponent is { } bump
                ? new TravelStop { Clearance = In(0.005, 0.06), Stiffness = scale * 4e4 * Math.Pow(25, bump), Exponent = bump, Fitting = Fitting(stops) }
                : null,
            ReboundStop = form.ReboundExponent is { } rebound
                ? new TravelStop { Clearance = In(0.005, 0.06), Stiffness = scale * 2e4 * Math.Pow(25, rebound), Exponent = rebound, Fitting = Fitting(stops) }
                : null,
            SeatOffset = In(-0.5, 0.5),
        };
        var damper = new Damper("any", Valves(form.DamperCurve, scale))
        {
            Friction = form.Friction ? scale * In(10, 80) : 0,
            FrictionVelocity = In(0.005, 0.02),
            GasForce = random.Next(2) * scale * In(0, 300),
            TopMountStiffness = form.TopMount ? scale * In(2e5, 6e5) : null,
            Gas = form.Gas ? new GasChamber(In(5e5, 30e5), In(0.2e-3, 0.6e-3), In(1e-4, 4e-4)) { PolytropicIndex = In(1, 1.4), PistonRingArea = In(1e-3, 2e-3) } : null,
        };
        if (form.SpringFriction)
            vehicle = vehicle with { Spring = vehicle.Spring with { Friction = new SpringFriction(scale * In(50, 800), In(0.001, 0.01)) } };
        var layout = Layout(Fitting(form.Damper), damper);
        if (form.UnlikeSides)
        {
            TravelStop? Moved(TravelStop? stop) => stop is null ? null : stop with { Clearance = In(0.005, 0.06), Fitting = Fitting(stops) };
            vehicle = vehicle with { RightSide = new SuspensionSide(new Spring(Spring(form.SpringCurve, scale), Fitting(form.Spring)), Moved(vehicle.BumpStop), Moved(vehicle.ReboundStop)) };
            layout = layout with { RightSide = new DamperSide(Fitting(form.Damper), damper with { Curve = Valves(form.DamperCurve, scale), Friction = form.Friction ? scale * In(10, 80) : 0 }) };
        }

        if (form.Whole)
        {
            var second = Car(new Form { Damper = Form.Fitting.Mounts, DamperCurve = Form.Curve.Table, Friction = true }, scale);
            vehicle = vehicle with
            {
                SecondAxle = new SecondAxle
                {
                    Vehicle = second.Vehicle,
                    Layout = second.Layout,
                    Place = (Axle)random.Next(2),
                    Chassis = new Chassis
                    {
                        Wheelbase = Wheelbase,
                        TorsionalStiffness = random.Next(3) == 0 ? null : scale * In(30e3, 500e3),
                        PitchInertia = random.Next(2) == 0 ? null : mass * In(1, 3),
                    },
                },
                SeatTowardsSecondAxle = random.Next(2) * In(0, 1),
            };
        }

        var level = new AssembledHalfCar(vehicle, layout);
        if (!form.Leans)
            return level;
        var load = new LoadState { Name = "aside", Masses = [new LoadedMass { Mass = scale * In(20, 60), Height = 1, Offset = In(-0.5, 0.5) }] };
        try
        {
            return LoadedHalfCar.Settle(vehicle, layout, load).Car;
        }
        catch (NoRestPositionException)
        {
            // Some of these cars do not stand even level.
            return level;
        }
    }

    /// <summary>Any short manoeuvre: events of every kind or a random road, given or steered cornering, phases.</summary>
    public Manoeuvre Manoeuvre()
    {
        var duration = In(0.25, 0.6);
        var speed = In(5, 30);
        var road = Road.Flat(speed);
        for (var events = random.Next(3); events > 0; events--)
        {
            var side = (RoadSide)random.Next(Enum.GetValues<RoadSide>().Length);
            road = road.With(RoadEvent(In(0, 0.4) * speed * duration, speed), side, side == RoadSide.Both ? In(-0.5, 0.5) : 0);
        }

        if (random.Next(4) == 0)
        {
            road = road with
            {
                Unevenness = new RandomRoad
                {
                    Spectrum = RoughnessSpectrum.Of(RoadClasses[random.Next(RoadClasses.Length)]),
                    Coherence = TrackCoherence.Isotropic(1.5),
                    Seed = random.Next(100),
                    LeadIn = In(0.5, 2),
                    ContactLength = random.Next(2) * 0.1,
                },
            };
        }

        return new Manoeuvre
        {
            Road = road,
            Cornering = Cornering(duration),
            Duration = duration,
            Phases = random.Next(2) == 0 ? [] : [new Phase("early", 0, duration / 2), new Phase("late", duration / 3, duration)],
        };
    }

    /// <summary>A run, of which some fail: the vehicle rolls over, cannot stand, strays out of its linkage's reach, or takes too many steps.</summary>
    public Func<MeasuredRun> Run(Form form, double scale)
    {
        var (car, manoeuvre, options) = (Car(form, scale), Manoeuvre(), new IntegratorOptions
        {
            RelativeTolerance = Math.Pow(10, In(-7, -4)),
            AbsoluteTolerance = Math.Pow(10, In(-9, -6)),
            MaximumSteps = 3000,
        });
        if (form.Whole)
            manoeuvre = manoeuvre with { Road = manoeuvre.Road with { Wheelbase = Wheelbase } };
        switch (random.Next(20))
        {
            case 0:
                manoeuvre = manoeuvre with { Cornering = new GivenLateralAcceleration(CorneringEvents.Ramp(0.01, 0.02, 300)), Duration = 0.8, Phases = [] };
                break;
            case 1:
                manoeuvre = manoeuvre with { Cornering = Steady(30) };
                break;
            case 2 when form.Spring == Form.Fitting.Linkage || form.Damper == Form.Fitting.Linkage:
                manoeuvre = manoeuvre with { Road = manoeuvre.Road.With(RoadEvents.Step(0.1, 1.5, 0.3), RoadSide.Left) };
                break;
            case 3:
                options = options with { MaximumSteps = random.Next(3, 30) };
                break;
            default:
                break;
        }

        var withDistributions = random.Next(2) == 0;

        // A corner by itself is followed for ten seconds, many times as long as these runs.
        var withCorner = random.Next(4) == 0;
        return () => new MeasuredRun(car, manoeuvre, options, withDistributions, withCorner);
    }

    /// <summary>A number in a range.</summary>
    public double In(double low, double high) => low + ((high - low) * random.NextDouble());

    private IFitting Fitting(Form.Fitting kind) => kind switch
    {
        Form.Fitting.Ratio => new FixedRatioFitting(In(0.8, 1), In(0.4, 0.8), ReferenceLinkages.HalfTrack),
        Form.Fitting.Mounts => new LiveAxleMountFitting(
            new Point3(In(-0.2, 0.2), In(0.3, 0.7), In(0.2, 0.35)), new Point3(In(-0.1, 0.1), In(0.3, 0.7), In(0.6, 0.8)), In(0.1, 0.4), ReferenceLinkages.HalfTrack),
        _ when random.Next(3) == 0 => new ArmMountFitting(new(0.3, 0.25), new(0.7, 0.22), new(In(0.5, 0.65), 0.26), new(In(0.45, 0.6), 0.7), ReferenceLinkages.HalfTrack),
        _ => ReferenceLinkages.Fittings[random.Next(ReferenceLinkages.Fittings.Count)],
    };

    private SpringCharacteristic Spring(Form.Curve curve, double scale) => curve switch
    {
        Form.Curve.Linear => new LinearSpring(scale * In(30e3, 60e3)),
        Form.Curve.Table when random.Next(2) == 0 => new RideHeightSpringTable(PiecewiseLinear.Through(
            [-0.1, -0.03, 0, 0.04, 0.1], [scale * -4000, scale * In(-1500, -1000), 0, scale * In(1200, 1600), scale * In(5000, 8000)])),
        Form.Curve.Table => new FreeLengthSpringTable(PiecewiseLinear.Through(
            [0, 0.05, 0.10, 0.35], [0, scale * In(1000, 1400), scale * In(3000, 3500), scale * In(15_000, 20_000)])),
        _ => new RideHeightSpringTable(PiecewiseLinear.Through(
            [.. Enumerable.Range(-20, 41).Select(i => 0.006 * i)], [.. Enumerable.Range(-20, 41).Select(i => scale * ((240 * i) + (0.3 * i * i * i)))])),
    };

    private ForceVelocityCurve Valves(Form.Curve curve, double scale)
    {
        var (bump, rebound) = (scale * In(500, 1500), scale * In(1000, 3000));
        return curve switch
        {
            Form.Curve.Linear => ForceVelocityCurve.Linear(scale * In(1000, 4000)),
            Form.Curve.LongTable => ForceVelocityCurve.FromPoints(
                [.. Enumerable.Range(-15, 31).Select(i => 0.07 * i)], [.. Enumerable.Range(-15, 31).Select(i => (i < 0 ? rebound : bump) * Math.CopySign(Math.Pow(Math.Abs(i) / 15.0, 0.6), i))]),
            _ => ForceVelocityCurve.FromPoints(
                [-1, -0.3, -0.1, 0, 0.1, 0.3, 1],
                [-rebound, -0.55 * rebound, -0.3 * rebound, 0, 0.3 * bump, 0.55 * bump, bump],
                curve == Form.Curve.Cubic ? CurveInterpolation.MonotoneCubic : CurveInterpolation.Linear),
        };
    }

    private PiecewiseSignal RoadEvent(double start, double speed) => random.Next(7) switch
    {
        0 => RoadEvents.HaversineBump(start, In(0.5, 3), In(-0.1, 0.15)),
        1 => RoadEvents.Ramp(start, In(0.5, 3), In(-0.1, 0.1)),
        2 => RoadEvents.Step(start, In(-0.1, 0.12), In(0.05, 0.2)),
        3 => RoadEvents.Pothole(start, In(0.3, 1), In(0.02, 0.08), 0.1),
        4 => RoadEvents.Sine(start, In(0.5, 3), In(0.005, 0.03), 2),
        5 => RoadEvents.SweptSine(start, 2, 12, In(0.002, 0.015), 3, speed),
        _ => RoadEvents.Sampled([start, start + 0.4, start + 1, start + 1.7], [0, In(-0.05, 0.05), In(-0.05, 0.05), In(-0.02, 0.02)]),
    };

    private ICorneringInput Cornering(double duration)
    {
        var (start, ay) = (In(0, 0.5 * duration), In(-6, 6));
        return random.Next(8) switch
        {
            0 or 1 => GivenLateralAcceleration.StraightAhead,
            2 => new GivenLateralAcceleration(CorneringEvents.Ramp(start, 0.1, ay)),
            3 => new GivenLateralAcceleration(CorneringEvents.Sine(start, In(1, 4), ay, 1)),
            4 => new GivenLateralAcceleration(CorneringEvents.SineWithDwell(start, In(3, 6), ay, 0.05)),
            5 => new GivenLateralAcceleration(CorneringEvents.SweptSine(start, 1, 5, ay, 2)),
            6 => new GivenLateralAcceleration(CorneringEvents.Sampled([0, 0.1, 0.3], [In(-1, 1), ay, In(-1, 1)])),
            _ => new SteeredLateralAcceleration(ReferenceVehicles.SmallCar, CorneringEvents.Ramp(start, 0.05, In(-1, 1)), 15, duration),
        };
    }
}
