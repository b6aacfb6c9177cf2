using RollRide.Mounting;

namespace RollRide.Tests.Mounting;

public class FixedRatioFittingTests
{
    private static readonly FixedRatioFitting Fitting = new(0.9, 0.5, 0.8);

    [Fact]
    public void At_IsLinearInHeaveAndRoll()
    {
        Assert.Equal(new ElementMotion(0.9 * 0.02 + 0.4 * 0.05, 0.9, 0.4), Fitting.At(0.02, 0.05, Side.Left));
        Assert.Equal(new ElementMotion(0.9 * 0.02 - 0.4 * 0.05, 0.9, -0.4), Fitting.At(0.02, 0.05, Side.Right));
    }

    [Fact]
    public void Fitting_IsMirroredWorkTrueAndDifferentiable()
    {
        FittingChecks.RightMirrorsLeft(Fitting, 0.03, -0.04);
        FittingChecks.DerivativesAreThoseOfTheCompression(Fitting, 0.03, -0.04, Side.Right);
        FittingChecks.WorkThroughTheRatiosIsWorkOnTheElement(Fitting, 0.03, -0.04, Side.Left);
        FittingChecks.AllocatesNothing(Fitting);
    }

    [Theory]
    [InlineData(-0.1, 0.5, 0.8, "heaveRatio")]
    [InlineData(double.NaN, 0.5, 0.8, "heaveRatio")]
    [InlineData(1, double.PositiveInfinity, 0.8, "rollRatio")]
    [InlineData(1, 0.5, 0, "halfTrack")]
    public void Fitting_BadValues_AreRefusedByName(double heave, double roll, double halfTrack, string name) =>
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => new FixedRatioFitting(heave, roll, halfTrack)).ParamName);
}
