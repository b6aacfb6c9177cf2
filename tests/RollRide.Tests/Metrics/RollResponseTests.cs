using System.Numerics;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Tests.Cornering;
using RollRide.Tests.Dynamics;
using RollRide.Tests.Numerics;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Metrics;

public sealed class RollResponseTests
{
    // Far from any nonlinearity: sin φ = φ to 1e-9.
    private const double Ay = 0.01;

    // Derived in closed form for ÿ + 2ζωn ẏ + ωn² y = ωn² u with a ramp of u: times from half the input, s; settling
    // to ±5 % likewise, while the product counts it from the start of the ramp.
    [Theory]
    [InlineData(0.2, 1.2, 0.20, 0.2246865, 0.4304690, 47.82761, 1.8145995)]
    [InlineData(0.3, 1.5, 0.15, 0.1942660, 0.3548794, 34.22723, 0.8468031)]
    [InlineData(0.3, 1.5, 0.30, 0.2070379, 0.3732840, 26.31289, 0.8464872)]
    [InlineData(0.5, 1.8, 0.20, 0.2022840, 0.3403965, 13.18389, 0.4747561)]
    [InlineData(0.7, 2.0, 0.10, 0.2142152, 0.3574018, 4.30962, 0.2364565)]
    public void RampedTurn_OnStiffTyres_MatchesTheClosedFormOfOneDegreeOfFreedom(
        double damping, double frequency, double ramp, double ninety, double peak, double overshoot, double settling)
    {
        var car = OneDegreeOfFreedom(damping, 2 * Math.PI * frequency);
        var response = Measure(car, Turn(0.1, ramp, Ay, 0.1 + ramp + 2.5), 1e-8).RollResponse!;

        // The tyres' share of the roll compliance, kφ/(2 kt T²) < 7e-5, moves times of half a second by half of it, and with the axle
        // at once leaning by that share the overshoot; settling runs along a slope of a few per second near its 5 %.
        var id = FormattableString.Invariant($"ζ = {damping:F1}, ramp {ramp:F2} s");
        const string Source = Evidence.Derived + "closed form of one degree of freedom";
        Validation.Row($"{id}, response", "roll in a ramped turn: time to 90 %, s", Source, ninety, response.ResponseTime!.Value, 3e-5);
        Validation.Row($"{id}, peak", "roll in a ramped turn: time of the peak, s", Source, peak, response.PeakTime!.Value, 3e-5);
        Validation.Row($"{id}, overshoot", "roll in a ramped turn: overshoot, %", Source, overshoot, 100 * response.Overshoot!.Value, 1e-2);
        Validation.Row($"{id}, settling", "roll in a ramped turn: time to stay within 5 %, s", Source, settling + (ramp / 2), response.SettlingTime!.Value, 2e-4);
        Assert.Equal(StaticEquilibrium.Find(car, Ay).BodyRoll, response.SteadyAngle!.Value, 1e-15);
        Assert.Equal(response.SteadyAngle.Value / Ay, response.Gradient!.Value, 1e-15);
        Assert.Equal((1 + response.Overshoot.Value) * response.SteadyAngle.Value, response.PeakAngle!.Value, 1e-15);
    }

    [Fact]
    public void OfBothTurns_EachFigureIsThatOfTheWorseOne()
    {
        static RollResponse Turn(bool isMirrored, double? peak, double? overshoot, double? settling, bool lifts = false) => new()
        {
            SteadyAngle = 0.04,
            AngleBefore = 0,
            Gradient = 0.01,
            PeakAngle = peak,
            Overshoot = overshoot,
            ResponseTime = peak * 3,
            PeakTime = peak * 5,
            SettlingTime = settling,
            IsMirrored = isMirrored,
            LiftsWheel = lifts,
        };
        var written = Turn(false, 0.050, 0.25, 1.5, lifts: true);
        var worse = RollResponse.Worse(written, Turn(true, 0.055, 0.20, 1.2));
        Assert.Equal((0.055, 0.055 * 3, 0.055 * 5, true), (worse.PeakAngle, worse.ResponseTime, worse.PeakTime, worse.IsMirrored)); // of the turn in which the body rolls further
        Assert.Equal((0.25, 1.5, true), (worse.Overshoot, worse.SettlingTime, worse.LiftsWheel));

        // A turn that does not settle, or does not end, leaves no figure that would make it look good.
        Assert.Null(RollResponse.Worse(written, Turn(true, 0.045, 0.20, null)).SettlingTime);
        var over = RollResponse.Worse(written, Turn(true, null, null, null));
        Assert.Equal((null, null, true), (over.PeakAngle, over.Overshoot, over.IsMirrored));

        // The turn that is shown is the one with the larger overshoot.
        var metrics = Measure(Find("duals"), RollResponseTests.Turn(0.2, 0.2, 1, 1), 1e-6) with { RollResponse = worse, BothTurns = (written, Turn(true, 0.055, 0.20, 1.2)) };
        Assert.False(metrics.WorseTurn!.IsMirrored);
        Assert.Equal(0.055, metrics.OfTurn(mirrored: true).RollResponse!.PeakAngle);
    }

