using System.Globalization;
using RollRide.Mounting;

namespace RollRide.Studies;

/// <summary>What could be changed to open a closed window.</summary>
public enum RemedyKind
{
    /// <summary>The dampers' lateral position, m from the centre.</summary>
    DamperPosition,

    /// <summary>The springs' lateral position, m from the centre.</summary>
    SpringPosition,

    /// <summary>The anti-roll bar, N·m/rad.</summary>
    AntiRollBar,

    /// <summary>The track, m, everything else fixed in millimetres.</summary>
    Track,

    /// <summary>
    /// Compression's share of the mean coefficient of compression and rebound, if the heave maximum need hold in compression only.
    /// </summary>
    CompressionShare,
}

/// <summary>By how much one thing alone would have to change to open a closed window.</summary>
/// <param name="Kind">What is changed.</param>
/// <param name="Present">Its present value, in SI units; null where the vehicle has none of its own.</param>
/// <param name="Needed">The nearest value that opens the window; null if none in a sane range does.</param>
/// <param name="Sentence">The answer in one sentence.</param>
public sealed record WindowRemedy(RemedyKind Kind, double? Present, double? Needed, string Sentence)
{
    /// <summary>Where the left damper's ends go, where the remedy is to move them and their mounts are known.</summary>
    public (Point3 AxleEnd, Point3 BodyEnd)? Mounts { get; init; }

    internal static WindowRemedy Of(RemedyKind kind, double? present, double? needed, FormattableString sentence) =>
        new(kind, present, needed, sentence.ToString(CultureInfo.InvariantCulture));
}
