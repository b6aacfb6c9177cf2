using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public class VarianceIndicesTests
{
    [Fact]
    public void Ishigami_function_has_its_analytic_indices()
    {
        // f = sin x1 + a sin² x2 + b x3⁴ sin x1, x in ±π (Ishigami and Homma 1990).
        const double a = 7;
        const double b = 0.1;
        var found = Of(
            x => Math.Sin(x[0]) + (a * Math.Pow(Math.Sin(x[1]), 2)) + (b * Math.Pow(x[2], 4) * Math.Sin(x[0])), 3, 8192);

        // Samples of a Sobol sequence: the error goes nearly with 1/N; a random sample of this size would need about 0.03.
        const double tolerance = 0.005;
        const string source = Evidence.Printed + "Ishigami and Homma's function, a = 7, b = 0.1: indices in two public documents";
        Validation.Row("Ishigami", "first-order index of the Ishigami function, first input", source, 0.31390519114781146, found.First[0], tolerance);
        Validation.Row("Ishigami", "first-order index of the Ishigami function, second input", source, 0.44241114479004084, found.First[1], tolerance);
        Validation.Row("Ishigami", "first-order index of the Ishigami function, third input", source, 0, found.First[2], tolerance);
        Validation.Row("Ishigami", "total index of the Ishigami function, first input", source, 0.5575888552099592, found.Total[0], tolerance);
        Validation.Row("Ishigami", "total index of the Ishigami function, second input", source, 0.44241114479004084, found.Total[1], tolerance);
        Validation.Row("Ishigami", "total index of the Ishigami function, third input", source, 0.24368366406214775, found.Total[2], tolerance);
    }

    [Fact]
    public void G_function_has_its_printed_indices()
    {
        // Π (|4 x − 2| + a)/(1 + a), a = 0, 0.5, 1, x in 0 to 1. Samples as above.
        var found = Of(x => x.Select((value, i) => (Math.Abs((2 * value / Math.PI)) + (0.5 * i)) / (1 + (0.5 * i))).Aggregate((one, two) => one * two), 3, 8192);
        double[] first = [0.5063, 0.2250, 0.1266], total = [0.6297, 0.3250, 0.1938];
        const string source = Evidence.Printed + "OpenTURNS, reference output of its tests: g-function, a = 0, 0.5, 1";
        for (var i = 0; i < 3; i++)
        {
            Validation.Row(FormattableString.Invariant($"input {i + 1}"), "first-order index of the g-function", source, first[i], found.First[i], 0.005);
            Validation.Row(FormattableString.Invariant($"input {i + 1}"), "total index of the g-function", source, total[i], found.Total[i], 0.005);
        }
    }

    [Fact]
    public void G_function_of_eight_inputs_has_its_analytic_indices()
    {
        double[] a = [0, 1, 4.5, 9, 99, 99, 99, 99];
        var found = Of(x => x.Select((value, i) => (Math.Abs(2 * value / Math.PI) + a[i]) / (1 + a[i])).Aggregate((one, two) => one * two), 8, 8192);
        double[] first = [0.716192, 0.179048, 0.023676, 0.007162, 0.000072], total = [0.787144, 0.242198, 0.034317, 0.010460, 0.000105];
        const string source = Evidence.Derived + "g-function of Saltelli, a = 0, 1, 4.5, 9, 99 four times: Vi = 1/(3 (1 + ai)²)";
        for (var i = 0; i < first.Length; i++)
        {
            Validation.Row(FormattableString.Invariant($"eight inputs, input {i + 1}"), "first-order index of the g-function", source, first[i], found.First[i], 0.005);
            Validation.Row(FormattableString.Invariant($"eight inputs, input {i + 1}"), "total index of the g-function", source, total[i], found.Total[i], 0.005);
        }
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
