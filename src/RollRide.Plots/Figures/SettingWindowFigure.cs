using System.Collections.Immutable;
using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Admissible settings over the lateral position of a vertical damper, with every layout where it stands.</summary>
public static class SettingWindowFigure
{
    // Where the lower edge has run this far over the upper one, nothing is left to see.
    private const double Headroom = 1.8;

    // A mark in the tyres' plane stands clear of the frame.
    private const double Beyond = 1.03;

    // More layouts than this, or longer names, are named above the panel: at the marks they would cover each other.
    private const int MostNamed = 4;
    private const double WidestNamed = 150;

    private const int PanelsInRow = 2;

    // Names of edges keep this share of the width clear of the frame.
    private const double Inset = 0.01;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">The windows.</param>
    public static Figure Build(SettingWindowResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return new Figure(IsOfAllLoads(result) ? $"setting-window-by-position{LoadWindowsFigure.Together}" : "setting-window.png", Title(result), Question(result),
            FigureParts.Footer(result.Study), [.. Panels(result)]);
    }

    /// <summary>Whether the windows are those that several load states share.</summary>
    private static bool IsOfAllLoads(SettingWindowResult result) => result.Study is { Load: null, Loads.Length: > 1 };

    private static IEnumerable<Panel> Panels(SettingWindowResult result) => result.Upright.IsEmpty
        ? [new Panel(SettingWindowBars.Model(result))]
        : result.Upright.Select((upright, i) => new Panel(Model(result, upright, result.Upright.Max(one => Top(result, one))), i / PanelsInRow, i % PanelsInRow));

    private static string Question(SettingWindowResult result) => result.Upright.IsEmpty
        ? FigureParts.Text($"Green: damper coefficients that meet all targets{FigureParts.OnThisAxle(result.Study)} at {result.Targets.Velocity:0.###} m/s. Marks: the present one.{FigureParts.InLoad(result.Study)}")
        : FigureParts.Text($"Green: upright dampers{Mount(result)} that meet all targets{FigureParts.OnThisAxle(result.Study)} at {result.Targets.Velocity:0.###} m/s. Marks: each layout as the upright damper of equal effect.{Locking(result)}{FigureParts.InLoad(result.Study)}");

    /// <summary>What the edge means that no target gives; empty where none is drawn.</summary>
    private static string Locking(SettingWindowResult result) =>
        result.Upright.Any(upright => upright.ByPosition.Any(at => at.Window.Upper.Binding is null)) ? " Above “suspension locks” only the tyres spring." : "";

    /// <summary>The mount that all layouts share, in words; of several each panel says its own.</summary>
    private static string Mount(SettingWindowResult result) => result.Upright is [{ MountStiffness: { } stiffness }]
        ? FigureParts.Text($" in top mounts of {Unit.NewtonPerMillimetre.Show(stiffness):F0}")
        : "";

    /// <summary>How high a panel must reach: some way above the upper edge, and over every mark.</summary>
    private static double Top(SettingWindowResult result, UprightWindows upright) => Unit.KilonewtonSecondPerMetre.Of(Math.Max(
        Headroom * upright.ByPosition.Max(at => at.Window.Upper.Coefficient), 1.15 * upright.Layouts.Max(i => UprightSetting(result.Layouts[i]))));

