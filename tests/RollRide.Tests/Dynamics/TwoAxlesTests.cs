using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

/// <summary>Two axles on one body: the equations against their textbook form, and the limits in which they are two half-cars, or one.</summary>
public sealed class TwoAxlesTests
{
    private const double Wheelbase = 2.7;

    // Small enough that sin φ = φ to 1e-10.
    private const double Small = 1e-3;

    /// <summary>A lighter front axle of another kind, with a real damper.</summary>
    private static AssembledHalfCar Front { get; } = new(
        Independent with { Body = Independent.Body with { Mass = 800, RollInertia = 150, CgHeight = 0.6 }, RollCentreHeight = 0.05, AntiRollBar = 15e3 },
        Layout(Ratio(0.8, 0.8), RealDamper));

    private static AssembledHalfCar Rear { get; } = new(Full, Layout(InclinedMounts, RealDamper));

    public static TheoryData<double?, double?, double?> Chassis => new()
    {
        { 0, null, 0 }, { 60e3, null, null }, { 60e3, 2500, null }, { 60e3, 1800, 200 }, { null, null, null }, { null, 2600, null },
    };

    [Theory]
    [MemberData(nameof(Chassis))]
    public void AnyState_ObeysTheEquationsOfTheJoinedBody(double? twist, double? pitchInertia, double? loss)
    {
        // mff z̈f + mfr z̈r = Ff − ms,f g …; Ji φ̈i = Mi + … + Kt (φj − φi) + Ct (φ̇j − φ̇i), the forces taken from each axle by itself.
        var car = Joined(Rear, Front, twist, pitchInertia, loss);
        var (one, two) = (Equations(Rear, 2), Equations(Front, 2));
        var both = Equations(car, 2);
        double[] rear = [0.01, 0.02, -0.01, 0.005, 0.1, -0.2, 0.3, 0.1], front = [-0.02, 0.02, 0.01, -0.01, -0.2, -0.2, 0.1, 0.4];
        if (twist is not null)
            (front[1], front[5]) = (-0.01, 0.3);
        var (r, f, joined) = (new double[8], new double[8], new double[16]);
        one.Derivatives(0.5, rear, r);
        two.Derivatives(0.5, front, f);
        both.Derivatives(0.5, [.. rear, .. front], joined);

        double mr = Full.Body.Mass, mf = Front.Vehicle.Body.Mass, ms = mr + mf, a = Wheelbase * mr / ms, b = Wheelbase - a;
        var iy = pitchInertia ?? (ms * a * b);
        double mff = ((ms * b * b) + iy) / (Wheelbase * Wheelbase), mrr = ((ms * a * a) + iy) / (Wheelbase * Wheelbase), mfr = ((ms * a * b) - iy) / (Wheelbase * Wheelbase);
        var (zr, zf) = (joined[4], joined[8 + 4]);
        Assert.Equal(mf * f[4], (mff * zf) + (mfr * zr), 1e-8);
        Assert.Equal(mr * r[4], (mfr * zf) + (mrr * zr), 1e-8);

        double jr = Rear.Vehicle.BodyRollInertia, jf = Front.Vehicle.BodyRollInertia;
        var (rollRear, rollFront) = (joined[5], joined[8 + 5]);
        if (twist is { } stiffness)
        {
            var damping = loss ?? (2 * 0.02 * Math.Sqrt(stiffness * jr * jf / (jr + jf)));
            var moment = (stiffness * (front[1] - rear[1])) + (damping * (front[5] - rear[5]));
            Assert.Equal((jr * r[5]) + moment, jr * rollRear, 1e-8);
            Assert.Equal((jf * f[5]) - moment, jf * rollFront, 1e-8);
        }
        else
        {
            Assert.Equal(rollRear, rollFront);
            Assert.Equal((jr * r[5]) + (jf * f[5]), (jr + jf) * rollRear, 1e-8);
        }

        // The axles feel their own springs and tyres alone.
        Assert.Equal(r[6..], joined[6..8]);
        Assert.Equal(f[6..], joined[14..]);
    }

