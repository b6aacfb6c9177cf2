using MathNet.Numerics.Integration;
using RollRide.Roads;

namespace RollRide.Tests.Roads;

public class RoughnessSpectrumTests
{
    // σ² = Gd(n0) n0² (1/n1 − 1/n2) over 0.011 to 2.83 cycle/m (derived).
    [Theory]
    [InlineData(RoadClass.A, 3.806431064e-3)]
    [InlineData(RoadClass.B, 7.612862127e-3)]
    [InlineData(RoadClass.C, 15.22572425e-3)]
    [InlineData(RoadClass.D, 30.45144851e-3)]
    public void MeanSquare_OfTheWholeBandOfAClass_IsTheClosedForm(RoadClass roadClass, double rms) =>
        Assert.Equal(rms, Math.Sqrt(RoughnessSpectrum.Of(roadClass).MeanSquare(0, 100)), 1e-9 * rms); // ten digits printed

    [Fact]
    public void VelocityIntensity_OfClassCAt20MetresPerSecond_IsTheClosedForm() =>
        // W = 2π² n0² Gd(n0) V = 1.01064749067155e-3 m²/s (derived). With the 1 rad/m series by mistake it would be 1/16.
        Assert.Equal(1.01064749067155e-3, RoughnessSpectrum.Of(RoadClass.C).VelocityIntensity(20), 1e-16);

    [Theory]
    [InlineData(2.0, 2.0)]
    [InlineData(3.0, 1.5)]
    [InlineData(1.0, 2.25)]
    public void MeanSquare_WithTwoSlopes_IsTheIntegral(double below, double above)
    {
        var spectrum = new RoughnessSpectrum { ReferenceDensity = 1e-4, Waviness = below, BreakWavenumber = 0.16, WavinessAboveBreak = above };
        var integral = GaussLegendreRule.Integrate(u => Math.Exp(u) * spectrum.Density(Math.Exp(u)), Math.Log(0.011) + 1e-12, Math.Log(0.16), 64)
            + GaussLegendreRule.Integrate(u => Math.Exp(u) * spectrum.Density(Math.Exp(u)), Math.Log(0.16), Math.Log(2.83) - 1e-12, 64);

        // Gauss–Legendre on a smooth integrand; the two ends are cut by 1e-12.
        Assert.Equal(integral, spectrum.MeanSquare(0.011, 2.83), 1e-9 * integral);

        // Parts add up to the whole, wherever the break lies.
        Assert.Equal(integral, spectrum.MeanSquare(0, 0.1) + spectrum.MeanSquare(0.1, 0.5) + spectrum.MeanSquare(0.5, 9), 1e-9 * integral);
    }

    [Theory]
    [InlineData(0.05)]
    [InlineData(0.2)]
    public void Density_MeetsTheReferenceAtN0_WhereverTheBreakLies(double split)
    {
        var spectrum = new RoughnessSpectrum { ReferenceDensity = 1e-4, Waviness = 3, BreakWavenumber = split, WavinessAboveBreak = 1.5 };
        Assert.Equal(1e-4, spectrum.Density(0.1), 1e-16);
        Assert.Equal(spectrum.Density(split * (1 - 1e-12)), spectrum.Density(split * (1 + 1e-12)), 1e-9 * spectrum.Density(split));
    }

    [Fact]
    public void Density_OutsideTheBand_IsZero()
    {
        var spectrum = RoughnessSpectrum.Of(RoadClass.A);
        Assert.Equal(0, spectrum.Density(0.0109));
        Assert.Equal(0, spectrum.Density(2.84));
    }

    [Fact]
    public void ReferenceDensity_OfZero_IsRefusedWithItsUnit() =>
        Assert.Contains("m³", Assert.Throws<ArgumentOutOfRangeException>(() => new RoughnessSpectrum { ReferenceDensity = 0 }).Message, StringComparison.Ordinal);
}
