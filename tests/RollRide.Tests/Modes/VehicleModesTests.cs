using System.Numerics;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Studies;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Modes;

/// <summary>Modes of a vehicle with two axles: names, shares and limits, and textbook vehicles recomputed by hand.</summary>
public sealed class VehicleModesTests
{
    private const double Velocity = 0.1;

    private static AssembledHalfCar Front { get; } = new(
        Independent with { Body = Independent.Body with { Mass = 800, RollInertia = 150, CgHeight = 0.6 }, RollCentreHeight = 0.05, AntiRollBar = 15e3 },
        LinearLayout(1500, 0.8, 0.8));

    private static AssembledHalfCar Rear { get; } = new(LiveAxle, LinearLayout());

    [Fact]
    public void EndsThatNothingJoins_HaveTheModesOfTwoHalfCars()
    {
        var modes = VehicleModeFollower.Solve(Joined(Rear, Front, 0, loss: 0), Velocity, false);
        var (rear, front) = (ModeFollower.Solve(LinearHalfCar.AtRest(Rear), 2500), ModeFollower.Solve(LinearHalfCar.AtRest(Front), 1500));
        Same(rear.Hop, modes[VehicleModeName.RearHop]!);
        Same(rear.Tramp, modes[VehicleModeName.RearTramp]!);
        Same(front.Hop, modes[VehicleModeName.FrontHop]!);
        Same(front.Tramp, modes[VehicleModeName.FrontTramp]!);
        Complex[] rolls = [rear.Roll.Eigenvalue, front.Roll.Eigenvalue], heaves = [rear.Heave.Eigenvalue, front.Heave.Eigenvalue];
        Equal(rolls, [modes.Roll.Eigenvalue, modes[VehicleModeName.Twist]!.Eigenvalue]);
        Equal(heaves, [modes[VehicleModeName.Bounce]!.Eigenvalue, modes[VehicleModeName.Pitch]!.Eigenvalue]);
        Assert.True(modes.RollsInParts);

        static void Same(NaturalMode expected, VehicleMode got) => Assert.Equal(0, (expected.Eigenvalue - got.Eigenvalue).Magnitude, 1e-11 * expected.Eigenvalue.Magnitude);
        static void Equal(Complex[] expected, Complex[] got)
        {
            foreach (var (one, other) in expected.OrderBy(value => value.Imaginary).Zip(got.OrderBy(value => value.Imaginary)))
                Assert.Equal(0, (one - other).Magnitude, 1e-11 * one.Magnitude);
        }
    }

    [Theory]
    [InlineData(20e3)]
    [InlineData(400e3)]
    [InlineData(null)]
    public void EqualEnds_HaveTheRollAndBounceOfEitherAlone(double? twist)
    {
        var modes = VehicleModeFollower.Solve(Joined(Rear, Rear, twist), Velocity, false);
        var alone = ModeFollower.Solve(LinearHalfCar.AtRest(Rear), 2500);
        Assert.Equal(0, (alone.Roll.Eigenvalue - modes.Roll.Eigenvalue).Magnitude, 1e-10 * alone.Roll.Eigenvalue.Magnitude);
        Assert.Equal(0, (alone.Heave.Eigenvalue - modes[VehicleModeName.Bounce]!.Eigenvalue).Magnitude, 1e-10 * alone.Heave.Eigenvalue.Magnitude);
        Assert.Equal(0.25, modes.Roll.DampingShares!.OwnLeft, 1e-9);
        Assert.Equal(0.5, modes.Roll.DampingShares.Second, 1e-9);
        Assert.Equal(twist is null, modes[VehicleModeName.Twist] is null);
    }

