using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public class SobolSequenceTests
{
    [Fact]
    public void Point_gives_the_published_first_points()
    {
        // The first ten points in three dimensions that Joe and Kuo publish with their direction numbers (2008; from memory).
        double[][] published =
        [
            [0, 0, 0], [0.5, 0.5, 0.5], [0.75, 0.25, 0.25], [0.25, 0.75, 0.75], [0.375, 0.375, 0.625],
            [0.875, 0.875, 0.125], [0.625, 0.125, 0.875], [0.125, 0.625, 0.375], [0.1875, 0.3125, 0.9375], [0.6875, 0.8125, 0.4375],
        ];
        var sequence = new SobolSequence(3);

        var points = Enumerable.Range(0, 10).Select(i => PointOf(sequence, i)).ToArray();
        Assert.Equal(published, points);
        Validation.Row("", "Sobol sequence: sum of the first ten points in three dimensions, which agree one by one", Evidence.Remembered + "Joe and Kuo, SIAM J. Sci. Comput. 30, 2008", published.Sum(point => point.Sum()), points.Sum(point => point.Sum()), 0);
    }

    [Theory]
    [InlineData(null)]
    [InlineData(5)]
    public void First_points_lie_one_in_each_interval_of_every_dimension(int? seed)
    {
        // A property of every Sobol sequence, and what a wrong direction number breaks.
        const int count = 256;
        var sequence = new SobolSequence(SobolSequence.MostDimensions, seed);
        double[][] points = [.. Enumerable.Range(0, count).Select(i => PointOf(sequence, i))];

        for (var d = 0; d < SobolSequence.MostDimensions; d++)
            Assert.Equal(Enumerable.Range(0, count), points.Select(point => (int)(point[d] * count)).Order());
    }

    [Fact]
    public void Direction_numbers_come_from_primitive_polynomials_and_are_odd_and_small_enough()
    {
        var polynomials = new HashSet<uint>();
        for (var dimension = 1; dimension < SobolSequence.MostDimensions; dimension++)
        {
            var (degree, inner, numbers) = SobolSequence.TableRow(dimension);
            var polynomial = (1u << degree) | (inner << 1) | 1;
            Assert.True(polynomials.Add(polynomial), $"dimension {dimension + 1} repeats a polynomial");
            Assert.Equal((1u << degree) - 1, OrderOfX(polynomial, degree));
            Assert.Equal(degree, numbers.Length);
            for (var i = 0; i < degree; i++)
                Assert.True(numbers[i] % 2 == 1 && numbers[i] < 2u << i, $"dimension {dimension + 1}, number {i + 1}: {numbers[i]}");
        }
    }

    [Fact]
    public void Every_pair_of_dimensions_fills_squares_evenly()
    {
        // No pair of this table has a quality parameter t above 6 at 2¹⁰ points (computed from the direction numbers), so each of the
        // 2⁴ squares holds its 2⁶ points exactly. Two dimensions that share direction numbers leave most squares empty.
        var sequence = new SobolSequence(SobolSequence.MostDimensions);
        int[][] quarters = [.. Enumerable.Range(0, 1024).Select(i => PointOf(sequence, i).Select(value => (int)(4 * value)).ToArray())];
        for (var d = 1; d < SobolSequence.MostDimensions; d++)
        {
            for (var e = 0; e < d; e++)
                Assert.All(quarters.CountBy(point => (point[d], point[e])), square => Assert.Equal(64, square.Value));
        }
    }

    [Fact]
    public void Shifted_points_are_inside_and_differ_by_seed()
    {
        var one = PointOf(new SobolSequence(5, 1), 0);
        Assert.All(one, value => Assert.True(value is > 0 and < 1));
        Assert.NotEqual(one, PointOf(new SobolSequence(5, 2), 0));
        Assert.Equal(one, PointOf(new SobolSequence(5, 1), 0));
    }

    [Fact]
    public void Dimensions_outside_the_table_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new SobolSequence(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SobolSequence(SobolSequence.MostDimensions + 1));
    }

    private static double[] PointOf(SobolSequence sequence, long index)
    {
        var point = new double[sequence.Dimensions];
        sequence.Point(index, point);
        return point;
    }

    /// <summary>The least power of x that is 1 modulo the polynomial, over the field of two elements.</summary>
    private static uint OrderOfX(uint polynomial, int degree)
    {
        var power = 1u;
        for (var order = 1u; order < 1u << degree; order++)
        {
            power <<= 1;
            if ((power >> degree) != 0)
                power ^= polynomial;
            if (power == 1)
                return order;
        }

        return 0;
    }
}
