using OxyPlot;

namespace RollRide.Plots;

/// <summary>
/// The style of each layout: the same in every figure of a scenario, whichever of its layouts are shown. Only a layout's name gets one;
/// whatever else is drawn takes its style from <see cref="OtherStyles"/>.
/// </summary>
/// <remarks>
/// The hues come from the colour-blind-safe palette of Okabe and Ito (Color Universal Design, 2008, from memory). Its black is left to
/// what is no layout, and its yellow is too pale for a line on white: a maroon, and the indigo of Tol's muted scheme (Colour Schemes,
/// SRON technical note, 2021, from memory), stand for them. They are ordered so that the layouts drawn most often, the first three,
/// differ most in lightness; every layout also has its own dash and its own marker, so that a figure can be read in greyscale.
/// </remarks>
public sealed class LayoutStyles
{
    private static readonly SeriesStyle[] Styles =
    [
        Style(0x0072B2, [], MarkerType.Circle, filled: true),
        Style(0xE69F00, [4.5, 1.5], MarkerType.Square, filled: true),
        Style(0x661100, [2.2, 1.3], MarkerType.Triangle, filled: true),
        Style(0x009E73, [5, 1.3, 1.2, 1.3], MarkerType.Diamond, filled: true),
        Style(0xD55E00, [1.2, 1.2], MarkerType.Circle, filled: false),
        Style(0x56B4E9, [6, 1.5, 1.2, 1.5, 1.2, 1.5], MarkerType.Square, filled: false),
        Style(0x332288, [8, 1.5, 3, 1.5], MarkerType.Triangle, filled: false),
        Style(0xCC79A7, [3, 1.2, 3, 1.2, 1.2, 1.2], MarkerType.Diamond, filled: false),
    ];

    private readonly string[] _names;

    /// <summary>Hands out styles by place.</summary>
    /// <param name="all">Names of all layouts of the scenario, in its order.</param>
    /// <param name="shown">Names of those shown. Where there are more layouts than styles, their places count among these.</param>
    public LayoutStyles(IReadOnlyList<string> all, IReadOnlyList<string> shown) => _names = [.. all.Count <= Count ? all : shown];

    /// <summary>The number of layouts that can be told apart.</summary>
    public static int Count => Styles.Length;

    /// <summary>All styles, in the order of the places.</summary>
    internal static IReadOnlyList<SeriesStyle> All => Styles;

    /// <summary>The style of a layout.</summary>
    /// <param name="name">Its name.</param>
    /// <exception cref="ArgumentException">No layout has this name, or it is one more than can be told apart.</exception>
    public SeriesStyle this[string name] => Array.IndexOf(_names, name) switch
    {
        < 0 => throw new ArgumentException($"“{name}” is no layout, and has no layout's style.", nameof(name)),
        var place when place >= Count => throw new ArgumentException($"A figure can tell {Count} layouts apart, and “{name}” is layout {place + 1}.", nameof(name)),
        var place => Styles[place],
    };

    private static SeriesStyle Style(uint rgb, double[] dashes, MarkerType marker, bool filled) =>
        new(OxyColor.FromUInt32(0xFF000000 | rgb), dashes, marker, filled, Thickness: 2);
}