    [Theory]
    [InlineData(60e3, 2500.0, 0.0)]
    [InlineData(60e3, 1800.0, 4e5)]
    [InlineData(null, 1800.0, 4e5)]
    [InlineData(600e3, null, 0.0)]
    public void DampingShares_SplitTheDecayRateExactly(double? twist, double? pitchInertia, double mount)
    {
        // −Re λ = ½ Σ P / E with the energy E of masses, springs, frame and mounts, and the power P of each damper, at amplitudes X eᵏᵗ.
        DamperLayout In(DamperLayout layout, double coefficient) => Layout(layout.Fitting, LinearDamper(coefficient) with { TopMountStiffness = mount > 0 ? mount : null });
        var (rear, front) = (new AssembledHalfCar(LiveAxle with { Tyre = new Tyre { Stiffness = 220e3, Damping = 200 } }, In(Rear.Layout, 2500)), new AssembledHalfCar(Front.Vehicle, In(Front.Layout, 1500)));
        var car = Joined(rear, front, twist, pitchInertia, 150);
        var linear = LinearVehicle.AtRest(car);
        double[] coefficients = [2500, 2500, 1500, 1500];
        foreach (var mode in VehicleModeFollower.Solve(car, Velocity, false).All.Where(mode => !mode.IsOverdamped))
        {
            var shares = mode.DampingShares!;
            Assert.Equal(1, shares.Own + shares.Second + shares.Rest, 1e-12);
            Assert.Equal(1, mode.Participation.Values.Sum(), 1e-10);
            Complex[] shape = [.. mode.Shape];
            var (l, losses) = (mode.Eigenvalue, linear.Losses(coefficients, mode.Eigenvalue, shape));
            var energy = 0.0;
            for (var i = 0; i < shape.Length; i++)
            {
                for (var j = 0; j < shape.Length; j++)
                    energy += (((l.Magnitude * l.Magnitude * linear.Mass[i, j]) + linear.Stiffness[i, j]) * (Complex.Conjugate(shape[i]) * shape[j])).Real;
            }

            for (var k = 0; mount > 0 && k < 4; k++)
            {
                // Mount and damper carry the same force: km (x − s) = c λ s.
                var stroke = Math.Sqrt(losses[k] / coefficients[k]);
                var stretch = coefficients[k] * l.Magnitude * stroke / mount;
                energy += mount * stretch * stretch;
            }

            Assert.Equal(-l.Real, l.Magnitude * l.Magnitude * losses.Sum() / energy, 1e-8 * l.Magnitude);
            Assert.Equal(losses[0] / losses.Sum(), shares.OwnLeft, 1e-12);
        }
    }

    [Fact]
    public void StifferFrame_BringsTheModesToThoseOfOneThatDoesNotTwist()
    {
        double Roll(double? twist) => VehicleModeFollower.Solve(Joined(Rear, Front, twist, loss: 0), Velocity, false).Roll.DampingRatio;
        var rigid = Roll(null);
        Assert.Equal(10, (Roll(1e8) - rigid) / (Roll(1e9) - rigid), 0.2);
        Assert.Equal(rigid, Roll(1e10), 1e-6);
    }

    [Fact]
    public void Shape_IsOneWhereItMovesMost() => Assert.All(
        VehicleModeFollower.Solve(Joined(Rear, Front, 200e3), Velocity, false).All,
        mode => Assert.Equal(1, mode.Shape.Max(value => value.Magnitude), 1e-12));

    [Fact] // Each body leans with ms g h = 1000 · 9.81 · 0.5 = 4905 N·m/rad, and its springs hold it with 2 · 3000 · 0.5² = 1500.
    public void BodyThatItsSpringsDoNotHoldUp_IsRefused()
    {
        var soft = new AssembledHalfCar(LiveAxle with { AntiRollBar = 0, Spring = new Spring(new LinearSpring(3e3), Ratio(1, 0.50 / HalfTrack)) }, LinearLayout());
        Assert.Equal(2 * 4905, Assert.Throws<UnstableBodyException>(() => VehicleModeFollower.Solve(Joined(soft, soft, 200e3), Velocity, false)).GravityMoment, 1e-6);
    }

