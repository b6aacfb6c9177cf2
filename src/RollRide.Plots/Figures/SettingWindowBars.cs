using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;
using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Setting windows as bars: those of layouts whose position makes no difference, or of one layout in several load states.</summary>
internal static class SettingWindowBars
{
    private const double Kilo = 1e-3;
    private const double HalfWidth = 0.13;
    private const double Headroom = 1.3; // for names of three lines above the highest edge
    private const double Gap = 0.02;

    /// <summary>Builds the panel.</summary>
    /// <param name="title">Its title; null for none.</param>
    /// <param name="bars">A name below each bar, the window, and the place of the layout whose marker shows its present setting.</param>
    public static PlotModel Model(string? title, IReadOnlyList<(string Name, WindowVerdict Verdict, int Layout)> bars)
    {
        var values = bars.SelectMany(bar => (double[])[bar.Verdict.Window.Lower.Coefficient, bar.Verdict.Window.Upper.Coefficient, bar.Verdict.Coefficient]);
        var model = Theme.Panel(title);
        model.Axes.Add(PlotAxis.Names(AxisPosition.Bottom, [.. bars.Select(bar => bar.Name)]));
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Left, "Equivalent coefficient of each damper", "kN·s/m",
            new PlotRange(0, Headroom * Kilo * values.Where(double.IsFinite).Max())));
        for (var i = 0; i < bars.Count; i++)
            Add(model, bars[i].Verdict, i, Theme.For(bars[i].Layout));
        return model;
    }

    private static void Add(PlotModel model, WindowVerdict verdict, int place, LayoutStyle style)
    {
        var (lower, upper) = (verdict.Window.Lower, verdict.Window.Upper);
        if (verdict.Window.IsOpen)
        {
            model.Annotations.Add(new RectangleAnnotation
            {
                MinimumX = place - HalfWidth,
                MaximumX = place + HalfWidth,
                MinimumY = lower.Coefficient * Kilo,
                MaximumY = upper.Coefficient * Kilo,
                Fill = Theme.Target,
                Layer = AnnotationLayer.BelowSeries,
            });
        }

        // Of a closed window the least setting lies above the greatest, or does not exist.
        var isOpen = verdict.Window.IsOpen;
        AddEdge(model, place, upper, "suspension locks", isOpen || double.IsInfinity(lower.Coefficient));
        if (double.IsFinite(lower.Coefficient))
            AddEdge(model, place, lower, "no damping", !isOpen);

        var now = verdict.Coefficient * Kilo;
        var mark = new LineSeries
        {
            LineStyle = LineStyle.None,
            MarkerType = style.Marker,
            MarkerSize = 1.3 * Theme.MarkerSize,
            MarkerFill = style.MarkerFill,
            MarkerStroke = style.Color,
            MarkerStrokeThickness = style.MarkerStroke,
        };
        mark.Points.Add(new DataPoint(place, now));
        model.Series.Add(mark);
        SettingWindowFigure.AddText(model, place - HalfWidth - Gap, now,
            FigureParts.Text($"now {now:F2},\n{SettingWindowFigure.Standing(verdict.Standing)}"), HorizontalAlignment.Right, VerticalAlignment.Middle);
    }

    private static void AddEdge(PlotModel model, int place, WindowEdge edge, string unbound, bool above)
    {
        var value = edge.Coefficient * Kilo;
        var line = new LineSeries { Color = Theme.Ink, StrokeThickness = 1.6 };
        line.Points.AddRange([new DataPoint(place - HalfWidth, value), new DataPoint(place + HalfWidth, value)]);
        model.Series.Add(line);
        var name = edge.Binding is { } target ? DampingTargetNames.Words(target) : unbound;
        SettingWindowFigure.AddText(model, place + HalfWidth + Gap, value, FigureParts.Text($"{name.Replace(' ', '\n')}\n{value:F2}"), HorizontalAlignment.Left,
            above ? VerticalAlignment.Bottom : VerticalAlignment.Top);
    }
}
