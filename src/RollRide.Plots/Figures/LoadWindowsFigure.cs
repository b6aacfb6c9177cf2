using System.Collections.Immutable;
using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>The setting window of each layout in each load state, and the one that serves all: a panel a layout.</summary>
public static class LoadWindowsFigure
{
    private const double HalfWidth = 0.2;
    private const double Headroom = 1.3; // for names above the highest edge

    // Two panels have room below each other, more stand side by side.
    private const int MostBelow = 2;
    private const int PanelsInRow = 2;

    // Width of all panels of a row on a slide, in plot units: names of edges wider than a bar's share of it are broken.
    private const double RowWidth = 1000;
    private const int MostListed = 4;

    /// <summary>Builds the figure.</summary>
    /// <param name="states">The windows in each load state, at least two, all of the same layouts.</param>
    public static Figure Build(IReadOnlyList<SettingWindowResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        var common = CommonWindow.Of(states);
        var columns = common.Length > MostBelow ? PanelsInRow : 1;
        return new Figure("setting-window-over-loads.png", Title(common),
            FigureParts.Text($"Which coefficient of its dampers meets all targets at {states[0].Targets.Velocity:0.###} m/s in each load state, and which in all of them? Dotted: the edges for all."),
            FigureParts.Footer(states[0].Study with { Load = null }),
            [.. common.Select((window, i) => new Panel(Model(common.Length > 1 ? window.Name : null, states, i, window.Verdict, columns), i / columns, i % columns))]);
    }

    private static PlotModel Model(string? title, IReadOnlyList<SettingWindowResult> states, int layout, WindowVerdict common, int columns)
    {
        (string Name, SettingWindow Window)[] bars =
        [
            .. states.Select(state => (state.Study.Load!.Name, state.Layouts[layout].Verdict.Window)),
            ("every load state", common.Window),
        ];
        var edges = bars.SelectMany(bar => SettingWindowBars.Edges(bar.Window)).Select(edge => edge.Edge.Coefficient);
        var now = common.Coefficient;
        var model = Theme.Panel(title);
        model.Axes.Add(PlotAxis.Names(AxisPosition.Bottom, [.. bars.Select(bar => bar.Name)]));
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Left, "Damper coefficient", "kN·s/m", new PlotRange(0, Headroom * Unit.KilonewtonSecondPerMetre.Of(Math.Max(edges.Max(), now)))));
        for (var i = 0; i < bars.Length; i++)
        {
            SettingWindowBars.AddBar(model, bars[i].Window, i, HalfWidth);
            foreach (var (edge, isAbove) in SettingWindowBars.Edges(bars[i].Window))
            {
                var name = FigureParts.Text($"{SettingWindowBars.Name(bars[i].Window, edge)} {Unit.KilonewtonSecondPerMetre.Of(edge.Coefficient):F2}");
                SettingWindowFigure.AddText(model, i, Unit.KilonewtonSecondPerMetre.Of(edge.Coefficient), PlotFont.Width(name, Theme.LabelSize) > RowWidth / columns / bars.Length ? name.Replace(' ', '\n') : name,
                    HorizontalAlignment.Center, isAbove ? VerticalAlignment.Bottom : VerticalAlignment.Top);
            }
        }

        foreach (var (edge, _) in SettingWindowBars.Edges(common.Window))
        {
            model.Annotations.Add(new LineAnnotation
            {
                Type = LineAnnotationType.Horizontal,
                Y = Unit.KilonewtonSecondPerMetre.Of(edge.Coefficient),
                Color = Theme.SoftInk,
                LineStyle = LineStyle.Dot,
                StrokeThickness = 1,
                Layer = AnnotationLayer.BelowSeries,
            });
        }

        ReferenceLine[] present = [new(Unit.KilonewtonSecondPerMetre.Of(now), FigureParts.Text($"now {Unit.KilonewtonSecondPerMetre.Of(now):F2}"))];
        ReferenceLineLabels.AddTo(model, present);
        model.Annotations.Add(new DirectLabels([], LabelPlacement.None, present));
        return model;
    }

    private static string Title(ImmutableArray<CommonWindow> common)
    {
        string Listed(bool isOpen) => FigureParts.Join([.. common.Where(window => window.Verdict.Window.IsOpen == isOpen).Select(window => $"'{window.Name}'")]);
        return common.Count(window => window.Verdict.Window.IsOpen) switch
        {
            0 => "No layout has a setting that serves every load state",
            var open when open == common.Length => "Every layout has a setting that serves every load state",
            _ when common.Length <= MostListed => $"One setting can serve every load state with {Listed(true)}, none with {Listed(false)}",
            var open => FigureParts.Text($"One setting can serve every load state with {open} of {common.Length} layouts"),
        };
    }
}
