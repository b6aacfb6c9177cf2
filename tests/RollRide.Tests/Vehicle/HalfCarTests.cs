using RollRide.Tests.Dynamics;
using RollRide.Vehicle;

namespace RollRide.Tests.Vehicle;

public sealed class HalfCarTests
{
    /// <summary>Every number of the records, its unit and a setter.</summary>
    private static readonly (string Name, string Unit, double OutOfRange, Action<double> Set)[] Numbers =
    [
        (nameof(HalfCar.Track), "m", 0, x => _ = TestCars.LiveAxle with { Track = x }),
        (nameof(HalfCar.RollCentreHeight), "m", double.NegativeInfinity, x => _ = TestCars.LiveAxle with { RollCentreHeight = x }),
        (nameof(HalfCar.AntiRollBar), "N·m/rad", -1, x => _ = TestCars.LiveAxle with { AntiRollBar = x }),
        (nameof(HalfCar.SeatOffset), "m", double.PositiveInfinity, x => _ = TestCars.LiveAxle with { SeatOffset = x }),
        (nameof(HalfCar.Gravity), "m/s²", 0, x => _ = TestCars.LiveAxle with { Gravity = x }),
        (nameof(SprungBody.Mass), "kg", 0, x => _ = TestCars.LiveAxle.Body with { Mass = x }),
        (nameof(SprungBody.RollInertia), "kg·m²", -3, x => _ = TestCars.LiveAxle.Body with { RollInertia = x }),
        (nameof(SprungBody.CgHeight), "m", -0.5, x => _ = TestCars.LiveAxle.Body with { CgHeight = x }),
        (nameof(UnsprungMass.Mass), "kg", 0, x => _ = TestCars.LiveAxle.Unsprung with { Mass = x }),
        (nameof(UnsprungMass.CgHeight), "m", 0, x => _ = TestCars.LiveAxle.Unsprung with { CgHeight = x }),
        (nameof(UnsprungMass.AxleRollInertia), "kg·m²", 0, x => _ = TestCars.LiveAxle.Unsprung with { AxleRollInertia = x }),
        (nameof(Tyre.Stiffness), "N/m", 0, x => _ = TestCars.LiveAxle.Tyre with { Stiffness = x }),
        (nameof(Tyre.Damping), "N·s/m", -1, x => _ = TestCars.LiveAxle.Tyre with { Damping = x }),
        (nameof(Tyre.DualSpacing), "m", 0, x => _ = TestCars.LiveAxle.Tyre with { DualSpacing = x }),
        (nameof(TravelStop.Clearance), "m", double.PositiveInfinity, x => _ = TestCars.Full.BumpStop! with { Clearance = x }),
        (nameof(TravelStop.Stiffness), "N/mⁿ", 0, x => _ = TestCars.Full.BumpStop! with { Stiffness = x }),
        (nameof(TravelStop.Exponent), "", 0.9, x => _ = TestCars.Full.BumpStop! with { Exponent = x }),
        (nameof(LinearSpring.Rate), "N/m", 0, x => _ = new LinearSpring(x)),
        (nameof(DamperLayout.CompressionTravel), "m", 0, x => _ = TestCars.LinearLayout() with { CompressionTravel = x }),
        (nameof(DamperLayout.ReboundTravel), "m", -0.1, x => _ = TestCars.LinearLayout() with { ReboundTravel = x }),
    ];

    [Fact]
    public void EveryNumber_OutOfItsRange_IsRefusedByNameUnitAndValue()
    {
        foreach (var (name, unit, outOfRange, set) in Numbers)
        {
            foreach (var value in (double[])[outOfRange, double.NaN])
            {
                var refused = Assert.Throws<ArgumentOutOfRangeException>(() => set(value));
                Assert.StartsWith($"{name} must be ", refused.Message, StringComparison.Ordinal);
                Assert.Contains("finite", refused.Message, StringComparison.Ordinal);
                if (unit.Length > 0)
                    Assert.Contains($"(unit: {unit})", refused.Message, StringComparison.Ordinal);
                Assert.Equal(value, refused.ActualValue);
            }
        }
    }

    [Fact]
    public void Inertias_FollowTheParallelAxes()
    {
        var car = TestCars.LiveAxle;

        // Axle A's inertias of 450 and 60 kg·m² about the roll centre, of which the records hold the parts about the own CG.
        Assert.Equal(450, car.BodyRollInertia, 1e-12);
        Assert.Equal(60, car.UnsprungRollInertia, 1e-12);
        Assert.Equal(0.5, car.RollArm, 1e-15);
        Assert.Equal((1000 * 0.3) + (180 * 0.32), car.UnsprungLateralMoment, 1e-12);
    }

    [Fact]
    public void Contacts_OfSinglesAndDuals_StandLeftToRightAndShareTheWeight()
    {
        var car = TestCars.LiveAxle;
        Assert.Equal([0.75, -0.75], car.ContactPositions);
        Assert.Equal(1180 * 9.81 / 2, car.StaticTyreLoad, 1e-9);

        var duals = car with { Tyre = new Tyre { Stiffness = 110e3, DualSpacing = 0.3 } };
        Assert.Equal([0.9, 0.6, -0.6, -0.9], duals.ContactPositions);
        Assert.Equal(1180 * 9.81 / 4, duals.StaticTyreLoad, 1e-9);
    }

    [Fact]
    public void Gravity_UnlessGiven_IsTheStandardOne()
    {
        // ISO 80000-3 (from memory): 9.80665 m/s², exact by definition.
        var car = new HalfCar
        {
            Name = "car",
            Suspension = new LiveAxleSuspension(),
            Track = 1.5,
            Body = TestCars.LiveAxle.Body,
            RollCentreHeight = 0.3,
            Unsprung = TestCars.LiveAxle.Unsprung,
            Spring = TestCars.LiveAxle.Spring,
            Tyre = TestCars.LiveAxle.Tyre,
        };
        Assert.Equal(9.80665, car.Gravity);
    }
}
