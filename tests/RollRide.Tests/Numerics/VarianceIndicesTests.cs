using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public class VarianceIndicesTests
{
    [Fact]
    public void Ishigami_function_has_its_analytic_indices()
    {
        // f = sin x1 + a sin² x2 + b x3⁴ sin x1, x in ±π (Ishigami and Homma 1990), a = 7, b = 0.1. Its variances, derived:
        const double a = 7;
        const double b = 0.1;
        var v1 = Math.Pow(1 + (b * Math.Pow(Math.PI, 4) / 5), 2) / 2;
        var v2 = a * a / 8;
        var v13 = 8 * b * b * Math.Pow(Math.PI, 8) / 225;
        var v = v1 + v2 + v13;

        var found = Of(
            x => Math.Sin(x[0]) + (a * Math.Pow(Math.Sin(x[1]), 2)) + (b * Math.Pow(x[2], 4) * Math.Sin(x[0])), 3, 8192);

        // Samples of a Sobol sequence: the error goes nearly with 1/N; a random sample of this size would need about 0.03.
        const double tolerance = 0.005;
        const string source = "Ishigami and Homma 1990 (from memory); variances derived";
        Validation.Row("VAR, S1", "first-order index of the Ishigami function, first input", source, v1 / v, found.First[0], tolerance);
        Validation.Row("VAR, S2", "first-order index of the Ishigami function, second input", source, v2 / v, found.First[1], tolerance);
        Assert.Equal(0, found.First[2], tolerance);
        Validation.Row("VAR, T1", "total index of the Ishigami function, first input", source, (v1 + v13) / v, found.Total[0], tolerance);
        Validation.Row("VAR, T2", "total index of the Ishigami function, second input", source, v2 / v, found.Total[1], tolerance);
        Validation.Row("VAR, T3", "total index of the Ishigami function, third input", source, v13 / v, found.Total[2], tolerance);
    }

    [Fact]
    public void Sum_of_independent_inputs_shares_the_variance_by_the_squares_of_their_weights()
    {
        var found = Of(x => (3 * x[0]) + (4 * x[1]), 2, 1024);

        // 9 and 16 of 25; error of the quasi-random sample, see above.
        Assert.Equal(0.36, found.First[0], 0.005);
        Assert.Equal(0.64, found.First[1], 0.005);
        Assert.Equal(1, found.Total.Sum(), 0.01);
    }

    [Fact]
    public void Constant_result_has_no_indices()
    {
        var found = VarianceIndices.Estimate([1, 1, 1], [1, 1, 1], [[1, 1, 1]]);
        Assert.True(double.IsNaN(found.First[0]) && double.IsNaN(found.Total[0]));
    }

    [Fact]
    public void Samples_of_different_lengths_are_refused() =>
        Assert.Throws<ArgumentException>(() => VarianceIndices.Estimate([1, 2], [1, 2], [[1]]));

    private static VarianceIndices Of(Func<double[], double> f, int inputs, int samples)
    {
        var sequence = new SobolSequence(2 * inputs, seed: 1);
        var points = Enumerable.Range(0, samples).Select(i =>
        {
            var point = new double[2 * inputs];
            sequence.Point(i, point);
            return point.Select(share => Math.PI * ((2 * share) - 1)).ToArray();
        }).ToArray();
        double[] a = [.. points.Select(point => f(point[..inputs]))];
        double[] b = [.. points.Select(point => f(point[inputs..]))];
        var mixed = Enumerable.Range(0, inputs).Select(i => points.Select(point =>
        {
            var x = point[..inputs];
            x[i] = point[inputs + i];
            return f(x);
        }).ToArray()).ToArray();
        return VarianceIndices.Estimate(a, b, mixed);
    }
}
