using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

public sealed class UnlikeSidesTests
{
    private static readonly DamperLayout Real = Layout(InclinedMounts, RealDamper);

    private static readonly LoadState Aside = new() { Name = "crate", Masses = [new LoadedMass { Mass = 180, Height = 1.1, Offset = 0.45, RollInertia = 12 }] };

    /// <summary>A car with another spring, stop, damper and mount on the right.</summary>
    private static readonly (HalfCar Vehicle, DamperLayout Layout) Odd = (
        Full with { RightSide = new SuspensionSide(new Spring(new LinearSpring(41e3), Ratio(0.95, 0.6)), Full.BumpStop! with { Clearance = 0.035 }, Full.ReboundStop) },
        Real with
        {
            RightSide = new DamperSide(
                new LiveAxleMountFitting(new Point3(-0.1, 0.5, 0.25), new Point3(0, 0.45, 0.7), 0.30, HalfTrack),
                RealDamper with { Name = "worn", Curve = RealDamper.Curve.Scaled(0.5), GasForce = 90 }),
        });

    private static Manoeuvre BumpThenCorner(RoadSide side, double ay) => new()
    {
        Road = Road.Flat(10).With(RoadEvents.HaversineBump(2, 1.5, 0.05), side),
        Cornering = new GivenLateralAcceleration(CorneringEvents.Ramp(0.6, 0.3, ay)),
        Duration = 2,
    };

    private static AssembledHalfCar Mirrored(HalfCar vehicle, DamperLayout layout) => new(MirroredOf(vehicle), MirroredOf(layout));

    private static HalfCar MirroredOf(HalfCar vehicle)
    {
        var (left, right) = (vehicle.On(Side.Left), vehicle.On(Side.Right));
        return vehicle with { Spring = right.Spring, BumpStop = right.BumpStop, ReboundStop = right.ReboundStop, RightSide = left };
    }

    private static DamperLayout MirroredOf(DamperLayout layout)
    {
        var (left, right) = (layout.On(Side.Left), layout.On(Side.Right));
        return layout with { Fitting = right.Fitting, Damper = right.Damper, RightSide = left };
    }

    [Fact]
    public void RightSide_ThatIsTheLeftOne_ChangesNothing()
    {
        var twice = new AssembledHalfCar(Full with { RightSide = Full.On(Side.Left) }, Real with { RightSide = Real.On(Side.Left) });
        double[] position = [0.01, 0.03, -0.05, -0.02];
        var (once, other) = (Channels(new AssembledHalfCar(Full, Real), position), Channels(twice, position));

        // The springs' preload is found from two balances instead of one, and differs by rounding.
        Assert.All(once.Zip(other), pair => Assert.Equal(pair.First, pair.Second, 1e-9));
        Assert.True(once[(int)Channel.BumpStopForceRight] != 0 || once[(int)Channel.ReboundStopForceLeft] != 0, "A stop takes part.");
    }

    [Fact]
    public void MirroredCar_InTheMirroredManoeuvre_MovesAsTheMirrorImage()
    {
        var (one, other) = (Run(new AssembledHalfCar(Odd.Vehicle, Odd.Layout), BumpThenCorner(RoadSide.Left, 4)), Run(Mirrored(Odd.Vehicle, Odd.Layout), BumpThenCorner(RoadSide.Right, -4)));
        AssertMirrored(one, other);
    }

    [Fact]
    public void MirroredLoad_InTheMirroredManoeuvre_MovesAsTheMirrorImage()
    {
        var left = LoadedHalfCar.Settle(Odd.Vehicle, Odd.Layout, Aside);
        var right = LoadedHalfCar.Settle(MirroredOf(Odd.Vehicle), MirroredOf(Odd.Layout), Aside with { Masses = [Aside.Masses[0] with { Offset = -0.45 }] });
        Assert.Equal(left.Rest.BodyRoll, -right.Rest.BodyRoll, 1e-14);
        Assert.Equal(left.Rest.Left.TyreLoad, right.Rest.Right.TyreLoad, 1e-9);
        AssertMirrored(Run(left.Car, BumpThenCorner(RoadSide.Left, 4)), Run(right.Car, BumpThenCorner(RoadSide.Right, -4)));
    }

