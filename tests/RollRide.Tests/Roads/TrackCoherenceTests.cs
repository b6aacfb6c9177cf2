using RollRide.Roads;

namespace RollRide.Tests.Roads;

public class TrackCoherenceTests
{
    // x K1(x) for tracks 1.5 m apart (after Dodds, Robson and Kamash; derived by quadrature of the isotropic surface).
    [Theory]
    [InlineData(0.01, 0.9867564208)]
    [InlineData(0.02, 0.9591733654)]
    [InlineData(0.05, 0.8414695659)]
    [InlineData(0.1, 0.6264186016)]
    [InlineData(0.2, 0.3070570694)]
    [InlineData(0.5, 0.0262755630)]
    [InlineData(1, 0.0003224816)]
    public void Isotropic_ForTracks1500mmApart_IsTheClosedForm(double wavenumber, double gamma) =>
        // Ten decimals printed.
        Validation.Row(FormattableString.Invariant($"{wavenumber:0.00} cycle/m"), "coherence of tracks 1.5 m apart on an isotropic surface", Evidence.Derived + "isotropic surface after Dodds, Robson, Kamash (remembered), by quadrature",
            gamma, TrackCoherence.Isotropic(1.5).Gamma(wavenumber), 1e-10);

    // At x = 1 for other wavinesses (derived).
    [Theory]
    [InlineData(1.6, 0.5231188982)]
    [InlineData(2.0, 0.6019072302)]
    [InlineData(2.4, 0.6647204085)]
    [InlineData(2.5, 0.6783050390)]
    public void Isotropic_ForOtherWavinesses_IsTheClosedForm(double waviness, double gamma) =>
        // The Bessel function of any order is good to some 1e-9.
        Validation.Row(FormattableString.Invariant($"waviness {waviness:F1}"), "coherence at x = 1 on an isotropic surface", Evidence.Derived + "quadrature",
            gamma, TrackCoherence.Isotropic(1 / (2 * Math.PI), waviness).Gamma(1), 1e-8);

    [Fact]
    public void Isotropic_AtTheEnds_IsOneAndZero()
    {
        var coherence = TrackCoherence.Isotropic(1.5);
        Assert.Equal(1, coherence.Gamma(0));
        Assert.Equal(1, coherence.Gamma(1e-7), 1e-10); // 1 − γ is of the order x² ln x
        Assert.Equal(0, coherence.Gamma(500));
    }

    [Fact]
    public void Curve_IsLinearBetweenItsPointsAndHeldBeyond()
    {
        var curve = TrackCoherence.Curve([0.1, 0.3], [0.8, 0.4]);
        Assert.Equal(0.8, curve.Gamma(0.01));
        Assert.Equal(0.8, curve.Gamma(0.1));
        Assert.Equal(0.6, curve.Gamma(0.2), 1e-15);
        Assert.Equal(0.4, curve.Gamma(5));
    }

    [Fact]
    public void Curve_WithBadPoints_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => TrackCoherence.Curve([0.1], [0.5]));
        Assert.Throws<ArgumentException>(() => TrackCoherence.Curve([0.2, 0.1], [0.5, 0.5]));
        Assert.Throws<ArgumentOutOfRangeException>(() => TrackCoherence.Curve([0.1, 0.2], [0.5, 1.2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => TrackCoherence.Constant(-0.1));
    }
}
