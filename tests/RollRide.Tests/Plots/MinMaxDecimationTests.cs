using CsCheck;
using OxyPlot;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class MinMaxDecimationTests
{
    [Fact]
    public void Reduce_long_curve_keeps_ends_and_extremes_exactly_and_is_short() =>
        Gen.Double[-1, 1].Array[6000].SampleSame(20, y =>
        {
            var x = Enumerable.Range(0, y.Length).Select(i => i * 0.001).ToArray();

            var points = MinMaxDecimation.Reduce(x, y, 100);

            Assert.True(points.Count <= 400);
            Assert.Equal(new DataPoint(x[0], y[0]), points[0]);
            Assert.Equal(new DataPoint(x[^1], y[^1]), points[^1]);
            Assert.Equal(y.Max(), points.Max(point => point.Y));
            Assert.Equal(y.Min(), points.Min(point => point.Y));
        });

    [Fact]
    public void Reduce_long_curve_keeps_the_extremes_of_every_column()
    {
        const int columns = 50;
        var x = Enumerable.Range(0, 5001).Select(i => i * 0.01).ToArray();
        var y = x.Select(t => Math.Sin(37 * t) * Math.Exp(-0.05 * t)).ToArray();

        var points = MinMaxDecimation.Reduce(x, y, columns);

        for (var column = 0; column < columns; column++)
        {
            // Columns are one second wide; samples on an edge, which rounding may put to either side, are left out.
            var there = x.Zip(y).Where(p => p.First > column + 0.005 && p.First < column + 0.995).Select(p => p.Second).ToArray();
            var kept = points.Where(p => p.X > column - 0.005 && p.X < column + 1.005).Select(p => p.Y).ToArray();
            Assert.True(kept.Max() >= there.Max());
            Assert.True(kept.Min() <= there.Min());
        }
    }

    [Fact]
    public void Reduce_keeps_the_order_of_the_points()
    {
        var x = Enumerable.Range(0, 5000).Select(i => (double)i).ToArray();
        var points = MinMaxDecimation.Reduce(x, [.. x.Select(Math.Sin)], 100);

        Assert.Equal(points.OrderBy(point => point.X), points);
    }

    [Fact]
    public void Reduce_short_curve_keeps_every_point() =>
        Assert.Equal([new DataPoint(0, 1), new DataPoint(1, 2), new DataPoint(2, 1)], MinMaxDecimation.Reduce([0, 1, 2], [1, 2, 1]));

    [Fact]
    public void Reduce_descending_time_throws() =>
        Assert.Throws<ArgumentException>(() => MinMaxDecimation.Reduce([0, 2, 1], [0, 0, 0]));

    [Fact]
    public void Reduce_value_that_is_not_finite_throws() =>
        Assert.Throws<ArgumentException>(() => MinMaxDecimation.Reduce([0, 1], [0, double.NaN]));

    [Fact]
    public void Reduce_lengths_that_differ_throws() =>
        Assert.Throws<ArgumentException>(() => MinMaxDecimation.Reduce([0, 1], [0]));
}