    private static void AssertMirrored(TimeHistory one, TimeHistory other)
    {
        // The static solutions differ by rounding, and the runs by what the solver makes of it.
        void Same(Channel left, Channel right, double sign, double tolerance) =>
            Assert.All(one[left].ToArray().Zip(other[right].ToArray()), pair => Assert.Equal(pair.First, sign * pair.Second, tolerance));
        Same(Channel.BodyHeave, Channel.BodyHeave, 1, 1e-8);
        Same(Channel.BodyRoll, Channel.BodyRoll, -1, 1e-8);
        Same(Channel.DamperForceLeft, Channel.DamperForceRight, 1, 1e-3);
        Same(Channel.TyreLoadLeft, Channel.TyreLoadRight, 1, 1e-3);
        Same(Channel.SpringForceRight, Channel.SpringForceLeft, 1, 1e-3);
        Assert.True(one[Channel.BumpStopForceRight].ToArray().Max() > 0 || one[Channel.BumpStopForceLeft].ToArray().Max() > 0, "A stop takes part.");
    }

    [Fact]
    public void UnlikeMounts_AtTheDesignLoad_StandLevelOnSpringsSetSo()
    {
        var car = new AssembledHalfCar(Odd.Vehicle, Odd.Layout);
        Assert.True(StaticEquilibrium.TryFind(car, 0, out var stand));
        Assert.All(stand.Position, displacement => Assert.Equal(0, displacement, 1e-12));
        Assert.NotEqual(car.Standing.LeftSpring, car.Standing.RightSpring);
        Assert.False(car.Leans);
    }

    [Fact] // One soft damper: with upright dampers over the wheels a motion of the left wheel alone is damped by the left one alone.
    public void UnlikeDampers_AreOuterProductsOfTheirOwnArms()
    {
        var layout = Layout(Ratio(1, 1), new Damper("left", ForceVelocityCurve.Linear(2000))) with { RightSide = new DamperSide(Ratio(1, 1), new Damper("right", ForceVelocityCurve.Linear(500))) };
        var linear = LinearHalfCar.AtRest(new AssembledHalfCar(LiveAxle, layout)).WithShares(layout.SideShares(0.1));
        var damping = linear.Damping(layout.EquivalentCoefficient(0.1));
        const double t = HalfTrack;
        Assert.Equal(1250, layout.EquivalentCoefficient(0.1), 1e-9);
        Assert.Equal(2000 + 500, damping[0, 0], 1e-9);
        Assert.Equal(t * (2000 - 500), damping[0, 1], 1e-9);
        Assert.Equal(t * t * (2000 + 500), damping[1, 1], 1e-9);
    }

