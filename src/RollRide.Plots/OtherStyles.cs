using OxyPlot;

namespace RollRide.Plots;

/// <summary>
/// The styles of all that is no layout: wheels, modes, directions, before and after. Ink and greys, which no layout has, with dashes and
/// open markers of their own; a solid line alone stands in both.
/// </summary>
public static class OtherStyles
{
    /// <summary>The first of several, or the only one.</summary>
    public static SeriesStyle First { get; } = Line(Theme.Ink, []);

    /// <summary>The second.</summary>
    public static SeriesStyle Second { get; } = Line(OxyColor.FromRgb(0x80, 0x80, 0x80), [7, 3]);

    /// <summary>The third.</summary>
    public static SeriesStyle Third { get; } = Line(Theme.SoftInk, [1.6, 2.4]);

    /// <summary>Points that were measured, and the line through them.</summary>
    public static SeriesStyle Measured { get; } = First with { Marker = MarkerType.Cross, Filled = false };

    /// <summary>What lies behind the others: measured loops, a band.</summary>
    public static SeriesStyle Ground { get; } = Line(Theme.Zero, []);

    /// <summary>A line to compare with.</summary>
    public static SeriesStyle Reference { get; } = Line(Theme.SoftInk, [4, 2.5]) with { Thickness = 1.2 };

    /// <summary>A point to compare with.</summary>
    public static SeriesStyle Point { get; } = Reference with { Marker = MarkerType.Plus, Filled = false };

    /// <summary>All of them.</summary>
    internal static IReadOnlyList<SeriesStyle> All => [First, Second, Third, Measured, Ground, Reference, Point];

    private static SeriesStyle Line(OxyColor color, double[] dashes) => new(color, dashes, MarkerType.None, Filled: true, Thickness: 1.8);
}