    [Theory]
    [InlineData(Axle.Front)]
    [InlineData(Axle.Rear)]
    public void SeenFromTheAxleThatTheLayoutsAreFor_HopAndTrampAreItsOwn(Axle other)
    {
        var follower = new VehicleModeFollower(RollRide.Tests.Dynamics.TwoAxlesTests.Joined(Rear, Front, 0, null, 0, other), Velocity);
        var (seen, alone) = (((IModeFollower)follower).At(2500), ModeFollower.Solve(LinearHalfCar.AtRest(Rear), 2500));

        // Nothing joins the ends, so the axle's modes are those of a half-car, to rounding.
        Assert.Equal(0, (alone.Hop.Eigenvalue - seen.Hop.Eigenvalue).Magnitude, 1e-10 * alone.Hop.Eigenvalue.Magnitude);
        Assert.Equal(0, (alone.Tramp.Eigenvalue - seen.Tramp.Eigenvalue).Magnitude, 1e-10 * alone.Tramp.Eigenvalue.Magnitude);
    }

    [Fact]
    public void Window_OnEqualEndsWithTheirOwnDamper_MeetsTheTargetsAtItsEdges()
    {
        var targets = new DampingTargets(0.1, 0.15, 0.45, Velocity);
        var car = Joined(Rear, Front, 200e3);
        var window = SettingWindow.OnVehicle(car, targets);
        Assert.True(window.IsOpen);
        var modes = VehicleModeFollower.Solve(Joined(new AssembledHalfCar(LiveAxle, LinearLayout(window.Upper.Coefficient)), Front, 200e3), Velocity, false);
        Assert.Equal(DampingTarget.HeaveMaximum, window.Upper.Binding);
        Assert.Equal(0.45, modes.MoreDampedHeave.DampingRatio, 1e-6);
    }

    [Fact]
    public void Window_WhereFrictionCounts_MeetsTheTargetsWithTheFrictionOfTheOtherAxle()
    {
        var rubbing = new AssembledHalfCar(Front.Vehicle, Layout(Front.Layout.Fitting, Front.Layout.Damper with { Friction = 60 }));
        var verdict = WindowVerdict.OnVehicle(Joined(Rear, rubbing, 200e3, 1500), new DampingTargets(0.1, 0.15, 0.45, Velocity), includeFriction: true);
        var upper = new AssembledHalfCar(LiveAxle, LinearLayout(verdict.Window.Upper.Coefficient));
        Assert.Equal(0.45, VehicleModeFollower.Solve(Joined(upper, rubbing, 200e3, 1500), Velocity, includeFriction: true).MoreDampedHeave.DampingRatio, 1e-6);
        Assert.NotEqual(0.45, VehicleModeFollower.Solve(Joined(upper, Front, 200e3, 1500), Velocity, includeFriction: true).MoreDampedHeave.DampingRatio, 1e-4);
    }

    [Fact]
    public void Window_WithTopMounts_BeginsAtNoDampingWhereTheMountsCarryNothing()
    {
        var mounted = new AssembledHalfCar(LiveAxle, Layout(Rear.Layout.Fitting, LinearDamper(2500) with { TopMountStiffness = 4e5 }));
        var follower = new VehicleModeFollower(Joined(mounted, Front, 200e3), Velocity);
        var (without, rigid) = (follower.ModesAt(0), new VehicleModeFollower(Joined(Rear, Front, 200e3), Velocity).ModesAt(0));
        foreach (var mode in rigid.All)
            Assert.Equal(mode.DampingRatio, without[mode.Name]!.DampingRatio, 1e-9);
        Assert.NotNull(SettingWindow.OnVehicle(Joined(mounted, Front, 200e3), new DampingTargets(0.1, 0.15, 0.45, Velocity)));
    }

