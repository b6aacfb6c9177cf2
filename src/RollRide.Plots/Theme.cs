using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>The look of all figures: colours, type sizes and lines.</summary>
/// <remarks>Sizes are in plot units of 1/96 inch.</remarks>
public static class Theme
{
    /// <summary>Colour of text, and of the axes.</summary>
    public static OxyColor Ink { get; } = OxyColor.FromRgb(0x22, 0x22, 0x22);

    /// <summary>Colour of text that stands back: subtitle, footer, the labels of spans.</summary>
    public static OxyColor SoftInk { get; } = OxyColor.FromRgb(0x55, 0x55, 0x55);

    /// <summary>Colour of gridlines.</summary>
    public static OxyColor Grid { get; } = OxyColor.FromRgb(0xE8, 0xE8, 0xE8);

    /// <summary>Colour of the line through zero.</summary>
    public static OxyColor Zero { get; } = OxyColor.FromRgb(0x9A, 0x9A, 0x9A);

    /// <summary>Fill of every second phase of a manoeuvre, and of nothing else.</summary>
    public static OxyColor Shade { get; } = OxyColor.FromRgb(0xF3, 0xF4, 0xF6);

    /// <summary>Fill of a span in which something happens: an obstacle, a wheel in the air. The subtitle says what.</summary>
    public static OxyColor Marked { get; } = OxyColor.FromRgb(0xD2, 0xD4, 0xD8);

    /// <summary>Fill of what meets the targets, and of nothing else.</summary>
    public static OxyColor Target { get; } = OxyColor.FromRgb(0xDD, 0xEB, 0xDD);

    /// <summary>Fill of where a damper fits, and of nothing else.</summary>
    public static OxyColor Fits { get; } = OxyColor.FromRgb(0xFB, 0xEE, 0xC2);

    /// <summary>Type size of the title of a figure that stands alone.</summary>
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
}