    [Fact] // With the mean of both in each place the trace of the damping is the same: a worn damper costs heave and roll, and couples them.
    public void Modes_OfUnlikeDampers_CoupleHeaveAndRoll()
    {
        var worn = Layout(Ratio(1, 0.8), new Damper("new", ForceVelocityCurve.Linear(2000))) with { RightSide = new DamperSide(Ratio(1, 0.8), new Damper("worn", ForceVelocityCurve.Linear(800))) };
        var linear = LinearHalfCar.AtRest(new AssembledHalfCar(LiveAxle, worn));
        var (apart, alike) = (ModeFollower.Solve(linear, worn, 0.13, false), ModeFollower.Solve(linear, 1400));
        Assert.Equal(0, alike.Heave.Participation[HalfCarState.BodyRoll], 1e-12);
        Assert.InRange(apart.Heave.Participation[HalfCarState.BodyRoll], 1e-3, 0.3);
        Assert.Equal(1400, apart.Coefficient, 1e-9);

        // Independently: eigenvalues of the matrix that holds each damper in its place.
        var (m, k) = (linear.Mass, linear.Stiffness);
        var c = linear.OtherDamping.Clone();
        foreach (var (s, force) in new[] { (1, 2000.0), (-1, 800.0) })
        {
            var arm = MathNet.Numerics.LinearAlgebra.Double.DenseVector.OfArray([-1, -s * 0.8 * HalfTrack, 1, s * 0.8 * HalfTrack]);
            c += force * arm.OuterProduct(arm);
        }

        var a = MathNet.Numerics.LinearAlgebra.Double.DenseMatrix.Create(8, 8, 0);
        a.SetSubMatrix(0, 4, MathNet.Numerics.LinearAlgebra.Double.DenseMatrix.CreateIdentity(4));
        a.SetSubMatrix(4, 0, -m.Inverse() * k);
        a.SetSubMatrix(4, 4, -m.Inverse() * c);
        var expected = a.Evd().EigenValues;
        foreach (var mode in apart.All)
            Assert.Contains(expected, value => (value - mode.Eigenvalue).Magnitude < 1e-9 * value.Magnitude);
    }

    [Fact]
    public void Payload_BesideTheCentrePlane_IsOneBodyWithParallelAxes()
    {
        var body = Aside.Of(LiveAxle.Body);
        const double y = 180 * 0.45 / 1180, h = ((1000 * 0.8) + (180 * 1.1)) / 1180;
        Assert.Equal(y, body.CgOffset, 1e-15);
        Assert.Equal(h, body.CgHeight, 1e-15);
        Assert.Equal(
            200 + (1000 * (((0.8 - h) * (0.8 - h)) + (y * y))) + 12 + (180 * (((1.1 - h) * (1.1 - h)) + ((0.45 - y) * (0.45 - y)))), body.RollInertia, 1e-9);
    }

    [Fact] // Linear springs that move as the wheels do, tyres in series: two moments, solved by hand.
    public void Payload_BesideTheCentrePlane_LeansAsTheTwoMomentsSay()
    {
        const double k = 35e3, kt = 220e3, t = HalfTrack, bar = 10e3, m = 1180, g = TextbookGravity;
        var vehicle = LiveAxle with { Spring = new Spring(new LinearSpring(k), Ratio(1, 1)) };
        var rest = LoadedHalfCar.Settle(vehicle, LinearLayout(), Aside).Rest;

        var (zu, q) = (-180 * g / (2 * kt), 180 * g / (2 * k));
        Assert.Equal(zu, rest.UnsprungHeave, 1e-12);
        Assert.Equal(zu - q, rest.BodyHeave, 1e-12);

        // The roll centre stays on the axle: h = (hc + zs) − (hrc + zu).
        var h = Aside.Of(LiveAxle.Body).CgHeight - q - 0.30;
        var weight = m * g * Aside.Of(LiveAxle.Body).CgOffset;
        var (roll, axle) = (0.0, 0.0);
        for (var i = 0; i < 200; i++)
        {
            // M = Kφ r on the body balances its weight; on the axle −2 kt T² φu balances −M.
            var moment = (weight * Math.Cos(roll)) - (m * g * h * Math.Sin(roll));
            axle = -moment / (2 * kt * t * t);
            roll = axle - (moment / ((2 * k * t * t) + bar));
        }

        Assert.Equal(roll, rest.BodyRoll, 1e-12);
        Assert.Equal(axle, rest.UnsprungRoll, 1e-12);
        Assert.True(rest.BodyRoll < 0, "A load on the left leans to the left.");
        var each = (m + 180) * g / 2;
        Assert.Equal(each - (kt * t * axle), rest.Left.TyreLoad, 1e-6);
        Assert.Equal(each + (kt * t * axle), rest.Right.TyreLoad, 1e-6);
    }

