using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Tests.Mounting;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

public sealed class LoadedHalfCarTests
{
    /// <summary>Springs and dampers that move as the wheels do, so that rates add up by hand.</summary>
    private static readonly HalfCar Plain = LiveAxle with { Spring = new Spring(new LinearSpring(62e3), Ratio(1, 0.6)), Tyre = new Tyre { Stiffness = 290e3 } };

    private static LoadState Load(double mass, double height = 0.8) => new() { Name = "laden", Masses = [new LoadedMass { Mass = mass, Height = height }] };

    private static LoadedHalfCar Settle(HalfCar vehicle, LoadState load) => LoadedHalfCar.Settle(vehicle, LinearLayout(), load);

    /// <summary>The load, kg, that one side's further force, N, asks for.</summary>
    private static double MassFor(HalfCar vehicle, double forceASide) => 2 * forceASide / vehicle.Gravity;

    [Fact] // 4905 N a side at design, 9810 N laden: the table ends at 7000 N, and its end slope of 35 kN/m goes on.
    public void LoadBeyondTheEndOfATableFromFreeLength_RestsOnItsEndSlope()
    {
        var table = new FreeLengthSpringTable(PiecewiseLinear.Through([0, 0.1, 0.2], [0, 3500, 7000]));
        var vehicle = TestCars.LiveAxle with { Spring = new Spring(table, TestCars.Ratio(1, 0.6)) };
        var settled = LoadedHalfCar.Settle(vehicle, TestCars.LinearLayout(), new LoadState { Name = "laden", BodyMass = 2000 });
        Assert.Equal(4905 / 35e3, settled.Rest.Travel, 1e-12);
        Assert.Equal(9810, settled.Car.SpringPreload, 1e-6);
    }

    [Fact]
    public void Load_OnLinearSprings_SinksBodyAndAxleByWeightOverRate()
    {
        var rest = Settle(Plain with { Gravity = HalfCar.StandardGravity }, Load(270)).Rest;
        const string ByHand = Evidence.Derived + "weight over rate: Δm g/(2 kt) into the tyres, Δm g/(2 k) into the springs";
        Validation.Row("270 kg on 62 and 290 N/mm", "load: sinking of the axle, mm", ByHand, -270 * 9.80665 / 580, rest.UnsprungHeave * 1e3, 1e-9);
        Validation.Row("270 kg on 62 and 290 N/mm", "load: sinking of the body, mm", ByHand, -270 * 9.80665 * ((1 / 580.0) + (1 / 124.0)), rest.BodyHeave * 1e3, 1e-9);
        Assert.Equal(-4.57, rest.UnsprungHeave * 1e3, 0.005);
        Assert.Equal(-25.92, rest.BodyHeave * 1e3, 0.005);
        Assert.Equal((1180 + 270) * 9.80665 / 2, rest.Left.TyreLoad, 1e-9);
    }

    [Fact]
    public void Load_OnDualTyres_IsSharedByFour()
    {
        var vehicle = Plain with { Tyre = new Tyre { Stiffness = 145e3, DualSpacing = 0.3 } };
        var (duals, single) = (Settle(vehicle, Load(270)).Rest, Settle(Plain, Load(270)).Rest);
        Assert.Equal(single.UnsprungHeave, duals.UnsprungHeave, 1e-15);
        Assert.Equal(single.Left.TyreLoad, duals.Left.TyreLoad, 1e-9);
    }

    [Fact]
    public void Load_TakenOut_RaisesTheBody()
    {
        var rest = Settle(Plain, Load(-270)).Rest;
        Assert.Equal(270 * TextbookGravity / 124e3, -rest.Travel, 1e-14);
        Assert.Equal(270 * TextbookGravity / 580e3, rest.UnsprungHeave, 1e-15);
    }

    [Fact]
    public void Load_ThatReachesAQuadraticBumpStop_SharesWithIt()
    {
        // k q + kb (q − e)² = W: with δ = q − e, kb δ² + k δ + k e − W = 0.
        const double k = 62e3, kb = 3e6, e = 0.02, weight = 3000;
        var vehicle = Plain with { BumpStop = new TravelStop { Clearance = e, Stiffness = kb, Exponent = 2, Fitting = Ratio(1, 0.6) } };
        var delta = (Math.Sqrt((k * k) + (4 * kb * (weight - (k * e)))) - k) / (2 * kb);

        var loaded = Settle(vehicle, Load(MassFor(vehicle, weight)));

        Assert.True(delta > 0.01, "The stop carries a share.");
        Assert.Equal(e + delta, loaded.Rest.Travel, 1e-14);
        Assert.Equal(delta, loaded.Rest.Left.BumpStop!.Compression, 1e-14);
        Assert.Equal(0, loaded.Rest.Left.BumpStop!.Clearance);
        Assert.Equal(kb * delta * delta, loaded.Rest.Left.BumpStop!.Force, 1e-8);

        // Drawn anew, the stop touches at rest, and the heave rate has its slope there: 2 (k + 2 kb δ).
        Assert.Equal(-delta, loaded.Car.Vehicle.BumpStop!.Clearance, 1e-14);
        Assert.Equal(2 * (k + (2 * kb * delta)), LinearHalfCar.AtRest(loaded.Car).Stiffness[0, 0], 1e-6);
    }