    [Theory] // Unlike valves give no force at rest; unlike gas does.
    [InlineData(0, 0)]
    [InlineData(300, 300)]
    [InlineData(300, 0)]
    public void SteadyAngleOfEachTurn_IsThatOfItsOwnStaticSolution(double left, double right)
    {
        var (vehicle, layout) = (Find("duals").Vehicle, Find("duals").Layout);
        DamperLayout With(double onLeft, double onRight) => layout with
        {
            Damper = layout.Damper with { GasForce = onLeft },
            RightSide = layout.On(Side.Left) with { Damper = layout.Damper with { GasForce = onRight, Curve = layout.Damper.Curve.Scaled(0.6) } },
        };
        var car = new AssembledHalfCar(vehicle, With(left, right));
        var (asWritten, mirrored) = Measure(car, Turn(0.2, 0.2, 2, 1), 1e-6).BothTurns!.Value;

        Assert.Equal(StaticEquilibrium.Find(car, 2).BodyRoll, asWritten.SteadyAngle!.Value, 1e-12);
        Assert.Equal(-StaticEquilibrium.Find(car, -2).BodyRoll, mirrored.SteadyAngle!.Value, 1e-12); // the other way is the same car in the other turn
        Assert.NotEqual(asWritten.Overshoot, mirrored.Overshoot);
    }

    [Fact]
    public void TurnToTheRight_GivesTheSameFiguresWithTheOtherSign()
    {
        var car = Find("mounts, gas, friction, stops");
        var left = Measure(car, Turn(0.2, 0.2, 3, 2.5), 1e-7).RollResponse!;
        var right = Measure(car, Turn(0.2, 0.2, -3, 2.5), 1e-7).RollResponse!;
        Assert.True(left.PeakAngle > 0);
        Assert.Equal(left.PeakAngle.Value, -right.PeakAngle!.Value, 1e-12);
        Assert.Equal(left.SteadyAngle!.Value, -right.SteadyAngle!.Value, 1e-12);
        Assert.Equal(left.Gradient!.Value, right.Gradient!.Value, 1e-12);
        Assert.Equal(left.Overshoot!.Value, right.Overshoot!.Value, 1e-10);
        Assert.Equal(left.ResponseTime!.Value, right.ResponseTime!.Value, 1e-10);
        Assert.Equal(left.SettlingTime!.Value, right.SettlingTime!.Value, 1e-10);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(-3)]
    public void TurnThatComesBackToStraight_HasAPeakWithItsSignButNoSteadyAngle(double ay)
    {
        var car = Find("ratios");
        var manoeuvre = Turn(0.2, 0.2, ay, 1.5) with
        {
            Cornering = new GivenLateralAcceleration(new PiecewiseSignal(new SignalPiece(0.2, 0.7, new HaversineShape(ay, 0.5)))),
        };
        var metrics = Measure(car, manoeuvre, 1e-7);
        var response = metrics.RollResponse!;
        Assert.Equal(Math.Sign(ay), Math.Sign(response.PeakAngle!.Value));
        Assert.Equal(metrics.Whole.RollAnglePeak, response.PeakAngle.Value, 1e-6);
        Assert.Equal(0, response.SteadyAngle);
        Assert.Equal(StaticEquilibrium.Find(car, 1).BodyRoll, response.Gradient!.Value, 1e-15);
        Assert.Null(response.Overshoot);
        Assert.Null(response.ResponseTime);
        Assert.Null(response.PeakTime);
        Assert.Null(response.SettlingTime);
    }