    [Fact] // docs/theory.md: the check that does not depend on the springs, with the centre of gravity beside the centre plane.
    public void SteadyTurn_OfALeaningCar_BalancesAllMoments()
    {
        var car = LoadedHalfCar.Settle(Odd.Vehicle, Odd.Layout, Aside).Car;
        foreach (var ay in (double[])[0, 3, -3])
        {
            Assert.True(StaticEquilibrium.TryFind(car, ay, out var stand));
            var channels = new double[ChannelTable.Count];
            var equations = new HalfCarEquations(car, Road.Flat(1), new GivenLateralAcceleration(CorneringEvents.Sampled([0, 1], [ay, ay])));
            equations.EnterSegment(0, 1);
            equations.WriteChannels(0.5, stand.ToState(car), channels);
            var (vehicle, roll) = (car.Vehicle, channels[(int)Channel.BodyRoll]);
            var (left, right) = (channels[(int)Channel.TyreLoadLeft], channels[(int)Channel.TyreLoadRight]);
            var (m, g, body) = (vehicle.Body.Mass, vehicle.Gravity, vehicle.Body);
            Assert.Equal((m + vehicle.Unsprung.Mass) * g, left + right, 1e-6);
            Assert.Equal(
                (((m * body.CgHeight) + (vehicle.Unsprung.Mass * vehicle.Unsprung.CgHeight)) * ay) + (m * g * ((vehicle.RollArm * Math.Sin(roll)) - (body.CgOffset * Math.Cos(roll)))),
                -HalfTrack * (left - right),
                1e-5);
        }
    }

    [Fact] // The same car with the same springs, once drawn level and moving from where it leans, once drawn anew where it leans.
    public void DrawnAnewWhereItLeans_MovesAsTheCarDrawnLevel()
    {
        var setting = DesignSetting.Of(new AssembledHalfCar(Odd.Vehicle, Odd.Layout));
        var rest = LeaningRest.Find(Odd.Vehicle, Odd.Layout, Aside.Of(Odd.Vehicle.Body), setting, reason => throw new InvalidOperationException(reason.ToString(null)));
        var (level, turned) = (rest.Level, rest.Turned(Odd.Layout));
        double[] lean = [0, rest.BodyRoll, 0, rest.UnsprungRoll];
        var options = new IntegratorOptions { RelativeTolerance = 1e-10, AbsoluteTolerance = 1e-11 };
        var manoeuvre = BumpThenCorner(RoadSide.Left, 3);

        // The level drawing holds the inertia of its own coupling, so statics and forces are compared, not motion.
        foreach (var motion in (double[][])[[0.01, 0.02, -0.015, 0.005], [-0.03, -0.01, 0.01, -0.004]])
        {
            var (one, other) = (Channels(level, [.. lean.Zip(motion, (a, b) => a + b)]), Channels(turned, motion));
            foreach (var channel in (Channel[])[Channel.SpringForceLeft, Channel.SpringForceRight, Channel.BumpStopForceLeft, Channel.BumpStopForceRight, Channel.ReboundStopForceLeft, Channel.TyreLoadLeft, Channel.TyreLoadRight])
                Assert.Equal(one[(int)channel], other[(int)channel], 1e-6);
            Assert.Equal(one[(int)Channel.BodyRoll], other[(int)Channel.BodyRoll], 1e-15);
            Assert.Equal(one[(int)Channel.UnsprungAcceleration], other[(int)Channel.UnsprungAcceleration], 1e-8);
            Assert.Equal(one[(int)Channel.UnsprungRollAcceleration], other[(int)Channel.UnsprungRollAcceleration], 1e-8);
        }

        Assert.All(Run(turned, manoeuvre with { Road = Road.Flat(10), Cornering = GivenLateralAcceleration.StraightAhead }, options)[Channel.BodyHeave].ToArray(), heave => Assert.Equal(0, heave, 1e-9));
    }

