using System.Collections.Immutable;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>The setting window of each layout in each load state, and the one that serves all: a panel a layout.</summary>
public static class LoadWindowsFigure
{
    // Two panels have room below each other, more stand side by side.
    private const int MostBelow = 2;
    private const int PanelsInRow = 2;

    /// <summary>Builds the figure.</summary>
    /// <param name="states">The windows in each load state, at least two, all of the same layouts.</param>
    public static Figure Build(IReadOnlyList<SettingWindowResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        var common = CommonWindow.Of(states);
        var columns = common.Length > MostBelow ? PanelsInRow : 1;
        var panels = common.Select((window, i) => new Panel(
            SettingWindowBars.Model(
                common.Length > 1 ? window.Name : null,
                [.. states.Select(state => (state.Study.Load!.Name, state.Layouts[i].Verdict, i)), ("every load state", window.Verdict, i)]),
            i / columns,
            i % columns));
        return new Figure("setting-window-over-loads.png", Title(common),
            FigureParts.Text($"Which coefficient of its dampers meets all targets at {states[0].Targets.Velocity:0.###} m/s in each load state, and which in all of them? Marks: the present one."),
            FigureParts.Footer(states[0].Study with { Load = null }), [.. panels]);
    }

    private static string Title(ImmutableArray<CommonWindow> common)
    {
        string Listed(bool isOpen) => FigureParts.Join([.. common.Where(window => window.Verdict.Window.IsOpen == isOpen).Select(window => $"'{window.Name}'")]);
        return common.Count(window => window.Verdict.Window.IsOpen) switch
        {
            0 => "No layout has a setting that serves every load state",
            var open when open == common.Length => "Every layout has a setting that serves every load state",
            _ when common.Length <= 4 => $"One setting can serve every load state with {Listed(true)}, none with {Listed(false)}",
            var open => FigureParts.Text($"One setting can serve every load state with {open} of {common.Length} layouts"),
        };
    }
}