    private static PlotModel Model(SettingWindowResult result, UprightWindows upright, double top)
    {
        var styles = StudyStyles.Of(result.Study);
        var positions = upright.ByPosition;
        var named = result.Layouts.Length <= MostNamed && result.Upright.Length == 1 && result.Layouts.All(layout => PlotFont.Width(layout.Name, Theme.LabelSize) <= WidestNamed);
        var marks = upright.Layouts.Select(i => Mark(result.Layouts[i], styles[result.Layouts[i].Name], named)).ToArray();
        var model = Theme.Panel(result.Upright.Length == 1 ? null : upright.MountStiffness is { } stiffness ? FigureParts.Text($"Top mounts of {Unit.NewtonPerMillimetre.Show(stiffness):F0}") : "Rigid top mounts");
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Bottom, "Lateral position of the damper from the centre", "mm", new PlotRange(0, Unit.Millimetre.Of(Beyond * result.Study.Vehicle.HalfTrack))));
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Left, "Equivalent coefficient of each damper", "kN·s/m", new PlotRange(0, top)));
        AddArea(model, upright);
        AddEdge(model, positions, at => at.Window.Lower, top, isUpper: false);
        AddEdge(model, positions, at => at.Window.Upper, top, isUpper: true);
        if (upright.ClosingPosition is { } closing)
            ReferenceLineLabels.AddTo(model, [new ReferenceLine(Unit.Millimetre.Of(closing), FigureParts.Text($"window closes at {Unit.Millimetre.Show(closing):F0}"), Vertical: true)]);
        model.Annotations.Add(new PeakLabels(marks, areMarkers: true));
        model.Annotations.Add(new DirectLabels(
            [.. upright.Layouts.Select(i => new CurveEnd(result.Layouts[i].Name, styles[result.Layouts[i].Name], 0, 0))],
            named ? LabelPlacement.None : LabelPlacement.AbovePanels, []));
        return model;
    }

    private static PeakMark Mark(LayoutWindow layout, SeriesStyle style, bool named)
    {
        var fitting = layout.Car.Layout.Fitting;

        // On a live axle a layout has a place of its own, whether or not it can be moved there.
        var position = layout.Position ?? layout.Car.Vehicle.HalfTrack * fitting.RollRatio / fitting.HeaveRatio;
        return new PeakMark(Unit.Millimetre.Of(position), Unit.KilonewtonSecondPerMetre.Of(UprightSetting(layout)), named ? $"“{layout.Name}”: {Standing(layout.Verdict.Standing)}" : Standing(layout.Verdict.Standing), style);
    }

    /// <summary>The coefficient of an upright damper of the same effect in heave, N·s/m.</summary>
    private static double UprightSetting(LayoutWindow layout) => layout.Verdict.Coefficient * layout.Car.Layout.Fitting.HeaveRatio * layout.Car.Layout.Fitting.HeaveRatio;

    /// <summary>How a setting stands to its window, in few words.</summary>
    internal static string Standing(WindowStanding standing) => standing switch
    {
        WindowStanding.Inside => "inside",
        WindowStanding.TooSoft => "too soft",
        WindowStanding.TooHard => "too hard",
        _ => "no setting serves",
    };

    private static void AddArea(PlotModel model, UprightWindows upright)
    {
        var open = upright.ByPosition.Where(at => at.Window.IsOpen).ToArray();
        if (open.Length == 0)
            return;
        var area = new AreaSeries { Color = OxyColors.Undefined, Color2 = OxyColors.Undefined, Fill = Theme.Target };
        if (upright.ClosingPosition is { } closing)
        {
            area.Points.Add(new DataPoint(Unit.Millimetre.Of(closing), Unit.KilonewtonSecondPerMetre.Of(open[0].Window.Upper.Coefficient)));
            area.Points2.Add(new DataPoint(Unit.Millimetre.Of(closing), Unit.KilonewtonSecondPerMetre.Of(open[0].Window.Upper.Coefficient)));
        }

        foreach (var at in open)
        {
            area.Points.Add(new DataPoint(Unit.Millimetre.Of(at.Position), Unit.KilonewtonSecondPerMetre.Of(at.Window.Upper.Coefficient)));
            area.Points2.Add(new DataPoint(Unit.Millimetre.Of(at.Position), Unit.KilonewtonSecondPerMetre.Of(at.Window.Lower.Coefficient)));
        }

        model.Series.Add(area);
        AddText(model, Unit.Millimetre.Of(open[^1].Position * (1 - Inset)), Unit.KilonewtonSecondPerMetre.Of(open[^1].Window.Upper.Coefficient), "meets all targets", HorizontalAlignment.Right, VerticalAlignment.Top);
    }

    /// <summary>One edge of the window, up to the top of the panel, piece by piece as one target or another binds, each named.</summary>
    private static void AddEdge(PlotModel model, ImmutableArray<PositionWindow> positions, Func<PositionWindow, WindowEdge> edge, double top, bool isUpper)
    {
        var drawn = positions.SkipWhile(at => Unit.KilonewtonSecondPerMetre.Of(edge(at).Coefficient) > top).TakeWhile(at => Unit.KilonewtonSecondPerMetre.Of(edge(at).Coefficient) <= top).ToArray();
        if (drawn.Length == 0)
            return;
        var points = drawn.Select(at => new DataPoint(Unit.Millimetre.Of(at.Position), Unit.KilonewtonSecondPerMetre.Of(edge(at).Coefficient))).ToList();
        var rises = drawn[0] != positions[0];
        if (rises)
            points.Insert(0, AtTop(positions[positions.IndexOf(drawn[0]) - 1], drawn[0], edge, top));
        var line = new LineSeries { Color = Theme.Ink, StrokeThickness = 1.6 };
        line.Points.AddRange(points);
        model.Series.Add(line);

        var inset = Unit.Millimetre.Of(Inset * positions[^1].Position);
        var pieces = drawn.GroupBy(at => edge(at).Binding).ToArray();
        for (var i = 0; i < pieces.Length; i++)
        {
            var name = pieces[i].Key is { } target ? DampingTargetNames.Words(target) : isUpper ? "suspension locks" : "";
            var away = isUpper ? VerticalAlignment.Bottom : VerticalAlignment.Top;
            if (i > 0 || pieces.Length == 1 && !isUpper && !rises)
                AddText(model, (Unit.Millimetre.Of(pieces[i].Last().Position)) - inset, Unit.KilonewtonSecondPerMetre.Of(edge(pieces[i].Last()).Coefficient), name, HorizontalAlignment.Right, away);
            else if (rises && points[0].X > Unit.Millimetre.Of(positions[^1].Position) / 4)
                AddText(model, points[0].X - inset, top, name, HorizontalAlignment.Right, VerticalAlignment.Top);
            else if (rises)
                AddText(model, points[0].X + (4 * inset), top, name, HorizontalAlignment.Left, VerticalAlignment.Top);
            else
                AddText(model, points[0].X + inset, points[0].Y, name, HorizontalAlignment.Left, away);
        }
    }

    /// <summary>
    /// Where an edge that rises toward the centre leaves the panel: between two positions it goes with a power of the distance, and
    /// with the inverse square (roll damping scales with the square of the arm) where the inner one has no value.
    /// </summary>
    private static DataPoint AtTop(PositionWindow inner, PositionWindow outer, Func<PositionWindow, WindowEdge> edge, double top)
    {
        var (high, low) = (Unit.KilonewtonSecondPerMetre.Of(edge(inner).Coefficient), Unit.KilonewtonSecondPerMetre.Of(edge(outer).Coefficient));
        var power = double.IsFinite(high) && inner.Position > 0 ? Math.Log(high / low) / Math.Log(outer.Position / inner.Position) : 2;
        return new DataPoint(Unit.Millimetre.Of(Math.Max(inner.Position, outer.Position * Math.Pow(low / top, 1 / power))), top);
    }

    /// <summary>Writes a text beside a point.</summary>
    internal static void AddText(PlotModel model, double x, double y, string text, HorizontalAlignment horizontal, VerticalAlignment vertical)
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
        var candidates = Candidates.Of(result.Layouts, layout => layout.Car.Layout);
        return FigureParts.WindowTitle([.. candidates.Select(layout => (layout.Name, layout.Verdict.Window.IsOpen))], result.Layouts.Length, $"heave and roll{FigureParts.OnThisAxle(result.Study)}{(IsOfAllLoads(result) ? " in every load state" : "")}");
    }
}
