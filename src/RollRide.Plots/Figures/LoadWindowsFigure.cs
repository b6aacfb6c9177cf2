using System.Collections.Immutable;
using OxyPlot;
using OxyPlot.Axes;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>The setting window of each layout in each load state, and the one that serves all: one panel per layout.</summary>
public static class LoadWindowsFigure
{
    private const double HalfWidth = 0.1;
    private const double Gap = 0.02;

    // Share of a bar's place that is free for names beside it.
    private const double RoomForNames = 0.75;
    private const double Headroom = 1.45; // for names above the highest edge

    // Below each other, panels would be too flat to read the settings from.
    private const int PanelsInRow = 2;

    // Share of the axis that names of three lines take below the lowest edge; they may reach below zero.
    private const double BelowLowest = 0.28;

    // Width of all panels of a row on a slide, in plot units: names of edges wider than a bar's share of it are broken.
    private const double RowWidth = 850;

    /// <summary>The end of the file name of each figure that is of all load states together.</summary>
    public const string Together = "-over-loads.png";

    /// <summary>Builds the figure.</summary>
    /// <param name="states">The windows in each load state, at least two, all of the same layouts.</param>
    public static Figure Build(IReadOnlyList<SettingWindowResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        var common = CommonWindow.Of(states);
        var styles = StudyStyles.Of(states[0].Study);
        var columns = Math.Min(common.Length, PanelsInRow);
        double[] shown = [.. common.SelectMany((window, i) => Bars(states, i, window.Verdict).SelectMany(bar => SettingWindowBars.Edges(bar.Window)).Select(edge => edge.Edge.Coefficient).Append(window.Verdict.Coefficient)).Select(Unit.KilonewtonSecondPerMetre.Of)];
        var top = Headroom * shown.Max();
        var range = new PlotRange(Math.Min(0, shown.Min() - (BelowLowest * top)), top);
        return new Figure($"setting-window{Together}", Title(states[0], common),
            FigureParts.Text($"Green: damper coefficients that meet all targets{FigureParts.OnThisAxle(states[0].Study)} at {states[0].Targets.Velocity:0.###} m/s. Marks: the present one."),
            FigureParts.Footer(states[0].Study with { Load = null }),
            [.. common.Select((window, i) => new Panel(Model(window.Name, styles[window.Name], states, i, window.Verdict, columns, range), i / columns, i % columns))])
        {
            NeedsWidth = columns > 1,
            NeedsHeight = common.Length > PanelsInRow,
        };
    }

    private static (string Name, SettingWindow Window)[] Bars(IReadOnlyList<SettingWindowResult> states, int layout, WindowVerdict common) =>
    [
        .. states.Select(state => (state.Study.Load!.Name, state.Layouts[layout].Verdict.Window)),
        ("every load state", common.Window),
    ];

    private static PlotModel Model(string name, SeriesStyle style, IReadOnlyList<SettingWindowResult> states, int layout, WindowVerdict common, int columns, PlotRange range)
    {
        var bars = Bars(states, layout, common);
        var now = Unit.KilonewtonSecondPerMetre.Of(common.Coefficient);
        var model = Theme.Panel($"{name}, now {PlotText.Number(now, 2)} kN·s/m");
        var names = PlotAxis.Names(AxisPosition.Bottom, [.. bars.Select(bar => bar.Name)]);
        names.Maximum = bars.Length - 1 + HalfWidth + Gap + RoomForNames; // the last bar's names stand right of it too
        model.Axes.Add(names);
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Left, "Damper coefficient", "kN·s/m", range));

        for (var i = 0; i < bars.Length; i++)
        {
            SettingWindowBars.AddBar(model, bars[i].Window, i, HalfWidth);
            foreach (var (edge, isAbove) in SettingWindowBars.Edges(bars[i].Window))
            {
                var text = FigureParts.Text($"{SettingWindowBars.Name(bars[i].Window, edge)} {Unit.KilonewtonSecondPerMetre.Of(edge.Coefficient):F2}");
                SettingWindowFigure.AddText(model, i + HalfWidth + Gap, Unit.KilonewtonSecondPerMetre.Of(edge.Coefficient), PlotFont.Width(text, Theme.LabelSize) > RoomForNames * RowWidth / columns / bars.Length ? text.Replace(' ', '\n') : text,
                    HorizontalAlignment.Left, isAbove ? VerticalAlignment.Bottom : VerticalAlignment.Top);
            }

            SettingWindowBars.AddMark(model, i, now, style);
        }

        return model;
    }

    private static string Title(SettingWindowResult result, ImmutableArray<CommonWindow> common)
    {
        var candidates = Candidates.Of(common, window => result.Layouts[common.IndexOf(window)].Car.Layout);
        return FigureParts.WindowTitle([.. candidates.Select(window => (window.Name, window.Verdict.Window.IsOpen))], common.Length, $"every load state{FigureParts.OnThisAxle(result.Study)}");
    }
}
