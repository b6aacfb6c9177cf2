using CsCheck;
using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

public sealed class StaticEquilibriumTests
{
    /// <summary>Any vehicle with inclined mounts, gas, stops near enough to touch, single or dual tyres, and any turn.</summary>
    private static readonly Gen<(AssembledHalfCar Car, double Ay)> AnyCarInAnyTurn =
        from mass in Gen.Double[400, 3000]
        from height in Gen.Double[0.4, 1.0]
        from rollCentre in Gen.Double[-0.05, 0.4]
        from rate in Gen.Double[30, 60]
        from bar in Gen.Double[0, 30e3]
        from spacing in Gen.Double[0.2, 0.4]
        from duals in Gen.Bool
        from axleEndY in Gen.Double[0.2, 0.7]
        from lean in Gen.Double[-0.2, 0.2]
        from clearance in Gen.Double[0.005, 0.05]
        from gas in Gen.Double[0, 400]
        from ay in Gen.Double[-4, 4]
        let vehicle = LiveAxle with
        {
            RollCentreHeight = rollCentre,
            Body = new SprungBody { Mass = mass, RollInertia = 0.4 * mass, CgHeight = height },
            Spring = new Spring(new LinearSpring(rate * mass), Ratio(1, 0.7)),
            AntiRollBar = bar,
            BumpStop = new TravelStop { Clearance = clearance, Stiffness = 4e6, Exponent = 2, Fitting = Ratio(1, 0.8) },
            ReboundStop = new TravelStop { Clearance = clearance, Stiffness = 1e5, Fitting = Ratio(1, 0.8) },
            Tyre = new Tyre { Stiffness = (duals ? 120 : 240) * mass, DualSpacing = duals ? spacing : null },
        }
        let mounts = new LiveAxleMountFitting(new Point3(0.1, axleEndY, 0.3), new Point3(0, axleEndY + lean, 0.75), rollCentre, HalfTrack)
        select (new AssembledHalfCar(vehicle, Layout(mounts, RealDamper with { GasForce = gas })), ay);

    [Theory]
    [MemberData(nameof(TestCars.FittingNames), MemberType = typeof(TestCars))]
    public void AtRest_AnyFitting_NothingMoves(string name)
    {
        var equations = Equations(Find(name));
        var derivative = new double[equations.Dimension];
        equations.Derivatives(0.5, new double[equations.Dimension], derivative);

        // Forces of 5 kN carry a few roundings of 1e-12 N, on an axle of 90 kg or more.
        Assert.All(derivative, rate => Assert.InRange(rate, -5e-14, 5e-14));
    }

    [Theory]
    [MemberData(nameof(TestCars.FittingNames), MemberType = typeof(TestCars))]
    public void InATurn_AnyFitting_TheEquationsOfMotionStandStill(string name)
    {
        var car = Find(name);
        var stand = StaticEquilibrium.Find(car, 3);
        var equations = Equations(car, 3);
        var derivative = new double[equations.Dimension];
        equations.Derivatives(0.5, stand.ToState(car), derivative);

        // The solution's own tolerance: 1e-10 m/s² and rad/s². A top mount's stroke moves by its rounding over the damper's slope.
        Assert.All(derivative, rate => Assert.InRange(rate, -1e-10, 1e-10));
        Assert.True(stand.BodyRoll > 0, "A left turn leans the body to the right: its left side rises.");
    }

    [Fact]
    public void LoadTransfer_AnyVehicle_BalancesTheMomentsAboutTheRoad()
    {
        var (found, touching) = (0, 0);
        AnyCarInAnyTurn.SampleSame(300, sample =>
        {
            var (car, ay) = sample;
            if (!StaticEquilibrium.TryFind(car, ay, out var stand))
                return;
            found++;
            var channels = ChannelsAt(car, stand);
            if (channels.Of(Channel.BumpStopForceLeft) + channels.Of(Channel.BumpStopForceRight) > 0)
                touching++;
            var vehicle = car.Vehicle;
            var loads = TyreLoads(vehicle, channels);
            var moment = -loads.Zip(vehicle.ContactPositions, (load, y) => y * load).Sum();
            var bodyMoment = vehicle.Body.Mass * ((vehicle.Body.CgHeight * ay) + (vehicle.Gravity * vehicle.RollArm * Math.Sin(stand.BodyRoll)));

            // −Σ y Ft = (ms hcg + mu hu) ay + ms g h sin φs, to the solution's tolerance of 1e-10 rad/s² on 2000 kg·m².
            Assert.Equal(bodyMoment + (vehicle.Unsprung.Mass * vehicle.Unsprung.CgHeight * ay), moment, 1e-6);
            Assert.Equal((vehicle.Body.Mass + vehicle.Unsprung.Mass) * vehicle.Gravity, loads.Sum(), 1e-6);
        });

        // The property means something only if most samples stand, and many on their stops.
        Assert.True(found > 200, $"{found} stand");
        Assert.True(touching > 50, $"{touching} touch a stop");
    }

    [Theory]
    [InlineData("mounts, gas, friction, stops")]
    [InlineData("top mount")]
    public void Run_ThatStartsInATurn_StaysWhereItStands(string name)
    {
        var car = Find(name);
        var manoeuvre = new Manoeuvre
        {
            Road = Road.Flat(20),
            Cornering = new GivenLateralAcceleration(CorneringEvents.Sampled([0, 0.5, 1], [3, 3, 3])),
            Duration = 2,
        };
        var stand = StaticEquilibrium.Find(car, 3).ToState(car);
        var trajectory = Solve(car, manoeuvre, 1e-8);

        var state = new double[stand.Length];
        for (var time = 0.0; time <= 2; time += 0.1)
        {
            trajectory.StateAt(time, state);

            // A residual of 1e-10 m/s² moves a car of 8 rad/s by 1e-12.
            for (var i = 0; i < state.Length; i++)
                Assert.Equal(stand[i], state[i], 1e-10);
        }
    }

    [Fact]
    public void Linkage_WhoseReachANewtonStepLeaves_StillFindsTheStand()
    {
        // A soft spring and a short arm: the first full step asks for more travel than the arm has; the progressive table holds it.
        var arm = new ArmMountFitting(new(0.55, 0.25), new(0.7, 0.25), new(0.7, 0.25), new(0.7, 0.7), HalfTrack);
        var table = PiecewiseLinear.Through([-0.05, -0.02, 0, 0.02, 0.05], [-9000, -200, 0, 200, 9000]);
        var car = new AssembledHalfCar(
            Independent with { Spring = new Spring(new RideHeightSpringTable(table), arm), AntiRollBar = 0, RollCentreHeight = 0.5 },
            Layout(arm, LinearDamper(2000)));
        var stand = StaticEquilibrium.Find(car, 6);
        Assert.InRange(Math.Abs(HalfTrack * (stand.UnsprungRoll - stand.BodyRoll)), 0.02, 0.05);
    }
}
