using System.Collections.Immutable;
using MathNet.Numerics;
using RollRide.Numerics;

namespace RollRide.Roads;

/// <summary>
/// Coherence of the two wheel tracks over spatial frequency: <c>γ = Gxy/Gxx</c>, 1 for the same road under both, 0 for two
/// roads that have nothing to do with each other. The ordinary coherence is <c>γ²</c>. Immutable.
/// </summary>
public sealed class TrackCoherence
{
    private readonly Func<double, double> _gamma;

    private TrackCoherence(string description, Func<double, double> gamma) => (Description, _gamma) = (description, gamma);

    /// <summary>What it is, in words.</summary>
    public string Description { get; }

    /// <summary>
    /// A surface that looks the same in every direction: <c>γ = 2/Γ(w/2) (x/2)^(w/2) K_(w/2)(x)</c>, <c>x = 2π n B</c>; for
    /// w = 2 that is <c>x K1(x)</c>. After C. J. Dodds, J. D. Robson, J. Sound Vib. 31, 1973; K. M. A. Kamash, J. D. Robson,
    /// J. Sound Vib. 57, 1978.
    /// </summary>
    /// <param name="trackWidth">Distance between the tracks <c>B</c>, m; above 0.</param>
    /// <param name="waviness">Waviness <c>w</c> of the road; above 0.</param>
    public static TrackCoherence Isotropic(double trackWidth, double waviness = 2)
    {
        Require.Positive(trackWidth, "m");
        Require.Positive(waviness);
        var order = waviness / 2;
        var factor = 2 / SpecialFunctions.Gamma(order);
        return new TrackCoherence(
            FormattableString.Invariant($"isotropic surface, tracks {trackWidth:G4} m apart"),
            n =>
            {
                var x = 2 * Math.PI * n * trackWidth;

                // Below, γ is 1 within rounding; far above, the Bessel function underflows to 0 as it should.
                if (x < 1e-8) return 1;
                return order == 1 ? x * SpecialFunctions.BesselK1(x) : factor * Math.Pow(x / 2, order) * SpecialFunctions.BesselK(order, x);
            });
    }

    /// <summary>A surface that looks the same in every direction, of whatever waviness was found.</summary>
    /// <param name="trackWidth">Distance between the tracks, m; above 0.</param>
    /// <param name="waviness">Waviness of the road; where it falls to nothing the surface is white, and no two places have anything to do with each other.</param>
    public static TrackCoherence OfIsotropicSurface(double trackWidth, double waviness) => waviness > 0 ? Isotropic(trackWidth, waviness) : Constant(0);

    /// <summary>The same value at every spatial frequency.</summary>
    /// <param name="gamma">The value, 0 to 1.</param>
    public static TrackCoherence Constant(double gamma)
    {
        CheckGamma(gamma, nameof(gamma));
        return new TrackCoherence(FormattableString.Invariant($"the same at every wavelength, γ = {gamma:G4}"), _ => gamma);
    }

    /// <summary>A given curve, linear between its points and held beyond them.</summary>
    /// <param name="wavenumbers">Spatial frequencies, cycle/m, strictly ascending; two or more.</param>
    /// <param name="gammas">The value of <c>γ</c> at each, 0 to 1.</param>
    public static TrackCoherence Curve(IReadOnlyList<double> wavenumbers, IReadOnlyList<double> gammas)
    {
        ArgumentNullException.ThrowIfNull(wavenumbers);
        ArgumentNullException.ThrowIfNull(gammas);
        if (wavenumbers.Count < 2 || wavenumbers.Count != gammas.Count)
            throw new ArgumentException(FormattableString.Invariant($"A coherence curve needs two or more points with both values; there are {wavenumbers.Count} spatial frequencies and {gammas.Count} values."), nameof(wavenumbers));
        for (var i = 0; i < wavenumbers.Count; i++)
        {
            CheckGamma(gammas[i], nameof(gammas));
            if (!double.IsFinite(wavenumbers[i]) || (i > 0 && wavenumbers[i] <= wavenumbers[i - 1]))
                throw new ArgumentException(FormattableString.Invariant($"Spatial frequencies must be finite and ascend; number {i + 1} is {wavenumbers[i]}."), nameof(wavenumbers));
        }

        ImmutableArray<double> n = [.. wavenumbers], g = [.. gammas];
        return new TrackCoherence("given curve", at =>
        {
            var k = n.BinarySearch(at);
            if (k >= 0) return g[k];
            k = ~k;
            if (k == 0 || k == n.Length) return g[Math.Min(k, n.Length - 1)];
            return g[k - 1] + ((g[k] - g[k - 1]) * (at - n[k - 1]) / (n[k] - n[k - 1]));
        });
    }

    /// <summary>The value of <c>γ</c> at a spatial frequency.</summary>
    /// <param name="wavenumber">Spatial frequency, cycle/m; 0 or more.</param>
    public double Gamma(double wavenumber) => _gamma(wavenumber);

    private static void CheckGamma(double gamma, string name)
    {
        if (!(gamma is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(name, gamma, "A coherence γ lies between 0 and 1.");
    }
}
