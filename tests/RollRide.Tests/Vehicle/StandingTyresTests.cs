using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Vehicle;

/// <summary>What the tyres let the suspension do: a tyre pushes and never pulls.</summary>
public sealed class StandingTyresTests
{
    // Limits are roots found to this, rad and m, and between corners of the envelope straight to a few 1e-6 rad.
    private const double Root = 2e-8, Straight = 1e-5;

    private const double K = 35e3, Rr = 0.50 / HalfTrack, Bar = 10e3, ToStop = 0.2;
    private const double Body = 1000 * TextbookGravity, Axle = 180 * TextbookGravity, RollStiffness = (2 * K * Rr * HalfTrack * Rr * HalfTrack) + Bar;

    private static readonly TravelStop Stop = new() { Clearance = ToStop, Stiffness = 1e6, Fitting = Ratio(1, 0.1) };

    // The stops stand so far inboard that roll meets the tyres' limit first.
    private static readonly HalfCar Car = LiveAxle with
    {
        BumpStop = Stop,
        ReboundStop = Stop,
        Travel = new TravelRange { Bump = 0.1, Rebound = 0.15, Roll = 0.7, Combinations = TravelCombinations.UntilStopsTouchOrTyresLift },
    };

    [Theory] // The springs press the axle down with F = ms g + 2 k q, roll by kφ r: by hand, |r| ≤ y (F + mu g)/kφ with all load on the outermost contact.
    [InlineData(null, -0.15)]
    [InlineData(null, -0.06)]
    [InlineData(null, 0.0)]
    [InlineData(0.3, -0.1)]
    public void Roll_ends_where_one_side_has_no_load_left(double? dualSpacing, double heave)
    {
        var envelope = (Car with { Tyre = Car.Tyre with { DualSpacing = dualSpacing } }).Envelope!;

        double outermost = HalfTrack + ((dualSpacing ?? 0) / 2);
        Assert.Equal(outermost * (Body + (2 * K * heave) + Axle) / RollStiffness, envelope.RollAt(heave), Straight);
        Assert.Equal((Car.Travel!.Bump, Car.Travel.Rebound), (envelope.Range.Bump, envelope.Range.Rebound));
    }

    [Fact] // At rest the springs hold (ms + mu) g; hanging, the axle pulls at them: 1180 kg on 70 N/mm are 165 mm.
    public void Wheels_hang_no_lower_than_the_axle_weighs()
    {
        var envelope = (Car with { Travel = Car.Travel! with { Rebound = 0.19 } }).Envelope!;

        Assert.Equal((Body + Axle) / (2 * K), envelope.Range.Rebound, Root);
        Assert.Equal(0, envelope.RollAt(-envelope.Range.Rebound), Straight);
    }

    [Fact]
    public void Stops_count_where_they_touch_first()
    {
        var near = Stop with { Clearance = 0.08, Fitting = Ratio(1, 0.9) };
        var stops = (Car with { BumpStop = near, ReboundStop = near, Travel = Car.Travel! with { Combinations = TravelCombinations.UntilStopsTouch } }).Envelope!;
        var both = (Car with { BumpStop = near, ReboundStop = near }).Envelope!;

        Assert.All(EvenSteps.Of(-0.08, 0.08, 16), heave => Assert.Equal(stops.RollAt(heave), both.RollAt(heave), Straight));
    }

    [Theory] // Whatever holds it there: in a steady corner the side forces press the outer tyre down by (ms hrc + mu hu) ay/t more, and that aside the tyres carry the same.
    [InlineData(0, 4)]
    [InlineData(0, 8)]
    [InlineData(-300, 5)]
    [InlineData(250, 6)]
    public void Least_load_is_that_with_which_the_car_stands_in_a_corner(double payload, double ay)
    {
        var loaded = LoadedHalfCar.Settle(Car, LinearLayout(), new LoadState { Name = "payload", Masses = [new LoadedMass { Mass = payload, Height = 0.8 }] }).Car;
        var (vehicle, stand) = (loaded.Vehicle, StaticEquilibrium.Find(loaded, ay));
        double inner = loaded.Standing.TyreLoads[0] - (vehicle.Tyre.Stiffness * (stand.UnsprungHeave + (HalfTrack * stand.UnsprungRoll)));

        Assert.InRange(inner, 100, 5000);
        Assert.Equal(inner + (vehicle.UnsprungLateralMoment * ay / vehicle.Track), vehicle.StandingTyres!.LeastLoad(stand.UnsprungHeave - stand.BodyHeave, stand.UnsprungRoll - stand.BodyRoll), 1e-6);
    }

    [Fact] // 40 mm lower on the same springs, the tyres let go of the same positions between axle and body.
    public void Load_moves_where_travel_is_counted_from_and_not_what_the_tyres_allow()
    {
        double payload = 2 * K * 0.04 / TextbookGravity;
        var loaded = LoadedHalfCar.Settle(Car, LinearLayout(), new LoadState { Name = "laden", Masses = [new LoadedMass { Mass = payload, Height = 0.8 }] }).Car.Vehicle.Envelope!;

        Assert.Equal(0.19 - 0.08, loaded.Range.Rebound - 0.08, Root);
        Assert.All(EvenSteps.Of(-0.14, 0.09, 23), heave => Assert.Equal(Car.Envelope!.RollAt(heave), loaded.RollAt(heave - 0.04), Straight));
    }

    [Fact] // A load on the left leans the car by r0, and travel is counted from there: to one side r0 less is left, to the other r0 more, and that is looked at.
    public void Lean_adds_to_the_roll_left_to_the_other_side()
    {
        var loaded = LoadedHalfCar.Settle(Car, LinearLayout(), new LoadState { Name = "left", Masses = [new LoadedMass { Mass = 100, Offset = 0.4, Height = 0.8 }] });
        double lean = Math.Abs(loaded.Rest.UnsprungRoll - loaded.Rest.BodyRoll), sunk = loaded.Rest.Travel;

        Assert.InRange(lean, 0.005, 0.1);
        Assert.Equal(Car.Envelope!.RollAt(-0.1) + lean, loaded.Car.Vehicle.Envelope!.RollAt(-0.1 - sunk), Straight);
    }

    [Fact] // A raised left spring carries 1000 N more: it presses its side down with Rr T times that.
    public void Spring_that_was_raised_on_one_side_leaves_more_roll_the_other_way()
    {
        var raised = Car with { RightSide = new SuspensionSide(Car.Spring, Stop, Stop), Spring = Car.Spring with { PreloadChange = 1000 } };
        double held = HalfTrack * (Body + Axle + 1000), moment = Rr * HalfTrack * 1000;

        Assert.Equal((held + moment) / RollStiffness, raised.Envelope!.RollAt(0), Straight);
        Assert.Equal(2 * moment / RollStiffness, raised.Envelope.MostArticulated.Roll - raised.Envelope.LeastRoll!.Value, 2 * Straight);
    }
}
