using System.Collections.Immutable;

namespace RollRide.Metrics;

/// <summary>
/// A likely reaction to vibration in public transport, ISO 2631-1:1997, Annex C. The ranges overlap on purpose; the last two are
/// from memory.
/// </summary>
/// <param name="Words">The reaction.</param>
/// <param name="From">Lower end of the total weighted root mean square, m/s².</param>
/// <param name="To">Upper end, m/s²; may be infinite.</param>
public sealed record ComfortReaction(string Words, double From, double To)
{
    /// <summary>
    /// The caution that belongs to the ranges: the standard gives them as approximate indications and says that what is
    /// acceptable depends on what passengers expect, on trip length, on what they do, and on noise and temperature.
    /// </summary>
    public const string Caution =
        "Approximate indications for public transport: what passengers accept also depends on what they expect and do, on the length of the trip, and on noise and temperature.";

    /// <summary>All ranges, mildest first.</summary>
    public static ImmutableArray<ComfortReaction> All { get; } =
    [
        new("not uncomfortable", 0, 0.315),
        new("a little uncomfortable", 0.315, 0.63),
        new("fairly uncomfortable", 0.5, 1),
        new("uncomfortable", 0.8, 1.6),
        new("very uncomfortable", 1.25, 2.5),
        new("extremely uncomfortable", 2, double.PositiveInfinity),
    ];

    /// <summary>Every range a value lies in: one or two.</summary>
    /// <param name="total">Total weighted root mean square acceleration, m/s²; 0 or more.</param>
    public static ImmutableArray<ComfortReaction> Of(double total)
    {
        Numerics.Require.NotNegative(total, "m/s²");
        return [.. All.Where(range => total >= range.From && total < range.To)];
    }
}