    [Fact]
    public void FullCarOfEqualCorners_HasTheFrequenciesComputedByHand()
    {
        // 1270 kg, 500 and 2000 kg·m², four corners of 22 kN/m, 1500 N·s/m, 45.4 kg on 192 kN/m at ±1.3 and ±0.75 m.
        const string source = Evidence.Derived + "M, C, K of the seven-degree-of-freedom full car";
        var modes = FullCar(1270, 500, 2000, 1.3, 1.3, 0.75, (45.4, 22e3, 192e3, 0, 1500), (45.4, 22e3, 192e3, 0, 1500));
        Row("full car of equal corners", source, modes, VehicleModeName.Pitch, 1.3191407711, 0.2518375438);
        Row("full car of equal corners", source, modes, [VehicleModeName.FrontHop, VehicleModeName.RearHop], "pitching hop", 10.7681599604, 0.2507819566);
        Row("full car of equal corners", source, modes, [VehicleModeName.FrontTramp, VehicleModeName.RearTramp], "warp", 10.9269534235, 0.2406170790);
    }

    [Fact]
    public void FullCarWithBars_HasTheFrequenciesComputedByHand()
    {
        const string source = Evidence.Derived + "M, C, K of the seven-degree-of-freedom full car";
        var modes = FullCar(1400, 500, 2000, 1.2, 1.4, 0.75, (40, 22e3, 190e3, 8e3, 1500), (45, 26e3, 200e3, 4e3, 1700));
        (double Frequency, double Ratio)[] expected =
        [
            (1.197947595, 0.228093168), (1.442078994, 0.260646067), (1.739282150, 0.255796476), (11.082510201, 0.279395136),
            (11.218135326, 0.276734022), (11.444409899, 0.266131860), (11.699272037, 0.257625522),
        ];
        var found = modes.All.OrderBy(mode => mode.NaturalFrequency).ToArray();
        for (var i = 0; i < expected.Length; i++)
        {
            Validation.Row($"mode {i + 1}", "full car with bars: |λ|/2π, Hz", source, expected[i].Frequency, found[i].NaturalFrequency, 2e-6);
            Validation.Row($"mode {i + 1}", "full car with bars: damping ratio", source, expected[i].Ratio, found[i].DampingRatio, 2e-6);
        }
    }

    [Theory]
    [InlineData("after Thomson", 1459.390294, 1.2192, 1.3716, 1.6764, 35025.36705, 37944.14764, 6.899428376, 9.051471598)]
    [InlineData("after Rao", 1000, 0.9, 1.0, 1.5, 18e3, 22e3, 5.859291842, 9.434088851)]
    [InlineData("after Thomson, exercise", 1586.293798, 1.2192, 1.34112, 1.70688, 29187.8058, 35025.36705, 6.045765769, 8.334837507)]
    public void BodyOnTwoSprings_BouncesAndPitches_AsTheTextbookSays(string which, double mass, double radius, double a, double b, double front, double rear, double lower, double upper)
    {
        var modes = FullCar(mass, 500, mass * radius * radius, a, b, 0.75, (100, front / 2, RigidTyre, 30e3, 1), (100, rear / 2, RigidTyre, 30e3, 1));
        double[] found = [.. new[] { modes[VehicleModeName.Bounce]!, modes[VehicleModeName.Pitch]! }.Select(mode => 2 * Math.PI * mode.NaturalFrequency).Order()];
        const string source = Evidence.Derived + "(k1 + k2 − m ω²)(k1 l1² + k2 l2² − m r² ω²) = (k2 l2 − k1 l1)², of the book's example";
        Validation.Row(which, "bounce and pitch on rigid tyres: lower frequency, rad/s", source, lower, found[0], 2e-5);
        Validation.Row(which, "bounce and pitch on rigid tyres: upper frequency, rad/s", source, upper, found[1], 2e-5);
    }

