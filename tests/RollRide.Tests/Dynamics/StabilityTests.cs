using RollRide.Dynamics;

namespace RollRide.Tests.Dynamics;

/// <summary>Where a vehicle stands, by stiffnesses whose smallest eigenvalue is known by hand.</summary>
public sealed class StabilityTests
{
    [Theory] // [[a, b], [b, a]] has the eigenvalues a ± b, whatever the masses.
    [InlineData(3, 2.9, true)]
    [InlineData(3, -2.9, true)]
    [InlineData(3, 3.1, false)]
    [InlineData(3, 3, false)] // nothing holds one motion
    [InlineData(-3, 0, false)]
    [InlineData(double.NaN, 0, false)]
    public void Stiffness_HoldsWhereBothEigenvaluesArePositive(double a, double b, bool holds)
    {
        Assert.Equal(holds, Stability.Holds([1, 1], (double[])[a, b, b, a]));
        Assert.Equal(holds, Stability.Holds([1200, 0.3], (double[])[a, b, b, a]));
    }

    [Theory] // Held by next to nothing against the others: a motion at a ten-millionth of the highest frequency is rounding.
    [InlineData(1e-13, true)]
    [InlineData(1e-15, false)]
    public void Stiffness_ThatIsRoundingOfTheLargest_DoesNotHold(double share, bool holds) => Assert.Equal(holds, Stability.Holds([1000, 500], (double[])[1e6 * share, 0, 0, 5e5]));
}
