using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Roads;
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
        Assert.Equal((1 + response.Overshoot.Value) * response.SteadyAngle.Value, response.PeakAngle, 1e-15);
    }

    [Fact]
    public void TurnToTheRight_GivesTheSameFiguresWithTheOtherSign()
    {
        var car = Find("mounts, gas, friction, stops");
        var left = Measure(car, Turn(0.2, 0.2, 3, 2.5), 1e-7).RollResponse!;
        var right = Measure(car, Turn(0.2, 0.2, -3, 2.5), 1e-7).RollResponse!;
        Assert.True(left.PeakAngle > 0);
        Assert.Equal(left.PeakAngle, -right.PeakAngle, 1e-12);
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
        Assert.Equal(Math.Sign(ay), Math.Sign(response.PeakAngle));
        Assert.Equal(metrics.Whole.RollAnglePeak, response.PeakAngle);
        Assert.Equal(0, response.SteadyAngle);
        Assert.Equal(StaticEquilibrium.Find(car, 1).BodyRoll, response.Gradient!.Value, 1e-15);
        Assert.Null(response.Overshoot);
        Assert.Null(response.ResponseTime);
        Assert.Null(response.PeakTime);
        Assert.Null(response.SettlingTime);
    }

    [Theory]
    [InlineData(0.03, 0)]
    [InlineData(0, 0.03)]
    public void StepOfOneTrackBeforeTheTurn_IsPartOfTheSteadyAngle(double left, double right)
    {
        var car = Find("ratios");
        // The turn comes once the step has died out.
        var turn = Turn(6.5, 0.2, 1, 12);
        var road = Road.Flat(20);
        if (left > 0)
            road = road.With(RoadEvents.Step(2, left), RoadSide.Left);
        if (right > 0)
            road = road.With(RoadEvents.Step(2, right), RoadSide.Right);
        var response = Measure(car, turn with { Road = road }, 1e-7).RollResponse!;
        Assert.True(StaticEquilibrium.TryFind(car, 1, left, right, out var stand));

        // A small tilt adds to the flat road's answer: the tilt of the road, less what bar and springs take, in both angles alike.
        var level = Measure(car, turn, 1e-7).RollResponse!;
        Assert.Equal(Math.Sign(left - right), Math.Sign(response.AngleBefore));
        Assert.Equal(stand.BodyRoll, response.SteadyAngle!.Value, 1e-15);
        Assert.Equal(level.SteadyAngle!.Value, response.SteadyAngle.Value - response.AngleBefore, 0.01 * level.SteadyAngle.Value);
        Assert.Equal(level.Overshoot!.Value, response.Overshoot!.Value, 0.005);
        Assert.Equal(level.ResponseTime!.Value, response.ResponseTime!.Value, 0.005);
        Assert.Equal(level.Gradient!.Value, response.Gradient!.Value, 1e-15);
        Assert.NotNull(response.SettlingTime);
    }

    [Fact]
    public void PeakOfARollThatStaysOnTheOtherSide_IsThatOfTheTurn()
    {
        // The right wheel stands on a kerb, and the mild turn to the left does not bring the body back to level.
        var turn = Turn(6.5, 0.2, 1, 12) with { Road = Road.Flat(20).With(RoadEvents.Step(2, 0.1), RoadSide.Right) };
        var response = Measure(Find("ratios"), turn, 1e-7).RollResponse!;
        Assert.True(response.AngleBefore < response.SteadyAngle && response.PeakAngle < 0);
        Assert.True(response.PeakAngle > response.SteadyAngle);
        Assert.InRange(response.PeakTime!.Value, 0.1, 1);
        Assert.InRange(response.Overshoot!.Value, 0.01, 1);
    }

    [Fact]
    public void StepBehindTheEndOfTheRun_DoesNotCount()
    {
        var car = Find("ratios");
        var turn = Turn(0.2, 0.2, 1, 3) with { Road = Road.Flat(20).With(RoadEvents.Step(70, 0.03), RoadSide.Left) };
        Assert.Equal(StaticEquilibrium.Find(car, 1).BodyRoll, Measure(car, turn, 1e-6).RollResponse!.SteadyAngle!.Value, 1e-15);
    }

    [Fact]
    public void StraightAhead_HasNoRollResponse() => Assert.Null(Measure(Find("ratios"), Free(0.5), 1e-6).RollResponse);

    [Fact]
    public void RunThatEndsBeforeRollSettles_HasNoSettlingTime()
    {
        var response = Measure(OneDegreeOfFreedom(0.2, 8), Turn(0.1, 0.1, Ay, 0.4), 1e-7).RollResponse!;
        Assert.Null(response.SettlingTime);
    }

    private static Manoeuvre Turn(double start, double ramp, double ay, double duration) => new()
    {
        Road = Road.Flat(20),
        Cornering = new GivenLateralAcceleration(CorneringEvents.RampStep(start, ramp, ay)),
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
