using System.ComponentModel;
using RollRide.DataFiles;
using RollRide.Roads;

namespace RollRide.Scenarios;

[Description("A random road by ISO 8608, of any length.")]
[ExactlyOneOf("class", "spectrum")]
internal sealed record RandomRoadFile
{
    [Key("class", "road class of ISO 8608 at its geometric mean: a is very good, b good, c average, d poor, e very poor, and on to h")]
    public RoadClass? Class { get; init; }

    [Key("spectrum", "the spectrum by its numbers")]
    public RoadSpectrumFile? Spectrum { get; init; }

    [Key("seed", "seed of the random numbers: the same seed gives the same road")]
    public int Seed { get; init; } = 1;

    [Key("lowestWavenumber_per_m", "lowest spatial frequency in waves per metre: one over the longest wavelength")]
    [Between(0.001, 10)]
    public double LowestWavenumber { get; init; } = RoadClasses.LowestWavenumber;

    [Key("highestWavenumber_per_m", "highest spatial frequency in waves per metre: one over the shortest wavelength")]
    [Between(0.01, 100)]
    public double HighestWavenumber { get; init; } = RoadClasses.HighestWavenumber;

    [Key("contactLength_mm", "length of the tyre's contact, over which the road is averaged; 0 for a point")]
    [Between(0, 1000)]
    public double ContactLengthMm { get; init; }

    [Key("coherence", "coherence of left and right track; if left out, that of an isotropic surface at the distance of the vehicle's track")]
    public CoherenceFile? Coherence { get; init; }

    [Key("leadIn_m", "length over which the unevenness grows from a flat start: the vehicle must not start on a step")]
    [Between(0.001, 1000)]
    public double LeadIn { get; init; } = 20;
}

[Description("The displacement spectrum of a road.")]
internal sealed record RoadSpectrumFile
{
    [Key("referenceDensity_m3", "displacement density Gd(n0) at n0 = 0.1 waves per metre; class a has 16e-6. Densities at 1 rad/m are 16 times smaller: do not mix them")]
    [Between(1e-12, 1000)]
    public required double ReferenceDensity { get; init; }

    [Key("waviness", "waviness w: the density falls with the spatial frequency to this power")]
    [Between(0.5, 5)]
    public double Waviness { get; init; } = 2;

    [Key("breakWavenumber_per_m", "spatial frequency at which the waviness changes; one slope if left out")]
    [Between(0.001, 100)]
    public double? BreakWavenumber { get; init; }

    [Key("wavinessAboveBreak", "waviness above the break")]
    [Between(0.5, 5)]
    public double WavinessAboveBreak { get; init; } = 2;
}

[Description("Coherence of the two wheel tracks.")]
[ExactlyOneOf("gamma", "gammas")]
internal sealed record CoherenceFile
{
    [Key("gamma", "the same at every wavelength: 1 for the same road under both wheels, 0 for two independent roads")]
    [Between(0, 1)]
    public double? Gamma { get; init; }

    [Key("gammas", "a curve: the value at each of wavenumbers_per_m; its square is the ordinary coherence")]
    [Between(0, 1)]
    [MinCount(2)]
    [MaxCount(1000)]
    public IReadOnlyList<double>? Gammas { get; init; }

    [Key("wavenumbers_per_m", "with gammas: the spatial frequencies of the curve, ascending")]
    [Between(0, 1000)]
    [MaxCount(1000)]
    public IReadOnlyList<double>? Wavenumbers { get; init; }
}

[Description("A measured road in even steps.")]
internal sealed record MeasuredRoadFile
{
    [Key("file", "a CSV file with the columns distance_m, in even steps, and left_mm, right_mm or both; one alone is taken for both sides")]
    [FileName]
    public required string File { get; init; }

    [Key("detrend", "whether each track's straight gradient is taken off")]
    public bool Detrend { get; init; }

    [Key("spacing_mm", "resample to this spacing, without false waves; as measured if left out")]
    [Between(1, 1000)]
    public double? SpacingMm { get; init; }

    [Key("contactLength_mm", "length of the tyre's contact, over which the road is averaged; 0 for a point")]
    [Between(0, 1000)]
    public double ContactLengthMm { get; init; }
}
