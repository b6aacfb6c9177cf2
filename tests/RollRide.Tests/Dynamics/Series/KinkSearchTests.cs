using RollRide.Dynamics.Series;
using RollRide.Numerics;

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

    [Fact]
    public void FirstReach_OverTheUpperBoundAndOutBelowTheLower_IsTheUpper()
    {
        // v = 0.5 + 4t − 5t² passes 1 at (4 − √6)/10, peaks at 1.3 and ends at −0.5.
        var time = KinkSearch.FirstReach([0.5, 4, -5], 0, 1, 1, out var rising);
        Assert.Equal((4 - Math.Sqrt(6)) / 10, time, 1e-12);
        Assert.True(rising);
    }

    [Fact]
    public void FirstReach_OnTheBoundOutAndBackInside_IsAtOnce()
    {
        Assert.Equal(KinkSearch.ShortestStep, KinkSearch.FirstReach([0, -1, 1.2], 0, 1, 1, out var rising));
        Assert.False(rising);
    }

    [Fact]
    public void FirstReach_AtRestOnTheBound_IsNever() =>
        Assert.Equal(double.PositiveInfinity, KinkSearch.FirstReach([0, 0, 0, 0], 0, 1, 1, out _));

    [Fact]
    public void FirstReach_OnTheBoundAndAboutToLeaveIt_IsAtOnce() =>
        Assert.Equal(KinkSearch.ShortestStep, KinkSearch.FirstReach([0, 0, -3], 0, 1, 1, out _));

    [Fact]
    public void FirstReach_TwoTurnsInTheStep_AreSeen()
    {
        // t (t − 0.3)(t − 0.8): up, down through the bound at 0.3 and back at 0.8.
        Assert.Equal(0.3, KinkSearch.FirstReach([0, 0.24, -1.1, 1], 0, 1, 1, out var rising), 1e-12);
        Assert.False(rising);
    }

    [Fact]
    public void Evaluate_InFourLanesAndInEight_GivesTheSameDigits()
    {
        double[] g = [0.3, -1.7, 2.9, 0.41, -5.3];
        double[] times = [.. Enumerable.Range(1, KinkSearch.Parts).Select(part => 0.37 * part / KinkSearch.Parts)];
        var (values, rates) = (new double[KinkSearch.Parts], new double[KinkSearch.Parts]);
        var (wideValues, wideRates) = (new double[KinkSearch.Parts], new double[KinkSearch.Parts]);
        KinkSearch.Evaluate<FourLanes>(g, times, values, rates);
        KinkSearch.Evaluate<EightLanes>(g, times, wideValues, wideRates);
        Assert.Equal(wideValues, values);
        Assert.Equal(wideRates, rates);
        Assert.Equal(g.Reverse().Aggregate((sum, term) => (sum * 0.37) + term), values[^1], 1e-15);
    }
}
