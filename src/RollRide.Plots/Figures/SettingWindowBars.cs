using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>The setting window of each layout as a bar, where position makes no difference: on independent suspension.</summary>
internal static class SettingWindowBars
{
    private const double HalfWidth = 0.13;
    private const double Headroom = 1.3; // for names of three lines above the highest edge
    private const double Gap = 0.02;
    private const double BesideTheLast = 0.3; // for the names of its edges

    /// <summary>Builds the panel.</summary>
    /// <param name="result">The windows.</param>
    public static PlotModel Model(SettingWindowResult result)
    {
        var values = result.Layouts.SelectMany(layout => (double[])[layout.Verdict.Window.Lower.Coefficient, layout.Verdict.Window.Upper.Coefficient, layout.Verdict.Coefficient]);
        var styles = StudyStyles.Of(result.Study);
        var model = Theme.Panel();
        var names = PlotAxis.Names(AxisPosition.Bottom, [.. result.Layouts.Select(Named)]);
        names.Maximum += BesideTheLast;
        model.Axes.Add(names);
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Left, "Equivalent coefficient of each damper", "kN·s/m",
            new PlotRange(0, Headroom * Unit.KilonewtonSecondPerMetre.Of(values.Where(double.IsFinite).Max()))));
        for (var i = 0; i < result.Layouts.Length; i++)
            Add(model, result.Layouts[i].Verdict, i, styles[result.Layouts[i].Name]);
        return model;
    }

    private static void Add(PlotModel model, WindowVerdict verdict, int place, SeriesStyle style)
    {
        AddBar(model, verdict.Window, place, HalfWidth);
        foreach (var (edge, isAbove) in Edges(verdict.Window))
        {
            SettingWindowFigure.AddText(model, place + HalfWidth + Gap, Unit.KilonewtonSecondPerMetre.Of(edge.Coefficient), FigureParts.Text($"{Name(verdict.Window, edge).Replace(' ', '\n')}\n{Unit.KilonewtonSecondPerMetre.Of(edge.Coefficient):F2}"),
                HorizontalAlignment.Left, isAbove ? VerticalAlignment.Bottom : VerticalAlignment.Top);
        }

        AddMark(model, place, Unit.KilonewtonSecondPerMetre.Of(verdict.Coefficient), style);
    }

    private static string Named(LayoutWindow layout) =>
        FigureParts.Text($"{layout.Name}: {Unit.KilonewtonSecondPerMetre.Of(layout.Verdict.Coefficient):F2}, {SettingWindowFigure.Standing(layout.Verdict.Standing)}");

    /// <summary>Draws a window: filled where it is open, with a line at each edge that exists.</summary>
    /// <param name="model">The panel.</param>
    /// <param name="window">The window.</param>
    /// <param name="place">Where its middle stands.</param>
    /// <param name="halfWidth">Half of its width.</param>
    public static void AddBar(PlotModel model, SettingWindow window, int place, double halfWidth)
    {
        if (window.IsOpen)
        {
            model.Annotations.Add(new RectangleAnnotation
            {
                MinimumX = place - halfWidth,
                MaximumX = place + halfWidth,
                MinimumY = Unit.KilonewtonSecondPerMetre.Of(window.Lower.Coefficient),
                MaximumY = Unit.KilonewtonSecondPerMetre.Of(window.Upper.Coefficient),
                Fill = Theme.Target,
                Layer = AnnotationLayer.BelowSeries,
            });
        }

        foreach (var (edge, _) in Edges(window))
        {
            var line = new LineSeries { Color = Theme.Ink, StrokeThickness = 1.6 };
            line.Points.AddRange([new DataPoint(place - halfWidth, Unit.KilonewtonSecondPerMetre.Of(edge.Coefficient)), new DataPoint(place + halfWidth, Unit.KilonewtonSecondPerMetre.Of(edge.Coefficient))]);
            model.Series.Add(line);
        }
    }

    /// <summary>Marks the present setting of a layout.</summary>
    public static void AddMark(PlotModel model, int place, double coefficient, SeriesStyle style)
    {
        var mark = new LineSeries
        {
            LineStyle = LineStyle.None,
            MarkerType = style.Marker,
            MarkerSize = 1.3 * Theme.MarkerSize,
            MarkerFill = style.MarkerFill,
            MarkerStroke = style.Color,
            MarkerStrokeThickness = style.MarkerStroke,
        };
        mark.Points.Add(new DataPoint(place, coefficient));
        model.Series.Add(mark);
    }

    /// <summary>The edges that exist, each with whether it is the higher one: of a closed window the least setting lies above the greatest, or does not exist.</summary>
    public static IEnumerable<(WindowEdge Edge, bool IsAbove)> Edges(SettingWindow window)
    {
        var hasLower = double.IsFinite(window.Lower.Coefficient);
        yield return (window.Upper, window.IsOpen || !hasLower);
        if (hasLower)
            yield return (window.Lower, !window.IsOpen);
    }

    /// <summary>What binds at an edge, in words.</summary>
    public static string Name(SettingWindow window, WindowEdge edge) =>
        edge.Binding is { } target ? DampingTargetNames.Words(target) : edge == window.Upper ? "suspension locks" : "no damping";
}