    [Theory]
    [MemberData(nameof(TestCars.FittingNames), MemberType = typeof(TestCars))]
    public void EndsThatNothingJoins_MoveAsTwoHalfCars_ToTheLastDigit(string name)
    {
        var rear = Find(name);
        var car = Joined(rear, Front, 0, null, 0);
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.06, 3, 2);
        var road = manoeuvre.Road with { Wheelbase = Wheelbase };
        var (both, one) = (new HalfCarEquations(car, road, manoeuvre.Cornering), new HalfCarEquations(rear, new Road(road.Left.Shifted(Wheelbase), road.Right, 15), manoeuvre.Cornering));
        both.EnterSegment(0.39, 0.5);
        one.EnterSegment(0.39, 0.5);
        var state = new double[both.Dimension];
        for (var i = 0; i < state.Length; i++)
            state[i] = 0.01 * Math.Sin(i + 1);
        var (joined, alone) = (new double[both.Dimension], new double[one.Dimension]);
        both.Derivatives(0.4, state, joined);
        one.Derivatives(0.4, state.AsSpan(0, one.Dimension), alone);
        Assert.Equal(alone, joined[..one.Dimension]);

        var two = new HalfCarEquations(Front, manoeuvre.Road, manoeuvre.Cornering);
        two.EnterSegment(0.39, 0.5);
        var front = new double[two.Dimension];
        two.Derivatives(0.4, state.AsSpan(one.Dimension), front);
        Assert.Equal(front, joined[one.Dimension..]);
    }

    [Fact]
    public void EndsThatNothingJoins_RunAsTwoHalfCars()
    {
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.06, 3, 3);
        var car = Joined(Rear, Front, 0, null, 0);
        var (both, one) = (
            Record(car, manoeuvre with { Road = manoeuvre.Road with { Wheelbase = Wheelbase } }, 1e-8, 200),
            Record(Rear, manoeuvre with { Road = new Road(manoeuvre.Road.Left.Shifted(Wheelbase), manoeuvre.Road.Right, 15) }, 1e-8, 200));
        var two = Record(Front, manoeuvre, 1e-8, 200);
        for (var i = 0; i < both.Count; i++)
        {
            Assert.Equal(one[Channel.BodyRoll][i], both[Channel.BodyRoll][i], 1e-7);
            Assert.Equal(one[Channel.TyreLoadLeft][i], both[Channel.TyreLoadLeft][i], 0.05);
            Assert.Equal(two[Channel.BodyRoll][i], both[Channel.SecondBodyRoll][i], 1e-7);
            Assert.Equal(two[Channel.TyreLoadLeft][i], both[Channel.SecondTyreLoadLeft][i], 0.05);
        }
    }

    [Theory]
    [MemberData(nameof(Chassis))]
    public void EqualEnds_InTheSameTurn_MoveAsEitherAlone(double? twist, double? pitchInertia, double? loss)
    {
        var manoeuvre = new Manoeuvre { Road = Road.Flat(15), Cornering = new GivenLateralAcceleration(CorneringEvents.Ramp(0.2, 0.2, 4)), Duration = 1.5 };
        var (both, one) = (Record(Joined(Rear, Rear, twist, pitchInertia, loss), manoeuvre, 1e-8, 100), Record(Rear, manoeuvre, 1e-8, 100));
        for (var i = 0; i < one.Count; i++)
        {
            Assert.Equal(one[Channel.BodyRoll][i], both[Channel.BodyRoll][i], 1e-7);
            Assert.Equal(one[Channel.BodyHeave][i], both[Channel.BodyHeave][i], 1e-7);
            Assert.Equal(one[Channel.TyreLoadRight][i], both[Channel.SecondTyreLoadRight][i], 0.05);
            Assert.Equal(0, both[Channel.FrameTwist][i], 1e-7);
        }
    }

    [Fact]
    public void StiffFrame_StandsAsOneThatDoesNotTwist_AsTheInverseOfItsStiffness()
    {
        double Roll(double? twist) => StaticEquilibrium.Find(Joined(Rear, Front, twist, null, 0), 4).BodyRoll;
        var rigid = Roll(null);
        var (near, nearer) = (Roll(1e8) - rigid, Roll(1e9) - rigid);
        Assert.InRange(Math.Abs(near), 1e-7, 1e-4);
        Assert.Equal(10, near / nearer, 0.01);
        var stand = StaticEquilibrium.Find(Joined(Rear, Front, null, null, null), 4);
        Assert.Equal(stand.BodyRoll, stand.Second!.BodyRoll);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(20e3)]
    [InlineData(200e3)]
    [InlineData(5e6)]
    public void SteadyCorner_RollsAndShiftsLoad_AsTheTwoByTwoSystemSays(double twist)
    {
        // [Kf+Kt, −Kt; −Kt, Kr+Kt][φf; φr] = [Wf; Wr], linear springs and small angles.
        var (rear, front) = (new AssembledHalfCar(LiveAxle, LinearLayout()), new AssembledHalfCar(Independent, LinearLayout()));
        var stand = StaticEquilibrium.Find(Joined(rear, front, twist, null, 0), Small);
        var (r, f) = (Of(rear), Of(front));
        var determinant = ((f.K + twist) * (r.K + twist)) - (twist * twist);
        var (rollFront, rollRear) = (((f.W * (r.K + twist)) + (r.W * twist)) / determinant * Small, ((r.W * (f.K + twist)) + (f.W * twist)) / determinant * Small);
        Assert.Equal(rollRear, stand.BodyRoll, 1e-6 * rollRear);
        Assert.Equal(rollFront, stand.Second!.BodyRoll, 1e-6 * rollFront);
        Assert.Equal(r.Transfer(rollRear), 220e3 * HalfTrack * stand.UnsprungRoll, 1e-5 * r.Transfer(rollRear));
        Assert.Equal(f.Transfer(rollFront), 220e3 * HalfTrack * stand.Second.UnsprungRoll, 1e-5 * f.Transfer(rollFront));

        static (double K, double W, Func<double, double> Transfer) Of(AssembledHalfCar car)
        {
            var v = car.Vehicle;
            var ratio = v.Spring.Fitting.RollRatio * HalfTrack;
            var springs = v.Spring.Characteristic is LinearSpring spring ? (2 * spring.Rate * ratio * ratio) + v.AntiRollBar : double.NaN;
            var tyres = 2 * v.Tyre.Stiffness * HalfTrack * HalfTrack;
            var unsprung = v.UnsprungLateralMoment;
            return (
                (springs * tyres / (springs + tyres)) - (v.Body.Mass * TextbookGravity * v.RollArm),
                (v.Body.Mass * v.RollArm) + (unsprung * springs / (springs + tyres)),
                roll => v.Tyre.Stiffness * HalfTrack * ((unsprung * Small) + (springs * roll)) / (springs + tyres));
        }
    }

    [Theory]
    [InlineData(596.0, 513.0, 100.0, 50.26221655)]
    [InlineData(596.0, 513.0, 600.0, 52.24914431)]
    [InlineData(596.0, 513.0, 1855.0, 53.12851474)]
    [InlineData(596.0, 513.0, 4000.0, 53.43633867)]
    [InlineData(596.0, 513.0, 16000.0, 53.66178254)]
    [InlineData(596.0, 513.0, null, 53.74211001)]
    public void FrontShareOfElasticTransfer_OverFrameStiffness_IsThatOfTheClosedForm(double front, double rear, double? twist, double share)
    {
        // All roll stiffness in the bars, roll centres on the road and no unsprung mass to speak of, so that all transfer is elastic; 49 % of the
        // body's moment in front; gravity of 1e-3 m/s².
        var stand = StaticEquilibrium.Find(Joined(BarAxle(510, 100 * rear), BarAxle(490, 100 * front), 100 * twist, null, 0), 1e-5);
        var (f, r) = (stand.Second!.UnsprungRoll, stand.UnsprungRoll);
        Validation.Row(
            FormattableString.Invariant($"frame of {(twist is null ? "any stiffness" : $"{twist:F0}")}"), "two axles: front's share of the elastic load transfer, %",
            Evidence.Derived + "sf = (Kf Kr mf + Kf Kc)/(Kf Kr + Kc (Kf + Kr)); roll stiffnesses 596 and 513, 49 % of the moment in front", share, 100 * f / (f + r), 2e-4);
    }

    [Theory]
    [InlineData(0.5, 10.714286)]
    [InlineData(1.0, 19.354839)]
    [InlineData(1.5, 26.470588)]
    public void SoftFrame_DeliversLessOfAChangeOfRollStiffness_ThanARigidOne(double stiffnessOverFrame, double lost)
    {
        // Roll stiffness moved from 40 to 60 % in front at a constant sum Kt, on a frame of Kc = Kt/R.
        const double sum = 100e3;
        double Share(double front)
        {
            var stand = StaticEquilibrium.Find(Joined(BarAxle(550, (1 - front) * sum), BarAxle(450, front * sum), sum / stiffnessOverFrame, null, 0), 1e-5);
            return stand.Second!.UnsprungRoll / (stand.Second.UnsprungRoll + stand.UnsprungRoll);
        }

        Validation.Row(
            FormattableString.Invariant($"roll stiffness over frame {stiffnessOverFrame:F1}"), "two axles: change of the front's share that a soft frame loses, %",
            Evidence.Derived + "24 R/(1 + 0.24 R); A. Deakin et al., SAE 2000-01-3554, as quoted, give about 20 R", lost, 100 * (1 - ((Share(0.6) - Share(0.4)) / 0.2)), 2e-3);
    }

    [Fact]
    public void RearAxle_MeetsTheRoadLaterByTheTimeOfTheWheelbase()
    {
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.06, 3, 2) with { Road = Road.Flat(15).With(RoadEvents.HaversineBump(3, 2.5, 0.06), RoadSide.Left) with { Wheelbase = Wheelbase } };
        var car = Joined(Rear, Front, 60e3, null, null);
        var (asRear, asFront) = (Record(car, manoeuvre, 1e-6, 1000), Record(Joined(Rear, Front, 60e3, null, null, Axle.Rear), manoeuvre, 1e-6, 1000));
        var late = (int)(1000 * Wheelbase / 15);
        Assert.Equal(0.18, late / 1000.0);
        for (var i = late; i < asRear.Count; i++)
            Assert.Equal(asFront[Channel.RoadLeft][i - late], asRear[Channel.RoadLeft][i], 1e-12);
        Assert.Contains(0.2 + 0.18, manoeuvre.Road.Breakpoints.Select(time => Math.Round(time, 9)));
    }

    [Fact]
    public void SteeredAxles_HaveTheLateralAccelerationsOfTheirSideForces()
    {
        var model = new SingleTrackModel { Mass = 2000, YawInertia = 3500, A = 1.3, B = 1.4, FrontCorneringStiffness = 90e3, RearCorneringStiffness = 110e3, SteeringRatio = 16 };
        var input = new SteeredLateralAcceleration(model, CorneringEvents.Ramp(0.1, 0.2, 0.6), 20, 2);
        var (front, rear) = input.CreateAxleCursors();
        var centre = input.CreateCursor();
        foreach (var cursor in (ICorneringCursor[])[front, rear, centre])
            cursor.EnterSegment(0.2);
        double mf = 2000 * 1.4 / 2.7, mr = 2000 * 1.3 / 2.7;
        foreach (var time in (double[])[0.12, 0.2, 0.29])
        {
            var (yf, yr) = (mf * front.LateralAcceleration(time), mr * rear.LateralAcceleration(time));
            Assert.Equal(2000 * centre.LateralAcceleration(time), yf + yr, 1e-8);

            // Yf = Cf (δ − (v + a r)/V), and nothing moves yet when the ramp begins: all of it is the steering angle.
            Assert.True(yf > yr, "The front axle turns the vehicle in.");
        }

        const double justBegun = 0.1 + 1e-6;
        Assert.Equal(90e3 * 0.6 / 16 * 1e-6 / 0.2, mf * front.LateralAcceleration(justBegun), 1e-5);
        Assert.Equal(0, mr * rear.LateralAcceleration(justBegun), 1e-5);
    }

    [Theory]
    [InlineData(60e3, 1800.0)]
    [InlineData(null, 1800.0)]
    public void MirroredManoeuvre_GivesTheMirroredMotion(double? twist, double pitchInertia)
    {
        var car = Joined(Rear, Front, twist, pitchInertia, null);
        Manoeuvre Driven(RoadSide side, double ay) => BumpThenTurn(side, 0.05, ay, 2) is var m ? m with { Road = m.Road with { Wheelbase = Wheelbase } } : throw new InvalidOperationException();
        var (left, right) = (Record(car, Driven(RoadSide.Left, 3), 1e-6, 100), Record(car, Driven(RoadSide.Right, -3), 1e-6, 100));
        for (var i = 0; i < left.Count; i++)
        {
            Assert.Equal(left[Channel.BodyRoll][i], -right[Channel.BodyRoll][i]);
            Assert.Equal(left[Channel.FrameTwist][i], -right[Channel.FrameTwist][i]);
            Assert.Equal(left[Channel.Pitch][i], right[Channel.Pitch][i]);
            Assert.Equal(left[Channel.SecondTyreLoadLeft][i], right[Channel.SecondTyreLoadRight][i]);
        }
    }

    [Theory]
    [InlineData(60e3, 1800.0, 0.0)]
    [InlineData(60e3, 1800.0, 300.0)]
    [InlineData(null, 2500.0, null)]
    public void FreeMotion_WithoutDampers_LosesNoEnergyButInTheFrame(double? twist, double pitchInertia, double? loss)
    {
        var (rear, front) = (new AssembledHalfCar(LiveAxle, LinearLayout(0)), new AssembledHalfCar(Independent, LinearLayout(0)));
        var car = Joined(rear, front, twist, pitchInertia, loss);
        var equations = Equations(car);
        double[] start = [0.01, 0.01, 0, 0, 0, 0, 0, 0, -0.02, twist is null ? 0.01 : -0.015, 0, 0, 0, 0, 0, 0];
        var accounted = new WithFrameLoss(equations, loss ?? 0);
        double[] state = [.. start, 0];
        Integrator.Run(accounted, 0, 3, state, [], Tolerance(1e-10), cancellation: TestContext.Current.CancellationToken);
        var (before, after) = (Energy(start), Energy(state));
        Assert.True(loss is not > 0 || state[^1] > 0.05 * before, "The frame takes up a good part.");
        Assert.Equal(before, after + state[^1], 1e-6 * before);

        double Energy(ReadOnlySpan<double> x)
        {
            double mr = rear.Vehicle.Body.Mass, mf = front.Vehicle.Body.Mass, ms = mr + mf, a = Wheelbase * mr / ms, b = Wheelbase - a, l2 = Wheelbase * Wheelbase;
            var (zr, zf) = (x[4], x[12]);
            var heave = 0.5 * ((((ms * b * b) + pitchInertia) / l2 * zf * zf) + (2 * ((ms * a * b) - pitchInertia) / l2 * zf * zr) + (((ms * a * a) + pitchInertia) / l2 * zr * zr));
            return heave + Axle(rear, x[..8]) + Axle(front, x[8..16]) + (0.5 * (twist ?? 0) * (x[9] - x[1]) * (x[9] - x[1]));
        }

        static double Axle(AssembledHalfCar car, ReadOnlySpan<double> x)
        {
            var v = car.Vehicle;
            var (q, r) = (x[2] - x[0], x[3] - x[1]);
            var rate = ((LinearSpring)v.Spring.Characteristic).Rate;
            var (heave, roll) = (v.Spring.Fitting.HeaveRatio, v.Spring.Fitting.RollRatio * HalfTrack);
            return 0.5 * ((v.BodyRollInertia * x[5] * x[5]) + (v.Unsprung.Mass * x[6] * x[6]) + (v.UnsprungRollInertia * x[7] * x[7]))
                + (rate * ((heave * q * heave * q) + (roll * r * roll * r))) + (0.5 * v.AntiRollBar * r * r)
                + (v.Tyre.Stiffness * ((x[2] * x[2]) + (HalfTrack * x[3] * HalfTrack * x[3])))
                + (v.Body.Mass * TextbookGravity * v.RollArm * (Math.Cos(x[1]) - 1));
        }
    }

    [Fact]
    public void EqualEnds_OverWavesOfTheWheelbase_DoNotPitch_AndOverTwiceItDoNotHeave()
    {
        // Both wheels of an axle alike; the body's response to the waves alone, once the start has died away.
        var axle = new AssembledHalfCar(LiveAxle, LinearLayout());
        var car = Joined(axle, axle, 100e3, 1500, null);
        (double Heave, double Pitch) Amplitudes(double wavelength)
        {
            var road = Road.Flat(10).With(RoadEvents.Sine(1, wavelength, 0.01, 60), RoadSide.Both) with { Wheelbase = Wheelbase };
            var end = (1 + (60 * wavelength)) / 10;
            var history = Record(car, new Manoeuvre { Road = road, Cornering = GivenLateralAcceleration.StraightAhead, Duration = end }, 1e-8, 500);
            var (heave, pitch) = (0.0, 0.0);
            for (var i = (int)(0.75 * history.Count); i < history.Count; i++)
            {
                heave = Math.Max(heave, Math.Abs(0.5 * (history[Channel.BodyHeave][i] + history[Channel.SecondBodyHeave][i])));
                pitch = Math.Max(pitch, Math.Abs(history[Channel.Pitch][i]));
            }

            return (heave, pitch);
        }

        var (one, two) = (Amplitudes(Wheelbase), Amplitudes(2 * Wheelbase));
        Assert.InRange(one.Pitch * Wheelbase / 2, 0, 1e-4 * one.Heave);
        Assert.InRange(two.Heave, 0, 1e-4 * two.Pitch * Wheelbase / 2);
    }

    [Fact]
    public void Seat_BetweenTheAxles_HasTheAccelerationOfAStraightBody()
    {
        var rear = new AssembledHalfCar(Full with { SeatTowardsSecondAxle = 0.9 }, Rear.Layout);
        var equations = Equations(Joined(rear, Front, 60e3, 1800, null), 2);
        double[] state = [0.01, 0.02, -0.01, 0.005, 0.1, -0.2, 0.3, 0.1, -0.02, -0.01, 0.01, -0.01, -0.2, 0.3, 0.1, 0.4];
        var (channels, derivative) = (new double[ChannelTable.Count], new double[16]);
        equations.WriteChannels(0.5, state, channels);
        equations.Derivatives(0.5, state, derivative);

        // A third of the way from the rear axle, 0.4 m left of the centre.
        var expected = (2.0 / 3 * (derivative[4] + (0.4 * derivative[5]))) + (1.0 / 3 * (derivative[12] + (0.4 * derivative[13])));
        Assert.Equal(expected, channels.Of(Channel.SeatAcceleration), 1e-12);
        Assert.Equal((0.01 - -0.02) / Wheelbase, channels.Of(Channel.Pitch), 1e-15);
        Assert.Equal(-0.01 - 0.02, channels.Of(Channel.FrameTwist), 1e-15);
    }

    [Fact]
    public void FiguresOfTheVehicle_AreTheExtremesOfItsChannels()
    {
        var car = Joined(Rear, Front, 60e3, 1800, null);
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.06, 3, 2) is var m ? m with { Road = m.Road with { Wheelbase = Wheelbase } } : null!;
        var (metrics, history) = (Measure(car, manoeuvre, 1e-7).Whole, Record(car, manoeuvre, 1e-7, 20_000));
        double Most(Channel channel) => history[channel].ToArray().Max(Math.Abs);
        Assert.Equal(Most(Channel.Pitch), metrics[PhaseMetric.PitchPeak]!.Value, 1e-5 * Most(Channel.Pitch));
        Assert.Equal(Most(Channel.FrameTwist), metrics[PhaseMetric.FrameTwistPeak]!.Value, 1e-5 * Most(Channel.FrameTwist));
        var least = Math.Min(history[Channel.SecondTyreLoadLeft].ToArray().Min(), history[Channel.SecondTyreLoadRight].ToArray().Min());
        Assert.Equal(least, metrics[PhaseMetric.OtherAxleTyreLoadMinimum]!.Value, 1e-5 * least);
        Assert.Null(Measure(Rear, BumpThenTurn(RoadSide.Left, 0.06, 3, 2), 1e-6).Whole[PhaseMetric.PitchPeak]);
    }

    [Fact]
    public void SecondAxle_OfASecondAxle_IsRefused()
    {
        var twice = Joined(Rear, Front, 60e3, null, null).Vehicle;
        Assert.Throws<ArgumentException>(() => new SecondAxle { Vehicle = twice, Layout = Rear.Layout, Place = Axle.Front, Chassis = new Chassis { Wheelbase = 3, TorsionalStiffness = 0 } });
    }

    [Fact]
    public void UnevenRoadForOneAxle_IsRefused()
    {
        var road = Road.Flat(10).With(RoadEvents.HaversineBump(3, 2.5, 0.05), RoadSide.Left);
        Assert.Throws<ArgumentException>(() => new HalfCarEquations(Joined(Rear, Front, 60e3, null, null), road, Steady(0)));
    }

    /// <summary>An axle whose roll stiffness, N·m/rad, is all in its bar: roll centre on the road, no unsprung mass or gravity to speak of, so that all load transfer is elastic.</summary>
    private static AssembledHalfCar BarAxle(double mass, double stiffness) => new(
        LiveAxle with
        {
            RollCentreHeight = 0,
            Body = new SprungBody { Mass = mass, RollInertia = 100, CgHeight = 0.5 },
            Unsprung = new UnsprungMass { Mass = 1e-3, CgHeight = 0.3, AxleRollInertia = 1e-3 },
            Spring = new Spring(new LinearSpring(35e3), Ratio(1, 0)),
            AntiRollBar = stiffness,
            Tyre = new Tyre { Stiffness = RigidTyre },
            Gravity = 1e-3,
        },
        LinearLayout());

    /// <summary>A rear axle for which the layouts are, and another.</summary>
    internal static AssembledHalfCar Joined(AssembledHalfCar own, AssembledHalfCar second, double? twist, double? pitchInertia, double? loss, Axle place = Axle.Front) => new(
        own.Vehicle with
        {
            SecondAxle = new SecondAxle
            {
                Vehicle = second.Vehicle,
                Layout = second.Layout,
                Place = place,
                Chassis = new Chassis { Wheelbase = Wheelbase, TorsionalStiffness = twist, TorsionalDamping = loss, PitchInertia = pitchInertia },
            },
        },
        own.Layout);

    /// <summary>The vehicle with one more state: what the frame turns into heat.</summary>
    private sealed class WithFrameLoss(HalfCarEquations equations, double loss) : IOdeSystem
    {
        public int Dimension => equations.Dimension + 1;

        public string StateName(int index) => "state";

        public void EnterSegment(double start, double end) => equations.EnterSegment(start, end);

        public void Derivatives(double time, ReadOnlySpan<double> state, Span<double> derivative)
        {
            equations.Derivatives(time, state[..^1], derivative[..^1]);
            var rate = state[13] - state[5];
            derivative[^1] = loss * rate * rate;
        }
    }
}
