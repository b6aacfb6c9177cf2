using RollRide.Dynamics.Series;

namespace RollRide.Tests.Dynamics.Series;

public sealed class KinkSearchTests
{
    // v = 1 − 4 (t − 0.5)²: from 0 up to 1 at 0.5 s and back.
    private static readonly double[] Arch = [0, 4, -4];

    [Fact]
    public void FirstReach_StraightOut_IsTheRoot()
    {
        // v = 0.2 + t + t² passes 1 at (−1 + √4.2)/2.
        var time = KinkSearch.FirstReach([0.2, 1, 1], 0, 1, 1, out var rising);
        Assert.Equal((-1 + Math.Sqrt(4.2)) / 2, time, 1e-12);
        Assert.True(rising);
        Assert.Equal(0.4, KinkSearch.FirstReach([0.4, -1], 0, 1, 1, out rising), 1e-12);
        Assert.False(rising);
    }

    [Theory]
    [InlineData(0.75, 0.25)]
    [InlineData(0.99, 0.45)]
    public void FirstReach_BeyondAndBackInsideTheStep_IsTheFirstOfTheTwo(double high, double expected) =>
        Assert.Equal(expected, KinkSearch.FirstReach([0.001, .. Arch[1..]], -1, high + 0.001, 1, out _), 1e-9);

    [Fact]
    public void FirstReach_TurnsBeforeTheBound_IsNever() =>
        Assert.Equal(double.PositiveInfinity, KinkSearch.FirstReach(Arch, -1, 1.001, 1, out _));

    [Fact]
    public void FirstReach_OnTheBoundAndOut_IsAtOnce() =>
        Assert.Equal(KinkSearch.ShortestStep, KinkSearch.FirstReach([0, 1], -1, 0, 1, out _));

    [Fact]
    public void FirstReach_FromTheBoundInwardsAndBack_IsWhenItComesBack() =>
        Assert.Equal(0.8, KinkSearch.FirstReach([0, -0.8, 1], -1, 0, 1, out _), 1e-12);

    [Fact]
    public void FirstReach_StepShorterThanTheShortest_IsNotLongerThanIt() =>
        Assert.Equal(1e-11, KinkSearch.FirstReach([0, 1], -1, 0, 1e-11, out _));
}
