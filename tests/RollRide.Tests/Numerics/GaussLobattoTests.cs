using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class GaussLobattoTests
{
    [Fact]
    public void Mean_OfAPolynomial_IsExactToDegreeSeven()
    {
        static double Mean(int degree) => AtNodes(t => Math.Pow(t, degree)).Zip(GaussLobatto.Weights.ToArray(), (value, weight) => weight * value).Sum();
        for (var degree = 0; degree <= 7; degree++)
            Assert.Equal(1.0 / (degree + 1), Mean(degree), 1e-15);
        Assert.NotEqual(1.0 / 9, Mean(8), 1e-9);
    }

    [Fact]
    public void PolynomialThroughTheNodes_ReproducesItsDegree_AndItsSlopes()
    {
        var slopes = new double[GaussLobatto.Count];
        for (var degree = 0; degree < GaussLobatto.Count; degree++)
        {
            var values = AtNodes(t => Math.Pow(t, degree));
            foreach (var place in (double[])[0, 0.1, 0.25, 0.5, GaussLobatto.Fractions[1], 0.77, 0.999, 1])
                Assert.Equal(Math.Pow(place, degree), GaussLobatto.Interpolate(values, place), 1e-14);
            GaussLobatto.WriteSlopes(values, slopes);
            for (var node = 0; node < GaussLobatto.Count; node++)
                Assert.Equal(degree == 0 ? 0 : degree * Math.Pow(GaussLobatto.Fractions[node], degree - 1), slopes[node], 1e-12); // weights of up to 28
        }
    }

    [Fact]
    public void Summit_OfACubic_IsWhereItsSlopeFallsThroughZero()
    {
        // t (t − 0.3)(t − 1.7) rises from 0 to its maximum where 3 t² − 4 t + 0.51 = 0.
        var slopes = new double[GaussLobatto.Count];
        GaussLobatto.WriteSlopes(AtNodes(t => t * (t - 0.3) * (t - 1.7)), slopes);
        Assert.Equal((4 - Math.Sqrt(16 - (12 * 0.51))) / 6, GaussLobatto.Summit(slopes, 0, 0.5), 1e-7);

        // It falls all the way from there on, and in the other direction rises.
        Assert.Equal(0.2, GaussLobatto.Summit(slopes, 0.2, 0.5));
        Assert.Equal(0.1, GaussLobatto.Summit(slopes, 0, 0.1));
    }

    [Fact]
    public void OutwardSlope_OfAParabola_IsItsSlope()
    {
        var fractions = GaussLobatto.Fractions;
        static double Parabola(double t) => 1 + (2 * t) - (3 * t * t);
        Assert.Equal(-2, GaussLobatto.OutwardSlope(Parabola(0), Parabola(fractions[1]), Parabola(fractions[2])), 1e-12);
        Assert.Equal(-4, GaussLobatto.OutwardSlope(Parabola(1), Parabola(fractions[^2]), Parabola(fractions[^3])), 1e-12);
    }

    private static double[] AtNodes(Func<double, double> function) => [.. GaussLobatto.Fractions.ToArray().Select(function)];
}
