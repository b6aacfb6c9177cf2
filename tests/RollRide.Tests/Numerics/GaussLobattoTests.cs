using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class GaussLobattoTests
{
    public static TheoryData<int> Counts => [5, 8];

    [Theory]
    [MemberData(nameof(Counts))]
    public void Mean_OfAPolynomial_IsExactToDegreeTwoNMinusThree(int count)
    {
        var rule = Of(count);
        double Mean(int degree) => GaussLobatto.Sum(rule.Weights * AtNodes(rule, t => Math.Pow(t, degree)));
        for (var degree = 0; degree <= (2 * count) - 3; degree++)
            Assert.Equal(1.0 / (degree + 1), Mean(degree), 1e-15);
        Assert.NotEqual(1.0 / ((2 * count) - 1), Mean((2 * count) - 2), 1e-9);
    }

    [Theory]
    [MemberData(nameof(Counts))]
    public void PolynomialThroughTheNodes_ReproducesItsDegree_AndItsSlopes(int count)
    {
        var rule = Of(count);
        var places = Octet.Of([0, 0.1, 0.25, 0.5, rule.Fractions[1], 0.77, 0.999, 1]);
        for (var degree = 0; degree < count; degree++)
        {
            var values = AtNodes(rule, t => Math.Pow(t, degree));
            var between = rule.Interpolate(values, places);
            var slopes = rule.Slopes(values);
            for (var i = 0; i < GaussLobatto.Lanes; i++)
                Assert.Equal(Math.Pow(places[i], degree), between[i], 1e-14);
            for (var node = 0; node < count; node++)
                Assert.Equal(degree == 0 ? 0 : degree * Math.Pow(rule.Fractions[node], degree - 1), slopes[node], 1e-12); // weights of up to 28
        }
    }

    [Theory]
    [MemberData(nameof(Counts))]
    public void Summit_OfACubic_IsWhereItsSlopeFallsThroughZero(int count)
    {
        // t (t − 0.3)(t − 1.7) rises from 0 to its maximum where 3 t² − 4 t + 0.51 = 0.
        var rule = Of(count);
        var slopes = rule.Slopes(AtNodes(rule, t => t * (t - 0.3) * (t - 1.7)));
        Assert.Equal((4 - Math.Sqrt(16 - (12 * 0.51))) / 6, rule.Summit(slopes, 0, 0.5), 1e-7);

        // It falls all the way from there on, and in the other direction rises.
        Assert.Equal(0.2, rule.Summit(slopes, 0.2, 0.5));
        Assert.Equal(0.1, rule.Summit(slopes, 0, 0.1));
    }

    [Theory]
    [MemberData(nameof(Counts))]
    public void OutwardSlope_OfAParabola_IsItsSlope(int count)
    {
        var fractions = Of(count).Fractions;
        static double Parabola(double t) => 1 + (2 * t) - (3 * t * t);
        Assert.Equal(-2, Of(count).OutwardSlope(Parabola(0), Parabola(fractions[1]), Parabola(fractions[2])), 1e-12);
        Assert.Equal(-4, Of(count).OutwardSlope(Parabola(1), Parabola(fractions[^2]), Parabola(fractions[^3])), 1e-12);
    }

    private static GaussLobatto Of(int count) => count == 5 ? GaussLobatto.Five : GaussLobatto.Eight;

    private static Octet AtNodes(GaussLobatto rule, Func<double, double> function)
    {
        var values = new double[GaussLobatto.Lanes];
        for (var lane = 0; lane < GaussLobatto.Lanes; lane++)
            values[lane] = function(rule.Fractions[Math.Min(lane, rule.Count - 1)]);
        return Octet.Of(values);
    }
}
