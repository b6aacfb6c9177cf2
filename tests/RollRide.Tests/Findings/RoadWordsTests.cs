using RollRide.Findings;
using RollRide.Roads;

namespace RollRide.Tests.Findings;

/// <summary>What a run was driven over, in words, for each kind of obstacle.</summary>
public sealed class RoadWordsTests
{
    private static readonly Road Flat = Road.Flat(10);

    public static TheoryData<Road, string?> Roads => new()
    {
        { Flat, null },
        { Flat.With(RoadEvents.HaversineBump(10, 2, 0.06), RoadSide.Left), "a 60 mm bump under the left wheel" },
        { Flat.With(RoadEvents.HaversineBump(10, 2, -0.04), RoadSide.Right), "a 40 mm dip under the right wheel" },
        { Flat.With(RoadEvents.HaversineBump(10, 2, 0.08), RoadSide.Both), "an 80 mm bump under both wheels" },
        { Flat.With(RoadEvents.HaversineBump(10, 2, 0.07), RoadSide.Both, 0.8), "a 70 mm bump under one wheel after the other" },
        { Flat.With(RoadEvents.Pothole(10, 0.6, 0.022), RoadSide.Left), "a 22 mm pothole under the left wheel" },
        { Flat.With(RoadEvents.Step(10, 0.1), RoadSide.Both), "a 100 mm step under both wheels" },
        { Flat.With(RoadEvents.Ramp(10, 3, 0.1), RoadSide.Both), "a 100 mm ramp under both wheels" },
        { Flat.With(RoadEvents.Sine(10, 1, 0.01, 5), RoadSide.Both), "a 10 mm wave train under both wheels" },
        {
            Flat.With(RoadEvents.HaversineBump(10, 2, 0.06), RoadSide.Left).With(RoadEvents.HaversineBump(20, 2, 0.06), RoadSide.Left).With(RoadEvents.Pothole(30, 0.6, 0.05), RoadSide.Right),
            "2 bumps of 60 mm under the left wheel and a 50 mm pothole under the right wheel"
        },
        {
            Flat.With(RoadEvents.HaversineBump(10, 2, 0.06), RoadSide.Left).With(RoadEvents.HaversineBump(20, 2, 0.05), RoadSide.Left).With(RoadEvents.Step(30, 0.08), RoadSide.Both),
            "3 obstacles of up to 80 mm"
        },
        { Flat.With(RoadEvents.Sampled([0, 1, 2], [0, 0.03, 0]), RoadSide.Left), "a given road profile of up to 90 mm" },
    };

    [Fact]
    public void Random_road_is_named_by_its_class_and_its_density()
    {
        Assert.Equal("class B (ISO 8608; 64·10⁻⁶ m³ at 0.1 cycle/m)", RoadWords.Unevenness(RoughnessSpectrum.Of(RoadClass.B)));
        Assert.Equal("class C (ISO 8608; 400·10⁻⁶ m³ at 0.1 cycle/m)", RoadWords.Unevenness(new RoughnessSpectrum { ReferenceDensity = 400e-6 }));
    }

    [Fact]
    public void Every_size_that_is_named_has_its_place_and_of_more_sizes_only_the_largest_is_named()
    {
        var two = Flat.With(RoadEvents.HaversineBump(10, 2, 0.06), RoadSide.Left).With(RoadEvents.HaversineBump(20, 2, 0.06), RoadSide.Left).With(RoadEvents.HaversineBump(30, 1, 0.05), RoadSide.Right);

        Assert.Equal([(RoadSide.Left, 10, 12), (RoadSide.Right, 30, 31)], RoadWords.Named(two));
        Assert.Empty(RoadWords.Named(two.With(RoadEvents.HaversineBump(40, 2, 0.04), RoadSide.Right)));
    }

    [Theory]
    [MemberData(nameof(Roads))]
    public void Obstacles_are_named_with_size_and_side(Road road, string? words) => Assert.Equal(words, RoadWords.Of(road, 0.09));
}