    [Theory]
    [InlineData(0.03, 0, 0)]
    [InlineData(0, 0.05, 1.5)]
    [InlineData(0.03, 0.05, -1)]
    public void RoadAndInstantOfTheTurn_DoNotTouchTheResponse(double step, double bump, double later)
    {
        var car = Find("mounts, gas, friction, stops");
        var road = Road.Flat(20);
        if (step > 0)
            road = road.With(RoadEvents.Step(2, step), RoadSide.Left);
        if (bump > 0)
            road = road.With(RoadEvents.HaversineBump(24, 2, bump), RoadSide.Right);
        var response = Measure(car, Turn(1.3 + later, 0.2, 3, 4 + later) with { Road = road }, 1e-7).RollResponse!;
        var level = Measure(car, Turn(1.3, 0.2, 3, 4), 1e-7).RollResponse!;

        // To the rounding of when the ramp ends.
        foreach (var property in typeof(RollResponse).GetProperties().Where(property => property.PropertyType == typeof(double?)))
        {
            var (expected, actual) = ((double?)property.GetValue(level), (double?)property.GetValue(response));
            Assert.Equal(expected is null, actual is null);
            Assert.Equal(expected ?? 0, actual ?? 0, 1e-9);
        }
    }

    [Fact]
    public void RandomRoad_DoesNotTouchTheResponse()
    {
        var turn = Turn(4, 0.2, 3, 8);
        var random = turn with { Road = turn.Road with { Unevenness = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.C), Coherence = TrackCoherence.Isotropic(1.5), Seed = 3 } } };
        Assert.Equal(Measure(Find("ratios"), turn, 1e-6).RollResponse, Measure(Find("ratios"), random, 1e-6).RollResponse);
    }

    // The two-mass roll plane by hand: body and axle about the roll centre, their spring and damper between them, tyres below the axle.
    // Its exact response to a ramp comes from its eigenvalues: x(t) = Σ v g (e^λt − 1 − λt)/λ² while the ramp rises, less the same later where it is over.
    [Theory]
    [InlineData(1, 0.05)]
    [InlineData(2, 0.15)]
    [InlineData(3, 0.4)]
    [InlineData(4, 0.9)]
    [InlineData(5, 2.0)]
    public void LinearCarInARamp_AgreesWithItsExactModes(int seed, double ramp)
    {
        var random = new Random(seed);
        double In(double low, double high) => low + ((high - low) * random.NextDouble());
        var (spring, damper, ratio, bar) = (In(30e3, 60e3), In(800, 4000), In(0.5, 0.9), In(0, 20e3));
        var vehicle = LiveAxle with
        {
            Spring = new Spring(new LinearSpring(spring), Ratio(1, ratio)),
            AntiRollBar = bar,
            Tyre = new Tyre { Stiffness = In(150e3, 300e3), Damping = In(0, 500) },
        };
        var car = new AssembledHalfCar(vehicle, LinearLayout(damper, 1, ratio));
        var response = Measure(car, Turn(0.1, ramp, Ay, 0.2 + ramp), 1e-9).RollResponse!;

        var (inertia, arm, axle) = (450.0, 0.5, 60.0);
        var (between, damping) = ((2 * spring * Math.Pow(ratio * HalfTrack, 2)) + bar, 2 * damper * Math.Pow(ratio * HalfTrack, 2));
        var (below, tyres) = (2 * HalfTrack * HalfTrack * vehicle.Tyre.Stiffness, 2 * HalfTrack * HalfTrack * vehicle.Tyre.Damping);
        var weight = 1000 * TextbookGravity * arm;
        var modes = DenseMatrix.OfArray(new[,]
        {
            { 0, 0, 1, 0 },
            { 0, 0, 0, 1 },
            { (weight - between) / inertia, between / inertia, -damping / inertia, damping / inertia },
            { between / axle, -(between + below) / axle, damping / axle, -(damping + tyres) / axle },
        }).ToComplex().Evd();
        var gains = modes.EigenVectors.Solve(DenseVector.OfArray([0, 0, 1000 * arm * Ay / inertia, ((1000 * 0.3) + (180 * 0.32)) * Ay / axle]).ToComplex());

        // ẋ = λx + t/T from rest, in each mode.
        double Rising(double time) => time <= 0 ? 0 : Enumerable.Range(0, 4).Sum(k =>
        {
            var pole = modes.EigenValues[k];
            return (modes.EigenVectors[0, k] * gains[k] * (Complex.Exp(pole * time) - 1 - (pole * time)) / (pole * pole * ramp)).Real;
        });
        double Roll(double time) => Rising(time) - Rising(time - ramp);
        var steady = -Enumerable.Range(0, 4).Sum(k => (modes.EigenVectors[0, k] * gains[k] / modes.EigenValues[k]).Real);
        (double At, double Value) Highest(double from, double to) => Enumerable.Range(0, 4001).Select(i => from + ((to - from) * i / 4000)).Select(t => (t, Roll(t))).MaxBy(at => at.Item2);
        var near = Highest(0, ramp + 4).At;
        var peak = Highest(Math.Max(0, near - 2e-3), near + 2e-3);
        Assert.Equal(steady, response.SteadyAngle!.Value, 1e-7 * steady);
        Assert.Equal((peak.Value / steady) - 1, response.Overshoot!.Value, 1e-6);
        Assert.Equal(peak.At - (ramp / 2), response.PeakTime!.Value, 1e-4);
    }

    [Fact]
    public void CornerThatEndsOnceTheBodyIsStill_HasTheFiguresOfTheWholeCorner()
    {
        var (settled, steps, random) = (0, 0, new Random(2026));
        var cars = new RandomCars(random);
        foreach (var form in Enumerable.Repeat(RandomCars.Form.All, 10).SelectMany(forms => forms))
        {
            var (car, manoeuvre) = (cars.Car(form, 1), Turn(0.1, cars.In(0.05, 1), cars.In(-5, 5), 0.2));
            if (random.Next(4) == 0)
                manoeuvre = manoeuvre with { Cornering = new SteeredLateralAcceleration(ReferenceVehicles.SmallCar, CorneringEvents.Ramp(0.1, 0.05, cars.In(-1, 1)), cars.In(10, 30), 0.2) };
            MeasuredRun Run(Func<HalfCarEquations, IStepObserver>? observer) =>
                new(car, manoeuvre, new IntegratorOptions { RelativeTolerance = 1e-6, AbsoluteTolerance = 1e-6 }, withDistributions: false) { CornerObserver = observer, MirroredCornerObserver = observer };
            var (early, whole) = (Run(null), Run(_ => new StepAction(_ => { })));
            MeasuredRun.MakeAll([early], TestContext.Current.CancellationToken);
            MeasuredRun.MakeAll([whole], TestContext.Current.CancellationToken);
            if (whole.Failure is not null)
                continue;
            Assert.Equal(whole.Metrics.BothTurns, early.Metrics.BothTurns);
            Assert.Equal(whole.Metrics.RollResponse, early.Metrics.RollResponse);
            settled += whole.Metrics.RollResponse!.SettlingTime is null ? 0 : 1;
            steps += whole.Metrics.RollResponse!.OvershootToStep is null ? 0 : 1;
        }

        Assert.InRange(settled, 90, 180);
        Assert.InRange(steps, 50, 150);
    }

    [Fact]
    public void StraightAhead_HasNoRollResponse() => Assert.Null(Measure(Find("ratios"), Free(0.5), 1e-6).RollResponse);

    [Fact]
    public void RollThatHasNotSettledTenSecondsLater_HasNoSettlingTime()
    {
        // The envelope falls as e^(−0.04 t), to 5 % after 75 s.
        var response = Measure(OneDegreeOfFreedom(0.005, 8), Turn(0.1, 0.1, Ay, 0.4), 1e-6).RollResponse!;
        Assert.Null(response.SettlingTime);
        Assert.NotNull(response.Overshoot);
    }

    [Theory] // A record of a lane change: noise of the sensor at both ends is no turn.
    [InlineData(-0.03, 0)]
    [InlineData(-0.03, 0.02)]
    [InlineData(0.05, -0.04)]
    public void RecordThatEndsAsItBegan_HasNoOvershoot(double first, double last)
    {
        var record = CorneringEvents.Sampled([0.1, 0.6, 1.1, 1.6], [first, 5, -4, last]);
        var response = Measure(Find("ratios"), Turn(0.1, 0.1, 1, 2) with { Cornering = new GivenLateralAcceleration(record) }, 1e-6).RollResponse!;
        Assert.All((double?[])[response.Overshoot, response.ResponseTime, response.PeakTime, response.SettlingTime, response.EquivalentRamp], Assert.Null);
        Assert.True(Math.Abs(response.PeakAngle!.Value) > StaticEquilibrium.Find(Find("ratios"), 4).BodyRoll / 2);
    }

    [Fact]
    public void RollThatDoesNotOvershoot_HasNoPeakTime()
    {
        var response = Measure(OneDegreeOfFreedom(1.2, 8), Turn(0.1, 0.1, Ay, 1), 1e-7).RollResponse!;
        Assert.InRange(response.Overshoot!.Value, -1e-3, 1e-4);
        Assert.Null(response.PeakTime);
        Assert.NotNull(response.SettlingTime);
    }

    // The body by itself on springs and tyres in series, by hand: k1 between body and axle less the weight's moment, k2 below the axle.
    [Fact]
    public void RollPeriod_IsThatOfTheBodyOnSpringsAndTyresInSeries()
    {
        var car = Find("ratios");
        const double halfTrack = HalfTrack, weight = 1000 * TextbookGravity * 0.5;
        var (between, below) = ((2 * 35e3 * 0.5 * 0.5) + 10e3, 2 * halfTrack * halfTrack * 220e3);
        var stiffness = (between * below / (between + below)) - weight;
        Assert.Equal(2 * Math.PI * Math.Sqrt(450 / stiffness), Measure(car, Turn(0.1, 0.2, 1, 1), 1e-6).RollResponse!.RollPeriod!.Value, 1e-9);
    }

    [Fact]
    public void CornerThatLiftsAWheel_SaysSoThoughTheRunEndsBefore()
    {
        var response = Measure(Find("ratios"), Turn(0.1, 0.2, 8.5, 0.15), 1e-6).RollResponse!;
        Assert.True(response.LiftsWheel);
        Assert.False(Measure(Find("ratios"), Turn(0.1, 0.2, 3, 0.15), 1e-6).RollResponse!.LiftsWheel);
    }

    [Fact]
    public void CornerWithoutWayBack_IsToldAndHasNoFigures()
    {
        // The run itself ends long before the body has gone over.
        var run = Measure(Find("ratios"), Turn(0.1, 0.2, 14, 0.3), 1e-6);
        var response = run.RollResponse!;
        Assert.Contains("rolled over", response.Failure, StringComparison.Ordinal);
        Assert.All((double?[])[response.PeakAngle, response.Overshoot, response.ResponseTime, response.PeakTime, response.SettlingTime, response.OvershootToStep], Assert.Null);
    }

    // A ramp longer than half the period of roll lets through less than 64 % of the overshoot to a step, exactly so for an undamped body: |sin(πT/P)/(πT/P)|.
    [Theory]
    [InlineData(0.3, false)]
    [InlineData(0.45, false)]
    [InlineData(0.55, true)]
    [InlineData(0.8, true)]
    public void SlowRamp_HidesDampingAndHasTheOvershootToAStepBesideIt(double rampOverPeriod, bool hides)
    {
        const double omega = 8, damping = 0.002;
        var period = 2 * Math.PI / omega;
        var response = Measure(OneDegreeOfFreedom(damping, omega), Turn(0.1, rampOverPeriod * period, Ay, 1), 1e-5).RollResponse!;
        var x = Math.PI * rampOverPeriod;
        Assert.Equal(period, response.RollPeriod!.Value, 1e-3 * period);
        Assert.Equal(rampOverPeriod * period, response.EquivalentRamp!.Value, 1e-9);
        Assert.Equal(Math.Sin(x) / x, response.Overshoot!.Value, 0.01);
        Assert.Equal(hides, response.HidesDamping);
        Assert.Equal(hides, response.OvershootToStep is not null);
        if (hides)
            Assert.Equal(Math.Exp(-Math.PI * damping / Math.Sqrt(1 - (damping * damping))), response.OvershootToStep!.Value, 1e-3);
    }

    [Theory]
    [InlineData(11)]
    [InlineData(12)]
    [InlineData(13)]
    [InlineData(14)]
    [InlineData(15)]
    [InlineData(16)]
    public void RampShorterThanAQuarterPeriod_OvershootsTheMoreTheLessIsDamped(int seed)
    {
        var random = new Random(seed);
        double In(double low, double high) => low + ((high - low) * random.NextDouble());
        var vehicle = LiveAxle with
        {
            Spring = new Spring(new LinearSpring(In(30e3, 60e3)), Ratio(1, In(0.5, 0.8))),
            AntiRollBar = In(0, 20e3),
            Tyre = new Tyre { Stiffness = In(180e3, 300e3), Damping = In(0, 400) },
        };
        var ratio = In(0.4, 0.9);
        var ramp = In(0.05, 0.25) * Of(1, 0.1).RollPeriod!.Value;
        double[] overshoots = [.. Enumerable.Range(0, 8).Select(i => Of(Math.Pow(0.7, i), ramp).Overshoot!.Value)];
        for (var i = 1; i < overshoots.Length; i++)
            Assert.True(overshoots[i] > overshoots[i - 1], FormattableString.Invariant($"{overshoots[i]} after {overshoots[i - 1]}"));

        RollResponse Of(double share, double ramp) => Measure(
            new AssembledHalfCar(vehicle, Layout(Ratio(1, ratio), RealDamper with { Curve = RealDamper.Curve.Scaled(share), Friction = 0 })), Turn(0.1, ramp, 2, 0.5), 1e-6).RollResponse!;
    }

    [Fact]
    public void PhaseThatBeginsInTheSwingOfTheOneBefore_SaysHowMuchIsLeft()
    {
        // Free roll after a bump decays; the later the corner, the less is left of it, and what is left is what the channels say.
        var car = Find("ratios");
        double Left(double start)
        {
            var manoeuvre = Turn(start, 0.2, 1, start + 2) with
            {
                Road = Road.Flat(20).With(RoadEvents.HaversineBump(2, 2, 0.05), RoadSide.Left),
                Phases = [new Phase("bump", 0, start), new Phase("corner", start, start + 2)],
            };
            var metrics = Measure(car, manoeuvre, 1e-7);
            var left = Assert.Single(metrics.MotionsLeft);
            Assert.Equal("corner", left.Phase.Name);
            var history = Record(car, manoeuvre, 1e-7, 1000);
            var sample = (int)Math.Round(start * 1000);
            var response = metrics.RollResponse!;
            var velocity = history[Channel.BodyRollRate][sample] * response.RollPeriod!.Value / (2 * Math.PI);
            Assert.Equal(Math.Sqrt(Math.Pow(history[Channel.BodyRoll][sample], 2) + Math.Pow(velocity, 2)), left.Amplitude, 1e-6);
            Assert.Equal(left.Amplitude / response.SteadyAngle!.Value, left.Share, 1e-12);
            return left.Share;
        }

        Assert.True(Left(0.6) > 2 * Left(2));
        Assert.True(Left(8) < MotionLeft.Reported);
    }

    private static Manoeuvre Turn(double start, double ramp, double ay, double duration) => new()
    {
        Road = Road.Flat(20),
        Cornering = new GivenLateralAcceleration(CorneringEvents.Ramp(start, ramp, ay)),
        Duration = duration,
    };

    /// <summary>Body roll alone: kφ = Iφ ωn² + ms g h in the bar, cφ = 2ζωn Iφ in two dampers, tyres rigid, the axle light.</summary>
    private static AssembledHalfCar OneDegreeOfFreedom(double damping, double omega)
    {
        var inertia = LiveAxle.BodyRollInertia;
        var stiffness = (inertia * omega * omega) + (LiveAxle.Body.Mass * LiveAxle.Gravity * LiveAxle.RollArm);
        var vehicle = LiveAxle with
        {
            Spring = new Spring(new LinearSpring(35e3), Ratio(1, 0)),
            AntiRollBar = stiffness,
            Tyre = new Tyre { Stiffness = 1e9 },
        };
        var arm = 0.6;
        return new AssembledHalfCar(vehicle, LinearLayout(damping * omega * inertia / (arm * arm), 1, arm / HalfTrack));
    }
}
