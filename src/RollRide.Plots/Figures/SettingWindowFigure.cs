using System.Collections.Immutable;
using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;
using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Admissible settings over the lateral position of a vertical damper, with every layout where it stands.</summary>
public static class SettingWindowFigure
{
    private const double Mm = 1e3;
    private const double Kilo = 1e-3;

    // Where the lower edge has run this far over the upper one, nothing is left to see.
    private const double Headroom = 1.8;

    // A mark in the tyres' plane stands clear of the frame.
    private const double Beyond = 1.03;

    // Edges end below the top, so that there is room for their names.
    private const double EdgeShare = 0.92;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">The windows.</param>
    public static Figure Build(SettingWindowResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return new Figure("setting-window.png", Title(result),
            FigureParts.Text($"Which coefficient of an upright damper meets all targets at {result.Targets.Velocity:0.###} m/s, from the centre of the axle to the tyre? {(result.ByPosition.IsEmpty ? "On independent suspension the position makes no difference. " : "")}Marks: each layout as an upright damper of the same effect."),
            FigureParts.Footer(result.Study), [new Panel(Model(result))]);
    }

    private static PlotModel Model(SettingWindowResult result)
    {
        var positions = Positions(result);
        var marks = result.Layouts.Select((layout, i) => Mark(layout, i)).ToArray();
        var top = Headroom * Math.Max(positions.Max(at => at.Window.Upper.Coefficient * Kilo), marks.Max(mark => mark.Y) / Headroom * 1.15);
        var model = Theme.Panel();
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Bottom, "Lateral position of the damper from the centre", "mm", new PlotRange(0, Beyond * result.Study.Vehicle.HalfTrack * Mm)));
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Left, "Equivalent coefficient of each damper", "kN·s/m", new PlotRange(0, top)));
        AddArea(model, result, positions);
        AddEdge(model, positions, at => at.Window.Lower, EdgeShare * top);
        AddEdge(model, positions, at => at.Window.Upper, EdgeShare * top);
        if (result.ClosingPosition is { } closing)
            ReferenceLineLabels.AddTo(model, [new ReferenceLine(closing * Mm, FigureParts.Text($"closes at {closing * Mm:F0} mm"), Vertical: true)]);
        model.Annotations.Add(new PeakLabels(marks));
        return model;
    }

    /// <summary>The windows over position; on independent suspension the one window at every position.</summary>
    private static ImmutableArray<PositionWindow> Positions(SettingWindowResult result)
    {
        if (result.ByPosition.Length > 0)
            return result.ByPosition;
        var layout = result.Layouts[0];
        var squared = layout.Car.Layout.Fitting.HeaveRatio * layout.Car.Layout.Fitting.HeaveRatio;
        var window = layout.Verdict.Window.SeenAt(squared);
        return [new PositionWindow(0, window), new PositionWindow(result.Study.Vehicle.HalfTrack, window)];
    }

    private static PeakMark Mark(LayoutWindow layout, int index)
    {
        var ratio = layout.Car.Layout.Fitting.HeaveRatio;
        var setting = layout.Verdict.Coefficient * ratio * ratio * Kilo;
        var standing = layout.Verdict.Standing switch
        {
            WindowStanding.Inside => "inside",
            WindowStanding.TooSoft => "too soft",
            WindowStanding.TooHard => "too hard",
            _ => "no setting serves",
        };
        return new PeakMark(layout.Position * Mm, setting, $"{layout.Name}: {standing}", index);
    }

    private static void AddArea(PlotModel model, SettingWindowResult result, IReadOnlyList<PositionWindow> positions)
    {
        var open = positions.Where(at => at.Window.IsOpen).ToArray();
        if (open.Length == 0)
            return;
        var area = new AreaSeries { Color = OxyColors.Undefined, Color2 = OxyColors.Undefined, Fill = Theme.Target };
        if (result.ClosingPosition is { } closing)
        {
            area.Points.Add(new DataPoint(closing * Mm, open[0].Window.Upper.Coefficient * Kilo));
            area.Points2.Add(new DataPoint(closing * Mm, open[0].Window.Upper.Coefficient * Kilo));
        }

        foreach (var at in open)
        {
            area.Points.Add(new DataPoint(at.Position * Mm, at.Window.Upper.Coefficient * Kilo));
            area.Points2.Add(new DataPoint(at.Position * Mm, at.Window.Lower.Coefficient * Kilo));
        }

        model.Series.Add(area);
        AddText(model, open[^1].Position * Mm, open[^1].Window.Upper.Coefficient * Kilo, "meets all targets", HorizontalAlignment.Right, VerticalAlignment.Top);
    }

    /// <summary>One edge of the window, piece by piece as one target or another binds, each named once.</summary>
    private static void AddEdge(PlotModel model, IReadOnlyList<PositionWindow> positions, Func<PositionWindow, WindowEdge> edge, double top)
    {
        var drawn = positions.Where(at => edge(at).Coefficient * Kilo <= top).ToArray();
        var line = new LineSeries { Color = Theme.Ink, StrokeThickness = 1.6 };
        line.Points.AddRange(drawn.Select(at => new DataPoint(at.Position * Mm, edge(at).Coefficient * Kilo)));
        model.Series.Add(line);
        var pieces = drawn.GroupBy(at => edge(at).Binding).ToArray();
        for (var i = 0; i < pieces.Length; i++)
        {
            // The first piece is named where it begins, the others where they end: so names keep clear of the curve between.
            var at = i == 0 ? pieces[i].First() : pieces[i].Last();
            var isUpper = edge(at) == at.Window.Upper;
            AddText(model, at.Position * Mm, edge(at).Coefficient * Kilo,
                pieces[i].Key is { } target ? DampingTargetNames.Words(target) : isUpper ? "suspension locks" : "",
                i == 0 ? HorizontalAlignment.Left : HorizontalAlignment.Right, i == 0 || isUpper ? VerticalAlignment.Bottom : VerticalAlignment.Top);
        }
    }

    private static void AddText(PlotModel model, double x, double y, string text, HorizontalAlignment horizontal, VerticalAlignment vertical)
    {
        if (text.Length == 0)
            return;
        model.Annotations.Add(new TextAnnotation
        {
            Text = text,
            TextPosition = new DataPoint(x, y),
            TextHorizontalAlignment = horizontal,
            TextVerticalAlignment = vertical,
            TextColor = Theme.Ink,
            FontSize = Theme.LabelSize,
            Stroke = OxyColors.Undefined,
            StrokeThickness = 0,
            Padding = new OxyThickness(4),
        });
    }

    private static string Title(SettingWindowResult result)
    {
        var open = result.Layouts.Where(layout => layout.Verdict.Window.IsOpen).Select(layout => layout.Name).ToArray();
        var closed = result.Layouts.Where(layout => !layout.Verdict.Window.IsOpen).Select(layout => layout.Name).ToArray();
        return (open.Length, closed.Length) switch
        {
            (0, _) => "No layout has a setting that serves heave and roll",
            (_, 0) => "Every layout has settings that serve heave and roll",
            _ => $"One setting can serve heave and roll with {FigureParts.Join(open)}, none with {FigureParts.Join(closed)}",
        };
    }
}