    [Fact] // Without damping kinetic energy, springs, tyres and weight only pass energy on. T = ½m ż² + m e ż φ̇ + ½J φ̇² + ½mu żu² + ½Iu φ̇u².
    public void LeaningCar_WithoutDamping_KeepsItsEnergy()
    {
        var vehicle = LiveAxle with { RightSide = LiveAxle.On(Side.Left) with { Spring = new Spring(new LinearSpring(44e3), Ratio(1, 0.6)) } };
        var car = LoadedHalfCar.Settle(vehicle, Layout(Ratio(1, 0.5), new Damper("none", ForceVelocityCurve.Linear(0))), Aside).Car;
        var simulation = new Simulation(
            car,
            new Manoeuvre { Road = Road.Flat(10), Cornering = GivenLateralAcceleration.StraightAhead, Duration = 3 },
            new IntegratorOptions { RelativeTolerance = 1e-11, AbsoluteTolerance = 1e-12 });
        var history = new TimeHistoryRecorder(simulation.Equations, 3, 200);
        simulation.Run([history], [0.02, 0.02, 0.005, 0.004, 0, 0, 0, 0], TestContext.Current.CancellationToken);
        var result = history.ToHistory();
        var energies = Enumerable.Range(0, result.Count).Select(i => Energy(car, result, i)).ToArray();
        Assert.True(energies[0] > 10, $"There is energy to keep: {energies[0]} J.");
        Assert.All(energies, energy => Assert.Equal(energies[0], energy, 1e-6 * energies[0]));

        // Heave is not only heave: the offset makes one motion drive the other.
        Assert.True(result[Channel.BodyHeave].ToArray().Max() > 0.005);
    }

    [Fact]
    public void Frequencies_OfALeaningCar_AreThoseOfItsMassAndStiffness()
    {
        var car = LoadedHalfCar.Settle(LiveAxle, Layout(Ratio(1, 0.5), new Damper("none", ForceVelocityCurve.Linear(1))), Aside).Car;
        var (vehicle, linear) = (car.Vehicle, LinearHalfCar.AtRest(car));
        var (h, y, roll) = (vehicle.RollArm, vehicle.Body.CgOffset, car.RestRoll);
        var (e, m) = ((y * Math.Cos(roll)) - (h * Math.Sin(roll)), vehicle.Body.Mass);
        Assert.Equal(m * e, linear.Mass[0, 1], 1e-9);

        // By hand: springs (1, 0.5 m) and bar between body and axle, tyres to the road, weight on the body.
        const double k = 35e3, kt = 220e3, arm = 0.5, t = HalfTrack, bar = 10e3;
        var roller = (2 * k * arm * arm) + bar;
        var hand = MathNet.Numerics.LinearAlgebra.Double.DenseMatrix.OfArray(new[,]
        {
            { 2 * k, 0, -2 * k, 0 },
            { 0, roller - (m * TextbookGravity * ((h * Math.Cos(roll)) + (y * Math.Sin(roll)))), 0, -roller },
            { -2 * k, 0, (2 * k) + (2 * kt), 0 },
            { 0, -roller, 0, roller + (2 * kt * t * t) },
        });
        Assert.True((hand - linear.Stiffness).FrobeniusNorm() < 1e-9 * hand.FrobeniusNorm());
        var squares = (linear.Mass.Inverse() * hand).Evd().EigenValues.Select(value => Math.Sqrt(value.Real) / (2 * Math.PI)).ToArray();
        var modes = ModeFollower.Solve(linear, 0);
        foreach (var mode in modes.All)
            Assert.Contains(squares, frequency => Math.Abs(frequency - mode.NaturalFrequency) < 1e-9);
        Assert.Equal(1, modes.Roll.Participation.Sum(), 1e-12);
        Assert.InRange(modes.Heave.Participation[HalfCarState.BodyRoll], 1e-4, 0.5);
    }

