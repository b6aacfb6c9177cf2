using CsCheck;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public class ThinningTests
{
    [Fact]
    public void Reduce_a_curve_thinned_before_keeps_every_point() =>
        Gen.Double[-1, 1].Array[20_000].SampleSame(5, y =>
        {
            var (x, thinned) = Thinning.Reduce(y.Length, i => i / 1000.0, y);
            Assert.InRange(x.Length, Thinning.DefaultColumns, 4 * Thinning.DefaultColumns);

            var (again, value) = Thinning.Reduce(x.Length, i => x[i], thinned);
            Assert.Equal(x, again);
            Assert.Equal(thinned, value);
        });

    [Fact]
    public void Reduce_goes_through_the_curve_once()
    {
        var asked = 0;
        IEnumerable<double> Values()
        {
            for (; asked < 9000; asked++)
                yield return Math.Sin(asked);
        }

        Thinning.Reduce(9000, i => i, Values(), 100);

        Assert.Equal(9000, asked);
    }

    [Fact]
    public void Reduce_equal_extremes_keeps_the_first_of_each()
    {
        // One column: first 0, low -1 at 2, high 1 at 3, last 0.5.
        double[] y = [0, 0, -1, 1, -1, 1, 0.5];

        var (x, kept) = Thinning.Reduce(y.Length, i => i, y, 1);

        Assert.Equal([0, 2, 3, 6], x);
        Assert.Equal([0, -1, 1, 0.5], kept);
    }
}
