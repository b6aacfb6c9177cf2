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
    public void PolynomialThroughTheNodes_ReproducesItsDegree()
    {
        for (var degree = 0; degree < GaussLobatto.Count; degree++)
        {
            // Its coefficients are up to 40 for values of up to one.
            var polynomial = Polynomial(t => Math.Pow(t, degree));
            foreach (var place in (double[])[0, 0.1, 0.25, 0.5, GaussLobatto.Fractions[1], 0.77, 0.999, 1])
                Assert.Equal(Math.Pow(place, degree), GaussLobatto.At(polynomial, new OneLane(place)).Value, 2e-14);
        }
    }

    [Fact]
    public void Summit_OfACubic_IsWhereItsSlopeFallsThroughZero()
    {
        // t (t − 0.3)(t − 1.7) rises from 0 to its maximum where 3 t² − 4 t + 0.51 = 0.
        var polynomial = Polynomial(t => t * (t - 0.3) * (t - 1.7));
        Assert.Equal((4 - Math.Sqrt(16 - (12 * 0.51))) / 6, GaussLobatto.Summit(polynomial, 0, 0.5), 1e-8);

        // It falls all the way from there on, and in the other direction rises.
        Assert.Equal(0.2, GaussLobatto.Summit(polynomial, 0.2, 0.5));
        Assert.Equal(0.1, GaussLobatto.Summit(polynomial, 0, 0.1));
    }

    [Fact]
    public void OutwardRise_OfAParabola_IsItsSlopeTimesTheGap()
    {
        var fractions = GaussLobatto.Fractions.ToArray();
        static OneLane Parabola(double t) => new(1 + (2 * t) - (3 * t * t));
        double Rise(double end, double next, double third) => GaussLobatto.OutwardRise(Parabola(end), Parabola(next), Parabola(third)).Value;
        Assert.Equal(-2 * fractions[1], Rise(0, fractions[1], fractions[2]), 1e-14);
        Assert.Equal(-4 * fractions[1], Rise(1, fractions[3], fractions[2]), 1e-14);
    }

    private static OneLane[] Polynomial(Func<double, double> function)
    {
        var polynomial = new OneLane[GaussLobatto.Count];
        GaussLobatto.WriteCoefficients<OneLane>([.. AtNodes(function).Select(value => new OneLane(value))], polynomial);
        return polynomial;
    }

    private static double[] AtNodes(Func<double, double> function) => [.. GaussLobatto.Fractions.ToArray().Select(function)];
}