    [Fact] // With a bar that brings both frequencies together the modes are half heave and half roll while hardly damped, and part as the dampers grip.
    public void Names_WhereFrequenciesMeet_AreThoseOfWhatMovesMost()
    {
        var met = false;
        foreach (var bar in Enumerable.Range(0, 60).Select(i => 2e3 * Math.Pow(20, i / 59.0)))
        {
            var linear = LinearHalfCar.AtRest(LoadedHalfCar.Settle(LiveAxle with { AntiRollBar = bar }, Layout(Ratio(1, 0.5), new Damper("linear", ForceVelocityCurve.Linear(1))), Aside).Car);
            foreach (var coefficient in (ReadOnlySpan<double>)[10, 500, 1000, 2000, 3000])
            {
                var modes = ModeFollower.Solve(linear, coefficient);
                Assert.True(modes.Heave.HeaveShare >= modes.Roll.HeaveShare, FormattableString.Invariant($"bar {bar}, coefficient {coefficient}"));
                met |= modes.Heave.HeaveShare < 0.6;
                if (coefficient >= 2000)
                    Assert.True(modes.Heave.DampingRatio > modes.Roll.DampingRatio, FormattableString.Invariant($"bar {bar}, coefficient {coefficient}")); // roll moves the dampers half as much, and both modes are damped alike only while the lean couples them more than that parts them
            }
        }

        Assert.True(met);
    }

    [Fact] // One damper has lost its gas: its spring carries what the gas no longer does, and nothing moves.
    public void UnlikeGas_OnTheSameSprings_StandsLevelAtTheDesignLoad()
    {
        var layout = Layout(InclinedMounts, RealDamper with { GasForce = 300 });
        layout = layout with { RightSide = layout.On(Side.Left) with { Damper = RealDamper with { GasForce = 40 } } };
        var car = new AssembledHalfCar(LiveAxle, layout);

        Assert.All(StaticEquilibrium.Find(car, 0).Position, displacement => Assert.Equal(0, displacement, 1e-12));
        Assert.Equal(260 * layout.Fitting.At(0, 0, Side.Left).RollArm / 0.5, car.SpringForceOn(Side.Right).Value(0) - car.SpringForceOn(Side.Left).Value(0), 1e-9); // moments about the roll axis, springs at 0.5 m
        Assert.Equal(0, LoadedHalfCar.Settle(LiveAxle, layout, LoadState.Design).Rest.Travel, 1e-12);

        // Under another load each spring of a table stands at its own place in it.
        var bent = LiveAxle with { Spring = LiveAxle.Spring with { Characteristic = new FreeLengthSpringTable(PiecewiseLinear.Through([0, 0.1, 0.2, 0.4], [0, 2000, 6000, 20_000])) } };
        Assert.All(StaticEquilibrium.Find(LoadedHalfCar.Settle(bent, layout, Aside).Car, 0).Position, displacement => Assert.Equal(0, displacement, 1e-9)); // N over N/m of the search for the rest
        Assert.All(Record(car, BumpThenCorner(RoadSide.Left, 0) with { Duration = 0.1 }, 1e-8, 100)[Channel.BodyHeave].ToArray(), heave => Assert.Equal(0, heave, 1e-9));
    }

    [Fact]
    public void SaggedSpring_LeansToItsSide()
    {
        var vehicle = LiveAxle with { RightSide = LiveAxle.On(Side.Left) with { Spring = LiveAxle.Spring with { PreloadChange = -300 } } };
        var rest = LoadedHalfCar.Settle(vehicle, LinearLayout(), LoadState.Design).Rest;

        // F = 2 k q − 300 = 0 and a moment of 300 N at 0.5 m: the whole sinks by 300/(2 k), and leans to the right.
        Assert.Equal(300 / 70e3, rest.Travel, 1e-12);
        Assert.Equal(0, rest.UnsprungHeave, 1e-12);
        Assert.True(rest.BodyRoll > 0);
    }

