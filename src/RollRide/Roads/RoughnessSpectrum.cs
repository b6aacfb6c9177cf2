using RollRide.Numerics;

namespace RollRide.Roads;

/// <summary>
/// One-sided displacement spectral density of a road, ISO 8608: <c>Gd(n) = Gd(n0) (n/n0)^−w</c>, with a second waviness past
/// a break if wanted, and nothing outside its band. Immutable.
/// </summary>
public sealed record RoughnessSpectrum
{
    /// <summary>Width of the narrowest band a road is made of, over its highest spatial frequency: a road that is almost one sine.</summary>
    public const double NarrowestBand = 0.01;

    /// <summary>Displacement density at <c>n0</c> = 0.1 cycle/m, m³; above 0. Not to be mixed with that at 1 rad/m.</summary>
    public required double ReferenceDensity { get; init => field = Require.Positive(value, "m³", nameof(ReferenceDensity)); }

    /// <summary>Waviness <c>w</c>; 2 in the classes of the standard; above 0.</summary>
    public double Waviness { get; init => field = Require.Positive(value, "", nameof(Waviness)); } = 2;

    /// <summary>Spatial frequency of the break between two slopes, cycle/m; null for one slope.</summary>
    public double? BreakWavenumber { get; init => field = value is { } n ? Require.Positive(n, "cycle/m", nameof(BreakWavenumber)) : null; }

    /// <summary>Waviness above the break; above 0.</summary>
    public double WavinessAboveBreak { get; init => field = Require.Positive(value, "", nameof(WavinessAboveBreak)); } = 2;

    /// <summary>Lowest spatial frequency, cycle/m; above 0.</summary>
    public double LowestWavenumber { get; init => field = Require.Positive(value, "cycle/m", nameof(LowestWavenumber)); } = RoadClasses.LowestWavenumber;

    /// <summary>Highest spatial frequency, cycle/m; above the lowest.</summary>
    public double HighestWavenumber { get; init => field = Require.Positive(value, "cycle/m", nameof(HighestWavenumber)); } = RoadClasses.HighestWavenumber;

    /// <summary>The spectrum at the geometric mean of a class.</summary>
    /// <param name="roadClass">The class.</param>
    public static RoughnessSpectrum Of(RoadClass roadClass) => new() { ReferenceDensity = RoadClasses.Mean(roadClass) };

    /// <summary>Density at a spatial frequency, m³; 0 outside the band.</summary>
    /// <param name="wavenumber">Spatial frequency <c>n</c>, cycle/m.</param>
    public double Density(double wavenumber) =>
        wavenumber < LowestWavenumber || wavenumber > HighestWavenumber ? 0 : Unlimited(wavenumber);

    /// <summary>Mean square elevation of a part of the band, m²: the integral of the density over it.</summary>
    /// <param name="low">Lower end of the part, cycle/m; what lies below the band has no elevation.</param>
    /// <param name="high">Upper end of the part, cycle/m; what lies above the band has no elevation.</param>
    public double MeanSquare(double low, double high)
    {
        (low, high) = (Math.Max(low, LowestWavenumber), Math.Min(high, HighestWavenumber));
        if (high <= low) return 0;
        var split = Math.Clamp(BreakWavenumber ?? high, low, high);
        return Integral(low, split, Waviness) + Integral(split, high, WavinessAboveBreak);
    }

    /// <summary>Refuses a band that is empty, or too narrow to make a road of.</summary>
    /// <exception cref="ArgumentException">The band is narrower than <see cref="NarrowestBand"/>.</exception>
    internal RoughnessSpectrum WithBandChecked() => HighestWavenumber - LowestWavenumber >= NarrowestBand * HighestWavenumber
        ? this
        : throw new ArgumentException(FormattableString.Invariant(
            $"The band of spatial frequencies from {LowestWavenumber} to {HighestWavenumber} cycle/m must be {NarrowestBand:P0} of its upper end wide or more."));

    /// <summary>
    /// Two-sided intensity <c>W</c> of the white road velocity that the spectrum makes at a speed if its slope is 2 at all
    /// wavelengths, m²/s: <c>W = 2π² n0² Gd(n0) V</c>, so that <c>E[ż(t) ż(t+τ)] = W δ(τ)</c>.
    /// </summary>
    /// <param name="speed">Speed, m/s.</param>
    public double VelocityIntensity(double speed) =>
        2 * Math.PI * Math.PI * RoadClasses.ReferenceWavenumber * RoadClasses.ReferenceWavenumber * ReferenceDensity * speed;

    private double Unlimited(double n)
    {
        const double N0 = RoadClasses.ReferenceWavenumber;
        if (BreakWavenumber is not { } split) return ReferenceDensity * Math.Pow(n / N0, -Waviness);

        // The density is continuous at the break, and Gd(n0) is met on whichever side n0 lies.
        var atBreak = ReferenceDensity * Math.Pow(split / N0, N0 <= split ? -Waviness : -WavinessAboveBreak);
        return atBreak * Math.Pow(n / split, n <= split ? -Waviness : -WavinessAboveBreak);
    }

    private double Integral(double low, double high, double waviness)
    {
        if (high <= low) return 0;
        var at = Unlimited(low);
        return waviness == 1
            ? at * low * Math.Log(high / low)
            : at * low * (Math.Pow(high / low, 1 - waviness) - 1) / (1 - waviness);
    }
}
