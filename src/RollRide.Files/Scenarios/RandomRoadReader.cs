using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Scenarios;

/// <summary>Turns the random road of a file into its record.</summary>
internal static class RandomRoadReader
{
    /// <summary>Reads the random road; null after a fault.</summary>
    public static RandomRoad? Read(ReadingContext context, string path, RandomRoadFile file, double track)
    {
        var before = context.Faults.Count;
        if (file.HighestWavenumber <= file.LowestWavenumber)
            context.Refuse($"{path}.highestWavenumber_per_m", $"must lie above lowestWavenumber_per_m, {file.LowestWavenumber}");
        else if (file.HighestWavenumber - file.LowestWavenumber < RoughnessSpectrum.NarrowestBand * file.HighestWavenumber)
            context.Refuse($"{path}.highestWavenumber_per_m", $"the band up from lowestWavenumber_per_m, {file.LowestWavenumber}, must be {100 * RoughnessSpectrum.NarrowestBand} % of it wide or more; a road of one wavelength is an event, sine");
        var spectrum = Spectrum(file);
        var coherence = context.Make($"{path}.coherence", () => Coherence(context, $"{path}.coherence", file.Coherence, track, spectrum.Waviness));
        if (coherence is null || context.Faults.Count > before)
            return null;
        if (spectrum.ReferenceDensity > RoadClasses.Mean(RoadClass.H))
            context.Warn(path, $"the road is rougher than the mean of class h, the roughest there is; is the density in m³ and at 0.1 waves per metre?");
        return new RandomRoad
        {
            Spectrum = spectrum,
            Coherence = coherence,
            Seed = file.Seed,
            ContactLength = file.ContactLengthMm * Unit.Millimetre.InSi,
            LeadIn = file.LeadIn,
        };
    }

    private static RoughnessSpectrum Spectrum(RandomRoadFile file)
    {
        var spectrum = file.Class is { } roadClass
            ? RoughnessSpectrum.Of(roadClass)
            : new RoughnessSpectrum
            {
                ReferenceDensity = file.Spectrum!.ReferenceDensity,
                Waviness = file.Spectrum.Waviness,
                BreakWavenumber = file.Spectrum.BreakWavenumber,
                WavinessAboveBreak = file.Spectrum.WavinessAboveBreak,
            };
        return spectrum with { LowestWavenumber = file.LowestWavenumber, HighestWavenumber = file.HighestWavenumber };
    }

    private static TrackCoherence? Coherence(ReadingContext context, string path, CoherenceFile? file, double track, double waviness)
    {
        switch (file)
        {
            case null:
                return TrackCoherence.Isotropic(track, waviness);
            case { Gamma: { } gamma }:
                if (file.Wavenumbers is not null)
                    context.Refuse($"{path}.wavenumbers_per_m", $"belongs to gammas; gamma is one value for all");
                return TrackCoherence.Constant(gamma);
            case { Wavenumbers: { } wavenumbers } when context.SameLength($"{path}.wavenumbers_per_m", "wavenumbers_per_m", wavenumbers, "gammas", file.Gammas!):
                return TrackCoherence.Curve(wavenumbers, file.Gammas!);
            case { Wavenumbers: null }:
                context.Refuse($"{path}.gammas", $"needs wavenumbers_per_m beside it");
                return null;
            default:
                return null;
        }
    }
}
