using RollRide.Tests.Dynamics;
using RollRide.Vehicle;

namespace RollRide.Tests.Vehicle;

public sealed class TravelStopTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(1.5)]
    [InlineData(2)]
    [InlineData(3)]
    public void Force_IsThePowerOfThePenetration_AndSlopeItsDerivative(double exponent)
    {
        var stop = new TravelStop { Clearance = 0.05, Stiffness = 2e5, Exponent = exponent, Fitting = TestCars.Ratio(1, 1) };
        Assert.Equal(0, stop.Force(-0.01));
        Assert.Equal(0, stop.Force(0));
        Assert.Equal(0, stop.Slope(-0.01));
        Assert.Equal(0, stop.Slope(0));
        Assert.Equal(2e5 * Math.Pow(0.02, exponent), stop.Force(0.02), 1e-9);

        // A central difference over 1e-6 m.
        Assert.Equal((stop.Force(0.020001) - stop.Force(0.019999)) / 2e-6, stop.Slope(0.02), 1e-3);
    }
}
