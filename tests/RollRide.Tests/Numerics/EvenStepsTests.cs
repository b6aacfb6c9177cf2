using CsCheck;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class EvenStepsTests
{
    private static readonly Gen<(double From, double To, int Count)> Ranges =
        Gen.Select(Gen.Double[-1e4, 1e4], Gen.Double[-1e4, 1e4], Gen.Int[1, 500]);

    [Fact]
    public void Of_any_range_meets_both_ends_and_stays_between() => Ranges.SampleSame(2000, range =>
    {
        var places = EvenSteps.Of(range.From, range.To, range.Count);
        Assert.Equal(range.Count + 1, places.Length);
        Assert.Equal(range.From, places[0]);
        Assert.Equal(range.To, places[^1]);
        var (low, high) = (Math.Min(range.From, range.To), Math.Max(range.From, range.To));
        Assert.All(places, place => Assert.InRange(place, low, high));
    });

    [Fact] // Quarters of powers of two are exact.
    public void Of_exact_numbers_is_exact() => Assert.Equal([-1, -0.25, 0.5, 1.25, 2], EvenSteps.Of(-1, 2, 4));

    [Fact]
    public void Of_no_step_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => EvenSteps.Of(0, 1, 0));
}