    [Fact]
    public void BodyTakenOff_HangsInAReboundStopThroughItsRatio()
    {
        // Springs give back k q, a linear stop pulls through 0.9: k q + 0.9 kr (0.9 q − e) = W, all of it upward.
        const double k = 62e3, kr = 2e5, e = 0.01, ratio = 0.9, weight = 2000;
        var vehicle = Plain with { ReboundStop = new TravelStop { Clearance = e, Stiffness = kr, Fitting = Ratio(ratio, 0.6) } };
        var up = (weight + (ratio * kr * e)) / (k + (ratio * ratio * kr));

        var rest = Settle(vehicle, Load(-MassFor(vehicle, weight))).Rest;

        Assert.Equal(-up, rest.Travel, 1e-14);
        Assert.Equal((ratio * up) - e, rest.Left.ReboundStop!.Compression, 1e-14);
        Assert.Equal(kr * ((ratio * up) - e), rest.Left.ReboundStop!.Force, 1e-8);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Load_OnASpringTable_GoesAcrossItsCorner(bool fromFreeLength)
    {
        // 40 N/mm until 15 mm beyond ride height, 120 N/mm from there. From free length the table reaches the body's 4905 N at 122.625 mm.
        double[] force = [0, 4905 + 600, 4905 + 600 + 12_000];
        double[] compression = [0, 0.122625 + 0.015, 0.122625 + 0.015 + 0.1];
        SpringCharacteristic spring = fromFreeLength
            ? new FreeLengthSpringTable(PiecewiseLinear.Through(compression, force))
            : new RideHeightSpringTable(PiecewiseLinear.Through([-0.122625, 0, 0.015, 0.115], [-4905, 0, 600, 12_600]));
        var vehicle = Plain with { Spring = new Spring(spring, Ratio(1, 0.6)) };
        const double weight = 1800;

        var loaded = Settle(vehicle, Load(MassFor(vehicle, weight)));

        Assert.Equal(0.015 + ((weight - 600) / 120e3), loaded.Rest.Travel, 1e-14);
        Assert.Equal(4905 + weight, loaded.Rest.Left.Spring.Force, 1e-8);

        // Seen from there: 10 mm up to the corner on the steep line, beyond it on the flat one, and steep for ever into bump.
        var set = loaded.Car.SpringForce;
        Assert.Equal(4905 + weight, set.Value(0), 1e-8);
        Assert.Equal(4905 + weight - 1200 - 200, set.Value(-0.015), 1e-8);
        Assert.Equal(4905 + weight + 36_000, set.Value(0.3), 1e-8);
        Assert.Equal(4905 + weight - 1200 - 600 - 4905 - 40, set.Value(-0.010 - 0.015 - 0.122625 - 0.001), 1e-8);
    }

    [Fact]
    public void Load_BeyondTheEndOfASpringTable_StandsOnItsEndSlope()
    {
        var table = new RideHeightSpringTable(PiecewiseLinear.Through([-0.05, 0, 0.01], [-2000, 0, 400]));
        var vehicle = Plain with { Spring = new Spring(table, Ratio(1, 0.6)) };
        var loaded = Settle(vehicle, Load(MassFor(vehicle, 1000)));
        Assert.Equal(0.025, loaded.Rest.Travel, 1e-14);
        Assert.Equal(4905 + 1000 - 400, loaded.Car.SpringForce.Value(-0.01), 1e-8);
        Assert.Equal(4905 + 1000 + 400, loaded.Car.SpringForce.Value(0.01), 1e-8);
    }

    [Fact]
    public void GasInAnInclinedDamper_LiftsLessAsTheDamperLiesDown()
    {
        // Chosen travel q; the load that stands there adds k q − G (Rh(0) − Rh(q)) a side, with Rh = dz/L of the triangle of the mounts.
        const double gas = 400, q = 0.03;
        var mounts = new LiveAxleMountFitting(new Point3(0, 0.6, 0.25), new Point3(0, 0.3, 0.55), 0.3, HalfTrack);
        static double Ratio(double travel) => (0.3 - travel) / Math.Sqrt((0.3 * 0.3) + ((0.3 - travel) * (0.3 - travel)));
        var load = Load(MassFor(Plain, (62e3 * q) - (gas * (Ratio(0) - Ratio(q)))));

        var rest = LoadedHalfCar.Settle(Plain, Layout(mounts, LinearDamper(2500) with { GasForce = gas }), load).Rest;

        Assert.Equal(q, rest.Travel, 1e-14);
        Assert.Equal(Ratio(q), rest.Left.Damper.HeaveRatio, 1e-14);
        Assert.Equal(Math.Sqrt((0.3 * 0.3) + (0.27 * 0.27)), rest.Left.DamperLength!.Value, 1e-15);
        Assert.Equal(gas, rest.Left.Damper.Force);
    }

    [Fact]
    public void LoadOfNothing_LeavesTheCarAsItIs()
    {
        foreach (var (_, design) in AllFittings())
        {
            var loaded = LoadedHalfCar.Settle(design.Vehicle, design.Layout, new LoadState { Name = "design" });
            Assert.Equal(design.Vehicle, loaded.Car.Vehicle);
            Assert.Equal(design.Layout, loaded.Car.Layout);
            Assert.Equal(design.SpringPreload, loaded.Car.SpringPreload);
            Assert.Equal(default, loaded.Change);
        }
    }

    [Fact]
    public void LoadThatWeighsNothing_ChangesTheBodyAndNotTheRest()
    {
        // 50 kg from 0.5 m up to 1.5 m: 50 kg·m over 1000 kg.
        var raised = new LoadState { Name = "raised", Masses = [new() { Mass = -50, Height = 0.5 }, new() { Mass = 50, Height = 1.5 }] };
        var loaded = Settle(Plain, raised);
        Assert.Equal(0, loaded.Rest.BodyHeave);
        Assert.Equal(0.85, loaded.Car.Vehicle.Body.CgHeight, 1e-15);
    }

    [Fact]
    public void HeightsOfALoadedCar_AreThoseAtItsRest()
    {
        var vehicle = Plain with
        {
            RollCentreBodyShare = 0.25,
            Travel = new TravelRange { Bump = 0.08, Rebound = 0.09, Roll = 0.1 },
            BumpStop = Full.BumpStop,
            ReboundStop = Full.ReboundStop,
        };
        var layout = Layout(InclinedMounts, RealDamper) with { CompressionTravel = 0.1, ReboundTravel = 0.12 };
        var loaded = LoadedHalfCar.Settle(vehicle, layout, Load(300, 1.2));
        var (laden, rest) = (loaded.Car.Vehicle, loaded.Rest);
        double zs = rest.BodyHeave, zu = rest.UnsprungHeave, q = zu - zs;

        // 1000 kg at 0.8 m and 300 kg at 1.2 m, both with the floor.
        Assert.Equal((((1000 * 0.8) + (300 * 1.2)) / 1300) + zs, laden.Body.CgHeight, 1e-15);
        Assert.Equal(0.32 + zu, laden.Unsprung.CgHeight, 1e-15);
        Assert.Equal(0.30 + (0.75 * zu) + (0.25 * zs), laden.RollCentreHeight, 1e-15);
        Assert.Equal(0.08 - q, laden.Travel!.Bump, 1e-15);
        Assert.Equal(0.09 + q, laden.Travel.Rebound, 1e-15);
        Assert.Equal(0.05 - q, laden.BumpStop!.Clearance, 1e-15);
        Assert.Equal(0.06 + (0.9 * q), laden.ReboundStop!.Clearance, 1e-15);
        var damper = InclinedMounts.Length - InclinedMounts.LengthAt(q, 0, Side.Left);
        Assert.Equal(0.1 - damper, loaded.Car.Layout.CompressionTravel!.Value, 1e-15);
        Assert.Equal(0.12 + damper, loaded.Car.Layout.ReboundTravel!.Value, 1e-15);
        Assert.Equal(rest.Left.DamperLength!.Value, ((IMountedElement)loaded.Car.Layout.Fitting).Length, 1e-14);

        // The ratios are those of the mounts as they stand, about the roll centre where it is: Rh = uz, Rr T = uz y − uy (z − hrc).
        double dy = 0.45 - 0.6, dz = 0.7 + zs - 0.25 - zu, length = rest.Left.DamperLength!.Value;
        Assert.Equal(dz / length, rest.Left.Damper.HeaveRatio, 1e-14);
        Assert.Equal(((dz * 0.6) - (dy * (0.25 + zu - laden.RollCentreHeight))) / length / HalfTrack, rest.Left.Damper.RollRatio, 1e-14);
        Assert.Equal(laden.StaticTyreLoad, rest.Left.TyreLoad, 1e-9);
    }

    [Theory]
    [InlineData(true, 0)]
    [InlineData(false, 1)]
    public void RollCentreOfAGivenHeight_StaysOnTheAxleOrGoesWithTheBody(bool hasAxle, double bodyShare)
    {
        var vehicle = hasAxle ? Plain : Independent;
        var (named, unnamed) = (Settle(vehicle with { RollCentreBodyShare = bodyShare }, Load(300)), Settle(vehicle, Load(300)));
        Assert.Equal(named.Car.Vehicle.RollCentreHeight, unnamed.Car.Vehicle.RollCentreHeight);
        Assert.NotEqual(Settle(vehicle with { RollCentreBodyShare = 0.5 }, Load(300)).Car.Vehicle.RollCentreHeight, named.Car.Vehicle.RollCentreHeight);
    }

    [Fact]
    public void RollCentreOfALinkage_IsConstructedAtTheNewRest()
    {
        var linkage = ReferenceLinkages.DoubleWishbone;
        var fitting = ReferenceLinkages.Fittings[0];
        var vehicle = Independent with
        {
            Track = 2 * ReferenceLinkages.HalfTrack,
            Linkage = linkage,
            RollCentreHeight = linkage.WheelAt(0).RollCentreHeight,
            Spring = new Spring(new LinearSpring(80e3), fitting),
        };
        var loaded = LoadedHalfCar.Settle(vehicle, Layout(fitting, LinearDamper(2500)), Load(200));
        var laden = loaded.Car.Vehicle;
        Assert.True(loaded.Rest.Travel > 0.01);
        Assert.Equal(laden.Linkage!.WheelAt(0).RollCentreHeight, laden.RollCentreHeight, 1e-15);
        Assert.Equal(linkage.Redrawn(loaded.Change).WheelAt(0).RollCentreHeight, laden.RollCentreHeight, 1e-15);
        Assert.Equal(ReferenceLinkages.WheelCentreHeight + loaded.Rest.UnsprungHeave, laden.Linkage.WheelCentreHeight, 1e-15);
    }

    [Fact]
    public void LoadPutInAndTakenOutAgain_IsTheDesign()
    {
        foreach (var (name, design) in AllFittings())
        {
            var loaded = LoadedHalfCar.Settle(design.Vehicle, design.Layout, Load(150, 1.1));

            // The load stands on a floor that has sunk.
            var unloaded = LoadedHalfCar.Settle(loaded.Car.Vehicle, loaded.Car.Layout, Load(-150, 1.1 + loaded.Rest.BodyHeave));
            var (was, now) = (design.Vehicle, unloaded.Car.Vehicle);
            Assert.True(loaded.Rest.BodyHeave < -0.005, name);
            Assert.Equal(-loaded.Rest.BodyHeave, unloaded.Rest.BodyHeave, 1e-13);
            Assert.Equal(was.Body.Mass, now.Body.Mass, 1e-12);
            Assert.Equal(was.Body.CgHeight, now.Body.CgHeight, 1e-13);
            Assert.Equal(was.Body.RollInertia, now.Body.RollInertia, 1e-11);
            Assert.Equal(was.RollCentreHeight, now.RollCentreHeight, 1e-13);
            Assert.Equal(was.Unsprung.CgHeight, now.Unsprung.CgHeight, 1e-14);
            foreach (var compression in (double[])[-0.1, -0.02, 0, 0.03, 0.2])
                Assert.Equal(design.SpringForce.Value(compression), unloaded.Car.SpringForce.Value(compression), 1e-7);
            foreach (var (one, other) in new[] { (design.Layout.Fitting, unloaded.Car.Layout.Fitting), (was.Spring.Fitting, now.Spring.Fitting) })
            {
                var (before, after) = (one.At(0.03, 0.04, Side.Left), other.At(0.03, 0.04, Side.Left));
                Assert.Equal(before.Compression, after.Compression, 1e-13);
                Assert.Equal(before.RollArm, after.RollArm, 1e-12);
            }

            if (was.BumpStop is { } stop)
                Assert.Equal(stop.Clearance, now.BumpStop!.Clearance, 1e-13);
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)] // the load beside the centre plane, and every other car with sides of its own
    public void LoadedCar_MovesAsTheDesignsElementsMakeItMove(bool leans)
    {
        // Any car in any load, anywhere about its rest, against the equations written out in the design's own coordinates.
        var (settled, touching) = (0, 0);
        for (var sample = 0; sample < 100; sample++)
        {
            var random = new Random(sample);
            var cars = new RandomCars(random);
            var form = RandomCars.Form.All[sample % RandomCars.Form.All.Count] with { TopMount = false, UnlikeSides = leans && sample % 2 == 0, Leans = false, Whole = false };
            var design = cars.Car(form, 1);
            var vehicle = design.Vehicle with { RollCentreBodyShare = random.Next(2) == 0 ? null : random.NextDouble() };
            var load = new LoadState { Name = "any", Masses = [new() { Mass = cars.In(-250, 350), Height = cars.In(0.5, 1.2), Offset = leans ? cars.In(-0.4, 0.4) : 0, RollInertia = 0 }] };
            LoadedHalfCar loaded;
            try
            {
                loaded = LoadedHalfCar.Settle(vehicle, design.Layout, load);
            }
            catch (NoRestPositionException)
            {
                continue;
            }

            settled++;
            touching += loaded.Rest.Left.BumpStop is { Force: > 0 } || loaded.Rest.Left.ReboundStop is { Force: > 0 } ? 1 : 0;
            var equations = Equations(loaded.Car, 2.5);
            var byDesign = new DesignEquations(new AssembledHalfCar(vehicle, design.Layout), load.Of(vehicle.Body), loaded);

            // At rest itself nothing moves: forces of 1e4 N cancel to rounding, over masses of 60 kg and more.
            Assert.All(byDesign.Accelerations(new double[8], 0), acceleration => Assert.Equal(0, acceleration, 1e-9));
            for (var i = 0; i < 5; i++)
            {
                double[] state =
                [
                    cars.In(-0.02, 0.02), cars.In(-0.02, 0.02), cars.In(-0.01, 0.01), cars.In(-0.02, 0.02),
                    cars.In(-0.5, 0.5), cars.In(-0.5, 0.5), cars.In(-1, 1), cars.In(-1, 1),
                ];
                var derivative = new double[equations.Dimension];
                equations.Derivatives(0.5, [.. state, .. new double[equations.Dimension - 8]], derivative); // friction not loaded yet
                var expected = byDesign.Accelerations(state, 2.5);
                for (var k = 0; k < 4; k++)
                    Assert.Equal(expected[k], derivative[4 + k], 1e-8 * (1 + Math.Abs(expected[k])));
            }
        }

        Assert.True(settled > 75, $"{settled} settled");
        Assert.True(touching > 8, $"{touching} on a stop");
    }

    [Fact]
    public void SaggedSpring_ThatPutsTheCentreOfGravityBelowTheRoad_IsRefusedWithTheNumbers()
    {
        var sagged = LiveAxle with { RollCentreHeight = 0.001, Body = LiveAxle.Body with { CgHeight = 0.001, RollInertia = 450 }, Spring = LiveAxle.Spring with { PreloadChange = -250 } };
        var refused = Assert.Throws<NoRestPositionException>(() => LoadedHalfCar.Settle(sagged, LinearLayout(), LoadState.Design));
        Assert.Contains("below the road", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(FittingNames), MemberType = typeof(TestCars))]
    public void Run_OfALoadedCar_StartsAndStaysAtItsRest(string name)
    {
        // As much as each car stands; where it has bump stops, on them.
        var design = Find(name);
        var loaded = LoadedHalfCar.Settle(design.Vehicle, design.Layout, Load(500, 0.6));
        Assert.True(loaded.Rest.Left.BumpStop is null or { Force: > 0 }, "The load reaches the stop.");
        var trajectory = Solve(loaded.Car, Free(1), 1e-8);
        var state = new double[Equations(loaded.Car).Dimension];
        trajectory.StateAt(1, state);
        Assert.All(state, coordinate => Assert.Equal(0, coordinate, 1e-12)); // rounding of forces of 1e4 N on rates of 1e5 N/m
    }

    [Fact]
    public void Position_OfSeveral_IsTheOneReachedAsTheLoadGrows()
    {
        var vehicle = OverCentre;
        double Carried(double q) => Force(q) + Stop(q);

        // The springs alone carry most at some travel on the way to the stop, less after it, and on the stop more than ever.
        var most = Enumerable.Range(0, 200).Select(i => i * 1e-3).TakeWhile(q => Stop(q) == 0).Max(Force);
        var below = 0.5 * (Force(0) + most);
        var positions = Enumerable.Range(0, 2500).Select(i => i * 1e-4).Where(q => Carried(q) < below != Carried(q + 1e-4) < below).ToArray();
        Assert.Equal(3, positions.Length);

        var rest = Settle(vehicle, Load(MassFor(vehicle, below - Force(0)))).Rest;
        Assert.InRange(rest.Travel, positions[0], positions[0] + 1e-4);

        // More than the springs ever carry would stand on the stop, but no way leads there: the body would fall.
        var refused = Assert.Throws<NoRestPositionException>(() => Settle(vehicle, Load(MassFor(vehicle, (1.01 * most) - Force(0)))));
        Assert.True(Carried(0.25) > 1.01 * most, "A position on the stop exists.");
        Assert.Matches("at \\d+ mm of wheel travel the suspension carries \\d+ N a side and less beyond; the load asks for \\d+ N", refused.Message);
    }

    [Fact]
    public void BodyTooHeavyForItsRollStiffness_IsRefusedWithItsMoment()
    {
        var load = Load(600, 2.5);
        var refused = Assert.Throws<NoRestPositionException>(() => Settle(Plain with { AntiRollBar = 0, Spring = new Spring(new LinearSpring(62e3), Ratio(1, 0.2)) }, load));
        Assert.StartsWith("Under load state “laden” the vehicle cannot stand with layout “layout”: the body falls over: its weight above the roll centre takes ", refused.Message, StringComparison.Ordinal);

        // m g h: 1600 kg, centre of gravity at (800 + 1500)/1600 m less the sinking, the roll centre on the axle.
        var (axle, body) = (-600 * TextbookGravity / 580e3, -600 * TextbookGravity * ((1 / 580e3) + (1 / 124e3)));
        var moment = 1600 * TextbookGravity * ((2300.0 / 1600) + body - 0.30 - axle) * Math.PI / 180;
        Assert.Contains(FormattableString.Invariant($" takes {moment:F0} N·m per degree of roll"), refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void DamperBeyondItsEnds_IsRefusedWithBothLengths()
    {
        // An upright damper of 450 mm moves as the wheels do: 600 N a side on 62 N/mm are 9.68 mm.
        var upright = new LiveAxleMountFitting(new Point3(0, 0.5, 0.25), new Point3(0, 0.5, 0.70), 0.3, HalfTrack);
        var layout = Layout(upright, LinearDamper(2500)) with { CompressionTravel = 0.009, ReboundTravel = 0.008 };
        var closed = Assert.Throws<NoRestPositionException>(() => LoadedHalfCar.Settle(Plain, layout, Load(MassFor(Plain, 600))));
        Assert.Contains("mounts would be 440.3 mm apart, and it is 441.0 mm long when closed", closed.Message, StringComparison.Ordinal);
        var open = Assert.Throws<NoRestPositionException>(() => LoadedHalfCar.Settle(Plain, layout, Load(-MassFor(Plain, 600))));
        Assert.Contains("mounts would be 459.7 mm apart, and it is 458.0 mm long when fully extended", open.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void WheelBeyondItsLinkage_AndSpringsThatNeverCarryTheLoad_AreRefused()
    {
        // The arm of 150 mm stands straight up after 150 mm; a soft spring asks for more.
        var arm = new ArmMountFitting(new(0.55, 0.25), new(0.7, 0.25), new(0.7, 0.25), new(0.7, 0.7), HalfTrack);
        var soft = Independent with { Spring = new Spring(new LinearSpring(20e3), Ratio(1, 1)) };
        var linkage = Assert.Throws<NoRestPositionException>(() => LoadedHalfCar.Settle(soft, Layout(arm, LinearDamper(2000)), Load(700)));
        Assert.Contains("its linkage moves from -150.0 to 150.0 mm", linkage.Message, StringComparison.Ordinal);
        var level = new RideHeightSpringTable(PiecewiseLinear.Through([-0.05, 0, 0.01, 0.02], [-2000, 0, 400, 400]));
        var never = Assert.Throws<NoRestPositionException>(() => Settle(Plain with { Spring = new Spring(level, Ratio(1, 0.6)) }, Load(100)));
        Assert.Contains("even after 2000 mm of wheel travel the suspension carries 5305 N a side; the load asks for 5396 N", never.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void BodyBelowTheRoad_IsRefused()
    {
        var soft = Plain with { Spring = new Spring(new LinearSpring(5e3), Ratio(1, 0.6)) };
        var refused = Assert.Throws<NoRestPositionException>(() => Settle(soft, Load(900)));
        Assert.Contains("the body's centre of gravity would be ", refused.Message, StringComparison.Ordinal);
        Assert.Contains(" mm below the road", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void StifferSpringSetAsTheOldOne_LiftsTheDesignByWhatItCarriesTooMuch()
    {
        // Springs of 62 N/mm carry 4905 N at ride height, 79.1 mm from free; springs of 80 N/mm as long as these carry 80/62 of it there.
        var design = new AssembledHalfCar(Plain, LinearLayout());
        var stiffer = Plain with { Spring = new Spring(new LinearSpring(80e3), Ratio(1, 0.6)) };
        var setting = DesignSetting.Of(design) with { SpringPreload = 4905 * 80 / 62.0 };
        var loaded = LoadedHalfCar.Settle(stiffer, LinearLayout(), new LoadState { Name = "design" }, setting);
        Assert.Equal((4905 / 62e3) - (4905 / 80e3), -loaded.Rest.Travel, 1e-14);
        Assert.Equal(0, loaded.Rest.UnsprungHeave);
        Assert.Equal(4905, loaded.Car.SpringPreload, 1e-9);
    }

    [Fact]
    public void SofterTyreOfTheSameRadius_LowersTheAxleByWhatItGivesWayMore()
    {
        var design = new AssembledHalfCar(Plain, LinearLayout());
        var softer = Plain with { Tyre = new Tyre { Stiffness = 200e3 } };
        var load = Plain.StaticTyreLoad;
        var setting = DesignSetting.Of(design) with { TyreLoad = load * 200 / 290 };
        var loaded = LoadedHalfCar.Settle(softer, LinearLayout(), new LoadState { Name = "design" }, setting);
        Assert.Equal((load / 290e3) - (load / 200e3), loaded.Rest.UnsprungHeave, 1e-15);
        Assert.Equal(0, loaded.Rest.Travel, 1e-17);
    }

    [Fact]
    public void SpringInTension_WhereGasLiftsMoreThanALightBodyWeighs_Stands()
    {
        var layout = Layout(Ratio(1, 0.6), LinearDamper(2500) with { GasForce = 2000 });
        var loaded = LoadedHalfCar.Settle(Plain, layout, Load(-700));
        Assert.Equal((150 * TextbookGravity) - 2000, loaded.Rest.Left.Spring.Force, 1e-8);
        Assert.Equal(loaded.Rest.Left.Spring.Force, loaded.Car.SpringPreload, 1e-8);
    }

    /// <summary>
    /// Springs from 250 mm above the axle's end, 200 mm inboard of it: as they lie down their ratio falls, and in the end what they carry. A stop
    /// waits after 150 mm.
    /// </summary>
    private static readonly HalfCar OverCentre = Plain with
    {
        AntiRollBar = 80e3,
        Spring = new Spring(
            new LinearSpring(62e3),
            new LiveAxleMountFitting(new Point3(0, 0.7, 0.25), new Point3(0, 0.5, 0.50), 0.3, HalfTrack)),
        BumpStop = new TravelStop { Clearance = 0.15, Stiffness = 5e5, Fitting = Ratio(1, 0.6) },
    };

    /// <summary>What one of these springs carries, by the triangle of its mounts: 200 mm across, 250 mm high at ride height.</summary>
    private static double Force(double q)
    {
        static double Length(double travel) => Math.Sqrt((0.2 * 0.2) + ((0.25 - travel) * (0.25 - travel)));
        var preload = 500 * TextbookGravity / (0.25 / Length(0));
        return (0.25 - q) / Length(q) * (preload + (62e3 * (Length(0) - Length(q))));
    }

    private static double Stop(double q) => 5e5 * Math.Max(0, q - 0.15);

    /// <summary>The equations of motion of the design's elements with another body on them, written out a second time.</summary>
    private sealed class DesignEquations(AssembledHalfCar design, SprungBody body, LoadedHalfCar loaded)
    {
        /// <summary>Accelerations of (zs, φs, zu, φu) at a state counted from the loaded rest.</summary>
        public double[] Accelerations(double[] fromRest, double ay)
        {
            var (vehicle, layout, rest) = (design.Vehicle, design.Layout, loaded.Rest);
            double zs = rest.BodyHeave + fromRest[0], zu = rest.UnsprungHeave + fromRest[2], bodyRoll = rest.BodyRoll + fromRest[1], axleRoll = rest.UnsprungRoll + fromRest[3];
            double q = zu - zs, r = axleRoll - bodyRoll, heaveRate = fromRest[6] - fromRest[4], rollRate = fromRest[7] - fromRest[5];
            var share = vehicle.RollCentreBodyShare ?? (vehicle.Suspension is IndependentSuspension ? 1 : 0);
            var rise = ((1 - share) * rest.UnsprungHeave) + (share * rest.BodyHeave);
            double hrc = vehicle.RollCentreHeight + rise, h = body.CgHeight + rest.BodyHeave - hrc, hu = vehicle.Unsprung.CgHeight + rest.UnsprungHeave;

            // The axle turns about the roll centre, which now sits elsewhere on it.
            IFitting OnAxle(IFitting fitting) => fitting is LiveAxleMountFitting mounts
                ? new LiveAxleMountFitting(mounts.AxleEnd, mounts.BodyEnd, mounts.RollCentreHeight + rise - rest.UnsprungHeave, mounts.HalfTrack)
                : fitting;

            // To the rest at one temperature, from there without heat exchange.
            double Gas(Damper damper, double x, double atRest)
            {
                if (damper.Gas is not { } gas)
                    return damper.GasForce;
                double Volume(double stroke) => gas.Volume - (gas.RodArea * stroke);
                var pressure = gas.Pressure * gas.Volume / Volume(atRest) * Math.Pow(Volume(atRest) / Volume(x), gas.PolytropicIndex);
                return (pressure - 101_325) * gas.RodArea;
            }

            double force = 0, moment = vehicle.AntiRollBar * r;
            foreach (var side in (Side[])[Side.Left, Side.Right])
            {
                void Add(IFitting fitting, Func<double, double, double> law)
                {
                    var motion = OnAxle(fitting).At(q, r, side);
                    var f = law(motion.Compression, (motion.HeaveRatio * heaveRate) + (motion.RollArm * rollRate));
                    force += motion.HeaveRatio * f;
                    moment += motion.RollArm * f;
                }

                var (suspension, damper) = (vehicle.On(side), layout.On(side));
                Add(suspension.Spring.Fitting, (x, _) => design.SpringForceOn(side).Value(x));
                Add(damper.Fitting, (x, v) => damper.Damper.Force(v) + Gas(damper.Damper, x, OnAxle(damper.Fitting).At(rest.UnsprungHeave - rest.BodyHeave, rest.UnsprungRoll - rest.BodyRoll, side).Compression));
                if (suspension.BumpStop is { } bump)
                    Add(bump.Fitting, (x, _) => bump.Force(x - bump.Clearance));
                if (suspension.ReboundStop is { } rebound)
                    Add(rebound.Fitting, (x, _) => -rebound.Force(-x - rebound.Clearance));
            }

            double tyres = 0, tyreMoment = 0;
            foreach (var y in vehicle.ContactPositions)
            {
                // Set at the design load, and never pulling.
                var load = Math.Max(0, vehicle.StaticTyreLoad - (vehicle.Tyre.Stiffness * (zu + (y * axleRoll))) - (vehicle.Tyre.Damping * (fromRest[6] + (y * fromRest[7]))));
                tyres += load;
                tyreMoment += y * load;
            }

            var g = vehicle.Gravity;
            var axleInertia = vehicle.Suspension is IndependentSuspension
                ? vehicle.Unsprung.Mass * vehicle.HalfTrack * vehicle.HalfTrack
                : vehicle.Unsprung.AxleRollInertia!.Value + (vehicle.Unsprung.Mass * (hu - hrc) * (hu - hrc));

            // The centre of gravity, yG beside the centre plane and h above the roll centre, stands e beside the roll centre where the car rests:
            // m z̈ + m e φ̈ = F − m g and m e z̈ + J φ̈ = M + m h ay + m g (h sin φ − yG cos φ), by Cramer's rule.
            double m = body.Mass, y0 = body.CgOffset, e = (y0 * Math.Cos(rest.BodyRoll)) - (h * Math.Sin(rest.BodyRoll)), inertia = body.RollInertia + (m * ((h * h) + (y0 * y0)));
            double lift = force - (m * g), turn = moment + (m * h * ay) + (m * g * ((h * Math.Sin(bodyRoll)) - (y0 * Math.Cos(bodyRoll)))), determinant = (m * inertia) - (m * e * m * e);
            return
            [
                ((lift * inertia) - (turn * m * e)) / determinant,
                ((turn * m) - (lift * m * e)) / determinant,
                ((tyres - force) / vehicle.Unsprung.Mass) - g,
                (tyreMoment - moment + (((body.Mass * hrc) + (vehicle.Unsprung.Mass * hu)) * ay)) / axleInertia,
            ];
        }
    }
}
