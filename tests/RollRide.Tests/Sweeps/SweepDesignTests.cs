using RollRide.Sweeps;

namespace RollRide.Tests.Sweeps;

public class SweepDesignTests
{
    private static readonly SweepParameter A = new("a", "a", 7, new ListedValues([1, 2, 3]));
    private static readonly SweepParameter B = new("b", "b", 70, new ListedValues([10, 20]));
    private static readonly SweepParameter C = new("c", "c", 0.5, new UniformValues(0, 1));
    private static readonly SweepParameter D = new("d", "d", 0.5, new UniformValues(0, 1));

    [Fact]
    public void FullFactorial_combines_all_levels_the_last_parameter_fastest() =>
        Assert.Equal([[1, 10], [1, 20], [2, 10], [2, 20], [3, 10], [3, 20]], PointsOf(new FullFactorial([A, B])));

    [Fact]
    public void OneAtATime_starts_with_the_scenario_and_changes_one() =>
        Assert.Equal([[7, 70], [1, 70], [2, 70], [3, 70], [7, 10], [7, 20]], PointsOf(new OneAtATime([A, B])));

    [Fact]
    public void LatinHypercubeSamples_have_one_value_in_each_stratum() =>
        Assert.Equal(Enumerable.Range(0, 8), PointsOf(new LatinHypercubeSamples([C, D], 8, 1)).Select(point => (int)(8 * point[1])).Order());

    [Fact]
    public void SobolSamples_have_one_value_in_each_interval() =>
        Assert.Equal(Enumerable.Range(0, 8), PointsOf(new SobolSamples([C, D], 8, 1)).Select(point => (int)(8 * point[1])).Order());

    [Fact]
    public void SensitivitySamples_mix_one_parameter_of_the_second_sample_into_the_first()
    {
        var design = new SensitivitySamples([C, D], 4, 1);
        var points = PointsOf(design);

        Assert.Equal(16, design.Count);
        foreach (var block in points.Chunk(4))
        {
            var (a, b) = (block[0], block[1]);
            Assert.Equal([b[0], a[1]], block[2]);
            Assert.Equal([a[0], b[1]], block[3]);
            Assert.NotEqual(a, b);
        }

        Assert.Equal([true, true, false, false, true], Enumerable.Range(0, 5).Select(i => design.CountsInStatistics(i)));
    }

    [Fact]
    public void FullFactorial_without_parameters_is_the_scenario_alone() => Assert.Equal(1, new FullFactorial([]).Count);

    private static double[][] PointsOf(SweepDesign design) => [.. Enumerable.Range(0, (int)design.Count).Select(i =>
    {
        var values = new double[design.Parameters.Length];
        design.Point(i, values);
        return values;
    })];
}