    [Fact] // 600 kg at 2 m on a car of 1180 kg: 674 mm left of the centre plane, with tyres at 750 mm, and the lean carries it past them.
    public void Load_ThatNothingHolds_IsRefusedWithTheNumbers()
    {
        var load = new LoadState { Name = "aside", Masses = [new LoadedMass { Mass = 600, Height = 1.5, Offset = 2 }] };
        var message = Assert.Throws<NoRestPositionException>(() => LoadedHalfCar.Settle(LiveAxle, LinearLayout(), load)).Message;
        Assert.Contains("all weight together acts 674 mm left of the centre plane, and the tyres stand 750 mm from it", message, StringComparison.Ordinal);
    }

    private static double Energy(AssembledHalfCar car, TimeHistory result, int i)
    {
        var v = car.Vehicle;
        double At(Channel channel) => result[channel][i];
        var (z, roll, zu, axle) = (At(Channel.BodyHeave), At(Channel.BodyRoll), At(Channel.UnsprungHeave), At(Channel.UnsprungRoll));
        var (dz, droll, dzu, daxle) = (At(Channel.BodyHeaveRate), At(Channel.BodyRollRate), At(Channel.UnsprungHeaveRate), At(Channel.UnsprungRollRate));
        var e = (v.Body.CgOffset * Math.Cos(car.RestRoll)) - (v.RollArm * Math.Sin(car.RestRoll));
        var kinetic = 0.5 * ((v.Body.Mass * ((dz * dz) + (2 * e * dz * droll))) + (v.BodyRollInertia * droll * droll) + (v.Unsprung.Mass * dzu * dzu) + (v.UnsprungRollInertia * daxle * daxle));
        double Spring(double force, double rate) => force * force / (2 * rate);
        var springs = Spring(At(Channel.SpringForceLeft), 35e3) + Spring(At(Channel.SpringForceRight), 44e3) + (0.5 * v.AntiRollBar * (axle - roll) * (axle - roll));
        var tyres = Spring(At(Channel.TyreLoadLeft), 220e3) + Spring(At(Channel.TyreLoadRight), 220e3);
        var weight = (v.Body.Mass * v.Gravity * (z + (v.RollArm * Math.Cos(roll)) + (v.Body.CgOffset * Math.Sin(roll)))) + (v.Unsprung.Mass * v.Gravity * zu);

        // From the position of rest, so that what is kept is not lost in what never changes.
        var still = (v.Body.Mass * v.Gravity * ((v.RollArm * Math.Cos(car.RestRoll)) + (v.Body.CgOffset * Math.Sin(car.RestRoll))))
            + Spring(car.Standing.LeftSpring, 35e3) + Spring(car.Standing.RightSpring, 44e3) + Spring(car.StaticSideLoad(Side.Left), 220e3) + Spring(car.StaticSideLoad(Side.Right), 220e3)
            + (0.5 * v.AntiRollBar * (car.Standing.UnsprungRoll - car.RestRoll) * (car.Standing.UnsprungRoll - car.RestRoll));
        return kinetic + springs + tyres + weight - still;
    }

    private static double[] Channels(AssembledHalfCar car, double[] position)
    {
        var channels = new double[ChannelTable.Count];
        var equations = new HalfCarEquations(car, Road.Flat(1), GivenLateralAcceleration.StraightAhead);
        equations.EnterSegment(0, 1);
        equations.WriteChannels(0.5, [.. position, 0, 0, 0, 0], channels);
        return channels;
    }

    private static TimeHistory Run(AssembledHalfCar car, Manoeuvre manoeuvre, IntegratorOptions? options = null)
    {
        var simulation = new Simulation(car, manoeuvre, options ?? new IntegratorOptions { RelativeTolerance = 1e-10, AbsoluteTolerance = 1e-11 });
        var history = new TimeHistoryRecorder(simulation.Equations, manoeuvre.Duration, 200);
        simulation.Run([history], cancellation: TestContext.Current.CancellationToken);
        return history.ToHistory();
    }
}
