using RollRide.Dynamics;
using RollRide.Roads;

namespace RollRide.Studies;

/// <summary>A road by itself: its profile, what that is by the measures of the trade, and what its tracks are compared with.</summary>
public sealed record RoadStudy
{
    private RoadStudy()
    {
    }

    /// <summary>The profile that was analysed.</summary>
    public required RoadProfile Profile { get; init; }

    /// <summary>What it is.</summary>
    public required RoadAnalysis Analysis { get; init; }

    /// <summary>Distance between the tracks, m; null where one track was measured.</summary>
    public required double? Track { get; init; }

    /// <summary>The coherence of an isotropic surface of this road's waviness; null where one track was measured, or there is no spectrum.</summary>
    public TrackCoherence? Isotropic { get; private init; }

    /// <summary>The length that a road is looked at, m: a random one as long as asked for, any other as far as it is driven.</summary>
    /// <param name="manoeuvre">The manoeuvre.</param>
    /// <param name="asked">Length of a random road, m.</param>
    public static double LengthOf(Manoeuvre manoeuvre, double asked)
    {
        ArgumentNullException.ThrowIfNull(manoeuvre);
        return manoeuvre.Road.Unevenness is null ? manoeuvre.Road.Speed * manoeuvre.Duration : asked;
    }

    /// <summary>The profile of a manoeuvre's road; of a random one the random part alone, not averaged over the tyre's contact.</summary>
    /// <param name="manoeuvre">The manoeuvre.</param>
    /// <param name="asked">Length of a random road, m.</param>
    /// <param name="step">Sample spacing, m.</param>
    /// <param name="cancellation">Stops it.</param>
    public static RoadProfile ProfileOf(Manoeuvre manoeuvre, double asked, double step, CancellationToken cancellation = default)
    {
        var length = LengthOf(manoeuvre, asked);
        return manoeuvre.Road.Unevenness is { } random
            ? (random with { ContactLength = 0 }).ToProfile(length, step, cancellation)
            : manoeuvre.Road.ToProfile(length, step, cancellation);
    }

    /// <summary>Analyses a profile.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="track">Distance between the tracks, m; null where one track was measured.</param>
    /// <param name="waviness">The waviness that the road was made with; null where it is that of the spectrum found.</param>
    /// <exception cref="ArgumentException">The profile is too short or too coarse for the roughness index, or a track is flat.</exception>
    public static RoadStudy Of(RoadProfile profile, double? track, double? waviness = null)
    {
        ArgumentNullException.ThrowIfNull(profile);
        var analysis = RoadAnalysis.Of(profile);
        return new RoadStudy
        {
            Profile = profile,
            Analysis = analysis,
            Track = track,
            Isotropic = analysis.Spectrum is { } spectrum && track is { } apart ? TrackCoherence.OfIsotropicSurface(apart, waviness ?? spectrum.Waviness) : null,
        };
    }
}