    [Fact]
    public void PitchPlaneModel_HasTheFrequenciesOfAnIndependentFiniteElementModel()
    {
        // Both wheels of an axle together: halves of the axle's numbers at each side.
        var modes = FullCar(20e3, 5000, 10e3, 2.5, 2.5, 0.75, (375, 0.5e6, 1.75e6, 1e6, 1), (375, 0.5e6, 1.75e6, 1e6, 1));
        double[] expected = [1.4010, 4.8321, 12.351, 12.661];
        VehicleModeName[] names = [VehicleModeName.Bounce, VehicleModeName.Pitch, VehicleModeName.FrontHop, VehicleModeName.RearHop];
        double[] found = [.. names.Select(name => modes[name]!.NaturalFrequency).Order()];
        const string source = Evidence.PrintedUnreviewed + "D. Cantero, VEqMon2D, SoftwareX 19 (2022) 101103, validation file: finite-element model";
        for (var i = 0; i < expected.Length; i++)
            Validation.Row($"frequency {i + 1}", "bounce, pitch and hops of a body on two axles, Hz", source, expected[i], found[i], i < 2 ? 5e-5 : 5e-4);
    }

    private static void Row(string which, string source, VehicleModeSet modes, VehicleModeName name, double frequency, double ratio) => Row(which, source, modes, [name], $"{name}".ToLowerInvariant(), frequency, ratio);

    private static void Row(string which, string source, VehicleModeSet modes, VehicleModeName[] names, string called, double frequency, double ratio)
    {
        var mode = names.Select(name => modes[name]!).MinBy(mode => Math.Abs(mode.NaturalFrequency - frequency))!;
        Validation.Row(which, $"{called}: |λ|/2π, Hz", source, frequency, mode.NaturalFrequency, 2e-6);
        Validation.Row(which, $"{called}: damping ratio", source, ratio, mode.DampingRatio, 2e-6);
    }

    /// <summary>A textbook's full car: independent corners, roll about its centre of gravity, hardly any weight; the bars' moments over relative roll.</summary>
    private static VehicleModeSet FullCar(
        double mass, double rollInertia, double pitchInertia, double a, double b, double halfTrack, (double Wheel, double Spring, double Tyre, double Bar, double Damper) front, (double Wheel, double Spring, double Tyre, double Bar, double Damper) rear)
    {
        AssembledHalfCar Corner((double Wheel, double Spring, double Tyre, double Bar, double Damper) of, double share)
        {
            var fitting = new FixedRatioFitting(1, 1, halfTrack);
            return new AssembledHalfCar(
                new HalfCar
                {
                    Name = "textbook",
                    Suspension = new IndependentSuspension(),
                    Track = 2 * halfTrack,
                    RollCentreHeight = 0.5,
                    Body = new SprungBody { Mass = share * mass, RollInertia = share * rollInertia, CgHeight = 0.5 },
                    Unsprung = new UnsprungMass { Mass = 2 * of.Wheel, CgHeight = 0.3 },
                    Spring = new Spring(new LinearSpring(of.Spring), fitting),
                    AntiRollBar = of.Bar,
                    Tyre = new Tyre { Stiffness = of.Tyre },
                    Gravity = 1e-6,
                },
                Layout(fitting, LinearDamper(of.Damper)));
        }

        var length = a + b;
        var (f, r) = (Corner(front, b / length), Corner(rear, a / length));
        return VehicleModeFollower.Solve(
            new AssembledHalfCar(
                r.Vehicle with
                {
                    SecondAxle = new SecondAxle { Vehicle = f.Vehicle, Layout = f.Layout, Place = Axle.Front, Chassis = new Chassis { Wheelbase = length, TorsionalStiffness = null, PitchInertia = pitchInertia } },
                },
                r.Layout),
            Velocity,
            false);
    }

    private static AssembledHalfCar Joined(AssembledHalfCar own, AssembledHalfCar second, double? twist, double? pitchInertia = null, double? loss = null) =>
        RollRide.Tests.Dynamics.TwoAxlesTests.Joined(own, second, twist, pitchInertia, loss);
}
