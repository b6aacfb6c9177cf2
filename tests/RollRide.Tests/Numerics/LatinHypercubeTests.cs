using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public class LatinHypercubeTests
{
    [Theory]
    [InlineData(1, 1)]
    [InlineData(7, 3)]
    [InlineData(200, 10)]
    public void Every_stratum_of_every_dimension_has_one_point(int count, int dimensions)
    {
        var points = PointsOf(new LatinHypercube(count, dimensions, seed: 4), dimensions);

        Assert.All(points.SelectMany(point => point), value => Assert.True(value is > 0 and < 1));
        for (var d = 0; d < dimensions; d++)
            Assert.Equal(Enumerable.Range(0, count), points.Select(point => (int)(point[d] * count)).Order());
    }

    [Fact]
    public void Points_depend_on_the_seed_alone()
    {
        var cube = PointsOf(new LatinHypercube(20, 3, 1), 3);
        Assert.Equal(cube, PointsOf(new LatinHypercube(20, 3, 1), 3));
        Assert.NotEqual(cube, PointsOf(new LatinHypercube(20, 3, 2), 3));
    }

    [Fact]
    public void Dimensions_are_not_correlated()
    {
        var points = PointsOf(new LatinHypercube(400, 4, 1), 4);
        for (var d = 1; d < 4; d++)
        {
            var correlation = MathNet.Numerics.Statistics.Correlation.Pearson(points.Select(point => point[d - 1]), points.Select(point => point[d]));
            // Four standard deviations of a correlation of 400 independent pairs, 4/√400.
            Assert.InRange(correlation, -0.2, 0.2);
        }
    }

    private static double[][] PointsOf(LatinHypercube cube, int dimensions) => [.. Enumerable.Range(0, cube.Count).Select(i =>
    {
        var point = new double[dimensions];
        cube.Point(i, point);
        return point;
    })];
}
