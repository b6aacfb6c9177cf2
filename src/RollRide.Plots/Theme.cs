using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>The look of all figures: colours, type sizes and lines.</summary>
/// <remarks>
/// <para>
/// The hues of the layouts come from the colour-blind-safe palette of Okabe and Ito (Color Universal Design, 2008, from memory). Its
/// yellow is too pale for a line on white and is replaced by the wine of Tol's muted scheme (Colour Schemes, SRON technical note, 2021,
/// from memory). They are ordered so that the layouts drawn most often, the first three, differ most in lightness; every layout also
/// has its own dash and its own marker, so that a figure can be read in greyscale.
/// </para>
/// <para>Sizes are in plot units of 1/96 inch.</para>
/// </remarks>
public static class Theme
{
    private static readonly LayoutStyle[] Layouts =
    [
        Style(0x0072B2, [], MarkerType.Circle, filled: true),
        Style(0xE69F00, [4.5, 1.5], MarkerType.Square, filled: true),
        Style(0x000000, [2.2, 1.3], MarkerType.Triangle, filled: true),
        Style(0x009E73, [5, 1.3, 1.2, 1.3], MarkerType.Diamond, filled: true),
        Style(0xD55E00, [1.2, 1.2], MarkerType.Circle, filled: false),
        Style(0x56B4E9, [6, 1.5, 1.2, 1.5, 1.2, 1.5], MarkerType.Square, filled: false),
        Style(0x882255, [8, 1.5, 3, 1.5], MarkerType.Triangle, filled: false),
        Style(0xCC79A7, [3, 1.2, 3, 1.2, 1.2, 1.2], MarkerType.Diamond, filled: false),
    ];

    /// <summary>The number of layouts that can be told apart.</summary>
    public static int LayoutCount => Layouts.Length;

    /// <summary>Colour of text, and of the axes.</summary>
    public static OxyColor Ink { get; } = OxyColor.FromRgb(0x22, 0x22, 0x22);

    /// <summary>Colour of text that stands back: subtitle, footer, the labels of spans.</summary>
    public static OxyColor SoftInk { get; } = OxyColor.FromRgb(0x55, 0x55, 0x55);

    /// <summary>Colour of gridlines.</summary>
    public static OxyColor Grid { get; } = OxyColor.FromRgb(0xE8, 0xE8, 0xE8);

    /// <summary>Colour of the line through zero.</summary>
    public static OxyColor Zero { get; } = OxyColor.FromRgb(0x9A, 0x9A, 0x9A);

    /// <summary>Fill of every second shaded span.</summary>
    public static OxyColor Shade { get; } = OxyColor.FromRgb(0xF3, 0xF4, 0xF6);

    /// <summary>Fill of a span that stands out.</summary>
    public static OxyColor Marked { get; } = OxyColor.FromRgb(0xD2, 0xD4, 0xD8);

    /// <summary>Fill of a target band.</summary>
    public static OxyColor Target { get; } = OxyColor.FromRgb(0xDD, 0xEB, 0xDD);

    /// <summary>Type size of a figure's title.</summary>
    public const double TitleSize = 18;

    /// <summary>Type size of a figure's subtitle.</summary>
    public const double SubtitleSize = 13;

    /// <summary>Type size of a panel's title.</summary>
    public const double PanelTitleSize = 12.5;

    /// <summary>Type size of the titles of axes.</summary>
    public const double AxisTitleSize = 12;

    /// <summary>Type size of tick labels, of the names of layouts and of values written into a panel.</summary>
    public const double LabelSize = 11;

    /// <summary>Type size of a figure's footer.</summary>
    public const double FooterSize = 9;

    /// <summary>Half the width of a marker on a line.</summary>
    public const double MarkerSize = 3.6;

    /// <summary>The style of a layout.</summary>
    /// <param name="index">Its place among the layouts compared, from 0; the baseline is 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such style: more layouts cannot be told apart in one figure.</exception>
    public static LayoutStyle For(int index) => index >= 0 && index < Layouts.Length
        ? Layouts[index]
        : throw new ArgumentOutOfRangeException(nameof(index), index, $"A figure can tell {LayoutCount} layouts apart: the index must be 0 to {LayoutCount - 1}.");

    /// <summary>An empty panel in this look: white, an axis line left and below only, gridlines that stand back.</summary>
    /// <param name="title">The panel's title, or null.</param>
    public static PlotModel Panel(string? title = null)
    {
        var model = new PlotModel
        {
            Background = OxyColors.White,
            TextColor = Ink,
            DefaultFontSize = LabelSize,
            PlotAreaBorderColor = Ink,
            PlotAreaBorderThickness = new OxyThickness(1, 0, 0, 1),
            Padding = new OxyThickness(0),
            IsLegendVisible = false,
        };
        if (!string.IsNullOrEmpty(title))
            model.Annotations.Add(new PanelTitle(title));
        return model;
    }

    /// <summary>How a reference line is drawn.</summary>
    internal static LayoutStyle Reference { get; } = new(SoftInk, [4, 2.5], MarkerType.None, Filled: true, Thickness: 1.2);

    /// <summary>Adds a line through the zero of an axis, where zero lies between its limits.</summary>
    /// <param name="model">The panel.</param>
    /// <param name="axis">The axis.</param>
    public static void AddZeroLine(PlotModel model, LinearAxis axis)
    {
        if (!(axis.Minimum < 0 && axis.Maximum > 0))
            return;
        model.Annotations.Add(new LineAnnotation
        {
            Type = axis.Position is AxisPosition.Left or AxisPosition.Right ? LineAnnotationType.Horizontal : LineAnnotationType.Vertical,
            X = 0,
            Y = 0,
            Color = Zero,
            LineStyle = LineStyle.Solid,
            StrokeThickness = 1,
            Layer = AnnotationLayer.BelowSeries,
        });
    }

    private static LayoutStyle Style(uint rgb, double[] dashes, MarkerType marker, bool filled) =>
        new(OxyColor.FromUInt32(0xFF000000 | rgb), dashes, marker, filled, Thickness: 2);
}
