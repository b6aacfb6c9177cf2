using RollRide.DataFiles;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Results;

/// <summary>Writes a road as tables.</summary>
public static class RoadTables
{
    // Micrometres and nanometres: finer than any profilometer.
    private const int Digits = 9;

    /// <summary>Writes the profile: distance, left and right elevation. It can be read as a measured profile again.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="profile">The profile.</param>
    public static void WriteProfile(TextWriter output, RoadProfile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        using var table = new CsvTableWriter(output, ["distance_m", "left_mm", "right_mm"], Digits);
        for (var i = 0; i < profile.Count; i++)
            table.WriteRow(profile.Distance(i), Unit.Millimetre.Of(profile.Left[i]), Unit.Millimetre.Of(profile.Right[i]));
    }

    /// <summary>Writes density, fitted line and coherence in each third-octave band.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="spectrum">The spectrum.</param>
    /// <param name="isotropic">The coherence to set beside; null where one track was measured, which leaves both columns empty.</param>
    public static void WriteSpectrum(TextWriter output, MeasuredSpectrum spectrum, TrackCoherence? isotropic)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        using var table = new CsvTableWriter(
            output, ["wavenumber_per_m", "wavelength_m", "densityLeft_m3", "densityRight_m3", "densityLine_m3", "gamma", "gammaIsotropic"], Digits);
        for (var i = 0; i < spectrum.Bands.Length; i++)
        {
            var n = spectrum.Bands[i].Centre;
            table.WriteRow(n, 1 / n, spectrum.Left[i], spectrum.Right[i], spectrum.Line(n),
                isotropic is null ? double.NaN : spectrum.Coherence[i], isotropic?.Gamma(n) ?? double.NaN);
        }
    }
}
