using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

public sealed class AssembledHalfCarTests
{
    [Fact]
    public void SpringPreload_WithGas_CarriesTheRestOfTheBody()
    {
        // Rh,spring·P + Rh,damper·G = ms g/2.
        var car = new AssembledHalfCar(
            LiveAxle with { Spring = new Spring(new LinearSpring(35e3), Ratio(0.8, 0.6)) },
            Layout(Ratio(0.9, 0.7), RealDamper with { GasForce = 300 }));
        Assert.Equal(((500 * TextbookGravity) - (0.9 * 300)) / 0.8, car.SpringPreload, 1e-9);
        Assert.Equal(car.SpringPreload, car.SpringForce.Value(0), 1e-9);
        Assert.Equal(car.SpringPreload + 350, car.SpringForce.Value(0.01), 1e-9);
    }

    [Fact]
    public void SpringPreload_WithGasThatLiftsMoreThanTheBodyWeighs_Pulls() =>
        Assert.Equal((500 * TextbookGravity) - 5000, new AssembledHalfCar(LiveAxle, Layout(Ratio(1, 0.6), RealDamper with { GasForce = 5000 })).SpringPreload, 1e-9);

    [Fact]
    public void SpringPreload_WithStopsTouchingAtRest_CarriesWhatTheyLeave()
    {
        // 10 mm into a bump stop of 3e6 N/m² push 300 N, 4 mm into a rebound stop of 2e5 N/m through 0.9 pull 720 N at the wheel.
        var car = new AssembledHalfCar(
            LiveAxle with
            {
                BumpStop = Full.BumpStop! with { Clearance = -0.010 },
                ReboundStop = Full.ReboundStop! with { Clearance = -0.004, Exponent = 1 },
            },
            LinearLayout());
        Assert.Equal((500 * TextbookGravity) - 300 + 720, car.SpringPreload, 1e-9);
        Assert.All(StaticEquilibrium.Find(car, 0).Position, coordinate => Assert.Equal(0, coordinate));
    }

    [Fact]
    public void SpringWithoutHeaveRatio_IsRefused()
    {
        var refused = Assert.Throws<ArgumentException>(() =>
            new AssembledHalfCar(LiveAxle with { Spring = new Spring(new LinearSpring(35e3), Ratio(0, 0.6)) }, LinearLayout()));
        Assert.Contains("heave ratio is 0; it must be greater than 0", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1.5)]
    [InlineData(1.6)]
    public void DualTyresAsWideAsTheTrack_AreRefused(double spacing)
    {
        var tyre = new Tyre { Stiffness = 110e3, DualSpacing = spacing };
        var refused = Assert.Throws<ArgumentException>(() => new AssembledHalfCar(LiveAxle with { Tyre = tyre }, LinearLayout()));
        Assert.Contains(FormattableString.Invariant($"{spacing} m, must be less than the track, 1.5 m"), refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AxleInertia_MustBeGivenForALiveAxleAndOnlyThere()
    {
        var without = LiveAxle with { Unsprung = LiveAxle.Unsprung with { AxleRollInertia = null } };
        Assert.Contains("needs its own roll inertia", Assert.Throws<ArgumentException>(() => new AssembledHalfCar(without, LinearLayout())).Message, StringComparison.Ordinal);
        var with = Independent with { Unsprung = LiveAxle.Unsprung };
        Assert.Contains("must not be given", Assert.Throws<ArgumentException>(() => new AssembledHalfCar(with, LinearLayout())).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void SpringTable_ThatNeverCarriesTheBody_IsRefusedWithItsRange()
    {
        var weak = new FreeLengthSpringTable(PiecewiseLinear.Through([0, 0.1], [0, 3000]));
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() =>
            new AssembledHalfCar(LiveAxle with { Spring = new Spring(weak, Ratio(1, 0.6)) }, LinearLayout()));
        Assert.Contains("must carry 4905 N at ride height", refused.Message, StringComparison.Ordinal);
        Assert.Contains("covers 0 N to 3000 N", refused.Message, StringComparison.Ordinal);
    }
}
