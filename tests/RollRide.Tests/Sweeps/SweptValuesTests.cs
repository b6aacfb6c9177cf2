using RollRide.Sweeps;

namespace RollRide.Tests.Sweeps;

public class SweptValuesTests
{
    [Fact]
    public void Linear_range_has_equal_steps_and_exact_ends() =>
        Assert.Equal([10, 12.5, 15, 17.5, 20], new RangeOfValues(10, 20, 5).Levels);

    [Fact]
    public void Logarithmic_range_has_equal_ratios_and_exact_ends()
    {
        var levels = new RangeOfValues(0.1, 10, 5, logarithmic: true).Levels;
        Assert.Equal((0.1, 10), (levels[0], levels[^1]));
        // √10 each; rounding of the power.
        for (var i = 1; i < levels.Length; i++)
            Assert.Equal(Math.Sqrt(10), levels[i] / levels[i - 1], 1e-12);
    }

    [Fact]
    public void Quantiles_are_those_of_the_distributions()
    {
        // 95 % point of the standard normal distribution, any table: 1.6449; median of the triangle 0, 3, 4: √(½·4·3), derived.
        Assert.Equal(10 + (2 * 1.6449), new NormalValues(10, 2).Quantile(0.95), 1e-4);
        Assert.Equal(10, new NormalValues(10, 2).Quantile(0.5), 1e-12);
        Assert.Equal(3.25, new UniformValues(3, 4).Quantile(0.25), 1e-12);
        Assert.Equal(Math.Sqrt(6), new TriangularValues(0, 3, 4).Quantile(0.5), 1e-12);
        Assert.Equal([5, 7, 6, 6], Enumerable.Range(0, 4).Select(i => new ListedValues([5, 7, 6]).Quantile(0.1 + (0.3 * i))));
        Assert.Equal(1, new RangeOfValues(0.1, 10, 9, logarithmic: true).Quantile(0.5), 1e-12);
    }

    [Fact]
    public void Distribution_is_tried_at_its_tails_one_at_a_time()
    {
        Assert.Empty(new UniformValues(0, 1).Levels);
        Assert.Equal([0.05, 0.95], new UniformValues(0, 1).OneAtATimeLevels);
    }

    [Fact]
    public void Values_that_make_no_sense_are_refused()
    {
        Assert.Throws<ArgumentException>(() => new RangeOfValues(5, 5, 3));
        Assert.Throws<ArgumentException>(() => new RangeOfValues(5, 4, 3));
        Assert.Throws<ArgumentException>(() => new RangeOfValues(5, 6, 1));
        Assert.Throws<ArgumentException>(() => new RangeOfValues(0, 6, 3, logarithmic: true));
        Assert.Throws<ArgumentException>(() => new ListedValues([]));
        Assert.Throws<ArgumentException>(() => new ListedValues([1, 1]));
        Assert.Throws<ArgumentException>(() => new ListedValues([double.NaN]));
        Assert.Throws<ArgumentException>(() => new NormalValues(1, 0));
        Assert.Throws<ArgumentException>(() => new UniformValues(1, 1));
        Assert.Throws<ArgumentException>(() => new TriangularValues(0, 2, 1));
    }
}
