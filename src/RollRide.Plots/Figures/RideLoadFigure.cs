using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>How the load of a side's tyres spreads on a random road.</summary>
public static class RideLoadFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did; all with a ride.</param>
    public static Figure Build(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var styles = StudyStyles.Of(result.Study);

        // The side that comes nearer to lifting, with any layout.
        var side = result.Layouts.SelectMany(layout => Enumerable.Range(0, layout.Ride!.Loads.Length).Select(side => (Side: side, Kept: Kept(layout, side)))).MinBy(at => at.Kept).Side;
        var panel = new HistogramPanel(
            "Dashed: exceeded 99 % of the time, in % of the load at rest", $"Load of the {Name(side)} tyres", "kN", "Share of time", "%",
            [.. result.Layouts.Select(layout =>
            {
                var distribution = layout.Ride!.Loads[side].Distribution;
                return new HistogramSeries(
                    layout.Name, styles[layout.Name],
                    [.. Enumerable.Range(0, distribution.Shares.Length + 1).Select(bin => Unit.Kilonewton.Of((distribution.FirstBin + bin) * distribution.BinWidth))],
                    [.. distribution.Shares.Select(share => 100 * share)]);
            })])
        {
            ReferenceLines =
            [
                new ReferenceLine(Unit.Kilonewton.Of(result.Layouts[0].Ride!.Loads[side].Static), "at rest", Vertical: true),
                .. result.Layouts.Select(layout => new ReferenceLine(Unit.Kilonewton.Of(layout.Ride!.Loads[side].ExceededMostOfTheTime), FigureParts.Text($"{Kept(layout, side):F0} % {layout.Name}"), Vertical: true)),
            ],
        };
        return new Figure(
            "ride-tyre-load.png", Title(result, side), FigureParts.Text($"Tyre load on {Conclusions.RandomRoad(result.Study)}. Narrow is good: grip is lost at the lowest loads."),
            FigureParts.Footer(result.Study), [new Panel(panel.Build())]);
    }

    private static string Title(ComparisonResult result, int side)
    {
        var parts = result.Layouts.Select((layout, i) => FigureParts.Text($"{Kept(layout, side):F0} %{(i == 0 ? " of its static load" : "")} with “{layout.Name}”"));
        return $"99 % of the time the {Name(side)} side carries more than {FigureParts.Join([.. parts])}";
    }

    private static string Name(int side) => side == 0 ? "left" : "right";

    /// <summary>The load exceeded 99 % of the time, % of the static one.</summary>
    private static double Kept(LayoutResult layout, int side) => 100 * layout.Ride!.Loads[side].ExceededMostOfTheTime / layout.Ride.Loads[side].Static;
}
