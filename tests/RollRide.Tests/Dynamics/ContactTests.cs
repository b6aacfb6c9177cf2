using RollRide.Dynamics;
using RollRide.Roads;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

/// <summary>What touches and what does not: tyres on the road, stops.</summary>
public sealed class ContactTests
{
    private const double FineRate = 2e4;

    // Short and high enough to throw both wheels.
    private static readonly Manoeuvre Jump = Free(1.2) with
    {
        Road = Road.Flat(15).With(RoadEvents.HaversineBump(1.5, 1.5, 0.12), RoadSide.Both),
    };

    [Fact]
    public void WheelsThrownByABump_LiftOffTime_IsThatOfAFineReference()
    {
        var car = new AssembledHalfCar(Full, LinearLayout());
        var metrics = Measure(car, Jump, 1e-7).Whole;
        var reference = Record(car, Jump, 1e-9, FineRate);
        var (seconds, spells) = Spells(reference[Channel.TyreContactLeft], load => load < 0);

        // A reference sampled at 20 kHz is uncertain by one sample at each end of a flight.
        Assert.True(seconds > 0.02);
        Assert.Equal(seconds, metrics.LiftOffTimeLeft, 2.0 * spells / FineRate);
        Assert.Equal(metrics.LiftOffTimeLeft, metrics.LiftOffTimeRight, 1e-9);
        Assert.Equal(metrics.LiftOffTimeLeft, metrics.LiftOffTime);
        Assert.Equal([metrics.LiftOffTimeLeft, metrics.LiftOffTimeRight], metrics.TyreLiftOffTimes);
        Assert.Equal(0, metrics.TyreLoadMinimum);
    }

    [Fact]
    public void Tyre_InTheAir_NeverPulls()
    {
        var car = new AssembledHalfCar(Full, LinearLayout());
        var history = Record(car, Jump, 1e-7, 2000);
        var weight = (car.Vehicle.Body.Mass + car.Vehicle.Unsprung.Mass) * car.Vehicle.Gravity;
        var falling = 0;
        for (var i = 0; i < history.Count; i++)
        {
            Assert.True(history[Channel.TyreLoadLeft][i] >= 0);
            if (history[Channel.TyreContactLeft][i] >= 0 || history[Channel.TyreContactRight][i] >= 0)
                continue;
            falling++;
            Assert.Equal(0, history[Channel.TyreLoadLeft][i]);

            // With both wheels in the air, all of the car falls freely.
            var momentum = (car.Vehicle.Body.Mass * history[Channel.BodyAcceleration][i])
                + (car.Vehicle.Unsprung.Mass * history[Channel.UnsprungAcceleration][i]);
            Assert.Equal(-weight, momentum, 1e-8);
        }

        Assert.True(falling > 20);
    }

    [Fact]
    public void DualTyres_InHeave_AreASingleTyreOfTwiceTheStiffness()
    {
        var damped = new Tyre { Stiffness = 110e3, Damping = 150, DualSpacing = 0.3 };
        var single = new AssembledHalfCar(Full with { Tyre = new Tyre { Stiffness = 220e3, Damping = 300 } }, LinearLayout());
        var duals = new AssembledHalfCar(Full with { Tyre = damped }, LinearLayout());
        var one = Record(single, Jump, 1e-8, 500);
        var two = Record(duals, Jump, 1e-8, 500);
        for (var i = 0; i < one.Count; i++)
        {
            // The same sums in another order.
            Assert.Equal(one[Channel.BodyHeave][i], two[Channel.BodyHeave][i], 1e-8);
            Assert.Equal(one[Channel.TyreLoadLeft][i], two[Channel.TyreLoadLeft][i], 1e-2);
        }
    }

    [Fact]
    public void DualTyres_ThrownByAOneSidedBump_LiftOneByOne()
    {
        var duals = new AssembledHalfCar(Full with { Tyre = new Tyre { Stiffness = 110e3, Damping = 150, DualSpacing = 0.35 } }, LinearLayout());
        var manoeuvre = Jump with { Road = Road.Flat(15).With(RoadEvents.HaversineBump(1.5, 1.5, 0.12), RoadSide.Left) };
        var metrics = Measure(duals, manoeuvre, 1e-7).Whole;
        var reference = Record(duals, manoeuvre, 1e-9, FineRate);
        Channel[] tyres = [Channel.TyreContactLeftOuter, Channel.TyreContactLeftInner, Channel.TyreContactRightInner, Channel.TyreContactRightOuter];
        for (var i = 0; i < tyres.Length; i++)
        {
            var (seconds, spells) = Spells(reference[tyres[i]], load => load < 0);
            Assert.Equal(seconds, metrics.TyreLiftOffTimes[i], 2.0 * spells / FineRate);
        }

        // The axle's left end flies: the outer tyre leaves first and longest; the side flies only while both do.
        Assert.True(metrics.TyreLiftOffTimes[0] > metrics.TyreLiftOffTimes[1]);
        Assert.True(metrics.TyreLiftOffTimes[1] > 0);
        Assert.InRange(metrics.LiftOffTimeLeft, 0, Math.Min(metrics.TyreLiftOffTimes[0], metrics.TyreLiftOffTimes[1]) + 1e-9);
    }

    [Fact]
    public void Stops_ThatDoNotTouch_PushNothing_AndTouchesAreCounted()
    {
        // An undamped body bounces on its stops: 3 s at 1.3 Hz from 90 mm of bump, more than both clearances.
        var car = new AssembledHalfCar(Full, LinearLayout(0));
        double[] start = [-0.09, 0, 0, 0, 0, 0, 0, 0];
        var manoeuvre = Free(3);
        var metrics = Measure(car, manoeuvre, 1e-7, start).Whole;
        var history = Record(car, manoeuvre, 1e-9, 5000, start);
        var (bump, rebound) = (car.Vehicle.BumpStop!, car.Vehicle.ReboundStop!);
        for (var i = 0; i < history.Count; i++)
        {
            var heave = history[Channel.SuspensionHeave][i];
            Assert.Equal(bump.Force(heave - bump.Clearance), history[Channel.BumpStopForceLeft][i], 1e-9);
            Assert.Equal(heave > bump.Clearance, history[Channel.BumpStopForceLeft][i] > 0);
            Assert.Equal(-(0.9 * heave) > rebound.Clearance, history[Channel.ReboundStopForceRight][i] < 0);
        }

        var bumps = Spells(history[Channel.BumpStopForceLeft], force => force > 0).Count;
        var rebounds = Spells(history[Channel.ReboundStopForceLeft], force => force < 0).Count;
        Assert.True(bumps > 2 && rebounds > 1);

        // The run starts on the bump stops, which therefore do not begin to touch then.
        Assert.Equal(2 * (bumps - 1), metrics.BumpStopContacts);
        Assert.Equal(2 * rebounds, metrics.ReboundStopContacts);
    }

    private static (double Seconds, int Count) Spells(ReadOnlySpan<double> samples, Predicate<double> inside)
    {
        var (number, count, before) = (0, 0, false);
        foreach (var sample in samples)
        {
            var now = inside(sample);
            number += now ? 1 : 0;
            count += now && !before ? 1 : 0;
            before = now;
        }

        return (number / FineRate, count);
    }
}
