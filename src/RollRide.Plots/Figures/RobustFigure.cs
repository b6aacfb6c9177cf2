using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Sweeps;

namespace RollRide.Plots.Figures;

/// <summary>The window of either target in each state of load and damper, with the valving and its tolerance drawn across: one column per layout.</summary>
public static class RobustFigure
{
    /// <summary>Name of the figure's file: it is of all load states.</summary>
    public const string FileName = "tuned-tolerance.png";

    private const double HalfWidth = 0.3;
    private const double Beyond = 1.25;

    // As in the other figures of a tuning: it is no layout's.
    private static readonly SeriesStyle Tuned = OtherStyles.First;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">The valvings.</param>
    public static Figure Build(RobustResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var study = result.Tuning.Study;
        Panel[] panels =
        [
            .. result.Layouts.SelectMany((layout, column) => new[] { layout.Robust.Heave, layout.Robust.Roll }.Select((window, row) =>
                new Panel(Model(layout, window, Most(result, row)), row, column))),
        ];
        return new Figure(FileName, Title(result),
            $"Green: coefficients of the damper as drawn that meet the target{(result.Layouts[0].Robust.Heave.InStates.Length > 1 ? ", in each state of load and damper" : "")}. Line: the valving. Dashed: the tolerance of its force.", FigureParts.Footer(study), panels);
    }

    private static double Most(RobustResult result, int row) => Beyond * Unit.KilonewtonSecondPerMetre.Of(result.Layouts
        .Select(layout => row == 0 ? layout.Robust.Heave : layout.Robust.Roll)
        .Max(window => Math.Max(window.Coefficient, window.InStates.Max(state => double.IsFinite(state.Lowest) ? Math.Max(state.Lowest, Math.Min(state.Highest, 2 * window.Coefficient)) : 0))));

    private static PlotModel Model(RobustLayout layout, TargetWindow window, double most)
    {
        var (now, tolerance) = (Unit.KilonewtonSecondPerMetre.Of(window.Coefficient), layout.Robust.Tolerance);
        var model = Theme.Panel(FigureParts.Text($"{layout.Name}, {window.Mode.ToString().ToLowerInvariant()}: {now:F2}{(tolerance > 0 ? FormattableString.Invariant($" ± {100 * tolerance:F0}\u00a0%") : "")}"));
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Bottom, "Coefficient", "kN·s/m", new PlotRange(0, most)));
        model.Axes.Add(PlotAxis.Names(AxisPosition.Left, [.. window.InStates.Select(state => state.State ?? "as written")]));
        for (var i = 0; i < window.InStates.Length; i++)
        {
            var state = window.InStates[i];
            if (state.Lowest > state.Highest)
                continue;
            model.Annotations.Add(new RectangleAnnotation
            {
                MinimumX = Unit.KilonewtonSecondPerMetre.Of(state.Lowest),
                MaximumX = Math.Min(most, Unit.KilonewtonSecondPerMetre.Of(state.Highest)),
                MinimumY = i - HalfWidth,
                MaximumY = i + HalfWidth,
                Fill = Theme.Target,
                Stroke = Theme.Ink,
                StrokeThickness = 1,
                Layer = AnnotationLayer.BelowSeries,
            });
        }

        AddLine(model, now, Tuned, LineStyle.Solid);
        if (tolerance > 0)
        {
            AddLine(model, now * (1 - tolerance), OtherStyles.Reference, LineStyle.Dash);
            AddLine(model, now * (1 + tolerance), OtherStyles.Reference, LineStyle.Dash);
        }

        return model;
    }

    private static void AddLine(PlotModel model, double at, SeriesStyle style, LineStyle dash) =>
        model.Annotations.Add(new LineAnnotation { Type = LineAnnotationType.Vertical, X = at, Color = style.Color, StrokeThickness = style.Thickness, LineStyle = dash });

    private static string Title(RobustResult result) => string.Join("; ", result.Layouts.Take(2).Select(layout => layout.Robust.Tolerance > 0
        ? FigureParts.Text($"“{layout.Name}” keeps both targets within ±{100 * layout.Robust.Tolerance:F0}\u00a0% of force")
        : $"“{layout.Name}” leaves the dampers no tolerance"));
}
