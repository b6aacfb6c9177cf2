using RollRide.Numerics;

namespace RollRide.Roads;

/// <summary>
/// A random road in two tracks with a given spectrum and coherence, without end and without repeating itself. The same seed
/// gives the same road at every place, whoever reads it. Immutable and thread-safe; read through <see cref="CreateCursor"/>.
/// </summary>
public sealed record RandomRoad
{
    /// <summary>Spectrum of each track; its band is not narrower than <see cref="RoughnessSpectrum.NarrowestBand"/>.</summary>
    public required RoughnessSpectrum Spectrum { get; init => field = value?.WithBandChecked() ?? throw new ArgumentNullException(nameof(Spectrum)); }

    /// <summary>Coherence of the two tracks.</summary>
    public required TrackCoherence Coherence { get; init; }

    /// <summary>Seed of the random numbers.</summary>
    public required int Seed { get; init; }

    /// <summary>
    /// Length of the tyre's contact, m; 0 for a point. The road is averaged over it: the tyre lies over what is shorter.
    /// </summary>
    public double ContactLength { get; init => field = Require.NotNegative(value, "m", nameof(ContactLength)); }

    /// <summary>Length over which the unevenness grows from nothing at the start, m, above 0: the vehicle starts at rest on flat road.</summary>
    public double LeadIn { get; init => field = Require.Positive(value, "m", nameof(LeadIn)); } = 20;

    /// <summary>Makes a cursor.</summary>
    public RandomRoadCursor CreateCursor() => new(this);

    /// <summary>
    /// Samples the road after its lead-in. Where the spacing is too wide for the shortest waves they are left out; they do not
    /// show as false longer ones.
    /// </summary>
    /// <param name="length">Length, m, above 0.</param>
    /// <param name="step">Sample spacing, m, above 0.</param>
    /// <param name="cancellation">Stops the sampling.</param>
    public RoadProfile ToProfile(double length, double step, CancellationToken cancellation = default)
    {
        Require.Positive(length, "m");
        Require.Positive(step, "m");

        // Two samples on the shortest wave are the least that shows it.
        var finer = Math.Ceiling(2 * step * Spectrum.HighestWavenumber * (1 - 1e-9));
        return finer > 1 ? Sampled(length, step / finer, cancellation).Resampled(step, cancellation) : Sampled(length, step, cancellation);
    }

    private RoadProfile Sampled(double length, double step, CancellationToken cancellation)
    {
        var count = (int)Math.Floor((length / step) + 1e-9) + 1;
        var (left, right) = (new double[count], new double[count]);
        var cursor = CreateCursor();
        for (var i = 0; i < count; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            var sample = cursor.At(LeadIn + (i * step));
            (left[i], right[i]) = (sample.Left, sample.Right);
        }

        return new RoadProfile(step, left, right);
    }
}
