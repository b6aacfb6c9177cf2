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
        var panel = new HistogramPanel(
            null, "Load of the left tyres", "kN", "Share of time", "%",
            [.. result.Layouts.Select((layout, i) =>
            {
                var distribution = layout.Ride!.Loads[0].Distribution;
                return new HistogramSeries(
                    layout.Name, i,
                    [.. Enumerable.Range(0, distribution.Shares.Length + 1).Select(bin => Unit.Kilonewton.Of((distribution.FirstBin + bin) * distribution.BinWidth))],
                    [.. distribution.Shares.Select(share => 100 * share)]);
            })])
        {
            ReferenceLines = [new ReferenceLine(Unit.Kilonewton.Of(result.Layouts[0].Ride!.Loads[0].Static), "at rest", Vertical: true)],
        };
        return new Figure(
            "ride-tyre-load.png", Title(result), FigureParts.Text($"How evenly are the tyres loaded on {Conclusions.RandomRoad(result.Study)}? Narrow is good: grip goes with the lowest loads."),
            FigureParts.Footer(result.Study), [new Panel(panel.Build())]);
    }

    private static string Title(ComparisonResult result)
    {
        var parts = result.Layouts.Select(layout => FigureParts.Text($"{layout.Ride!.Loads.Min(load => load.ExceededMostOfTheTime / load.Static) * 100:F0} % ({layout.Name})"));
        return $"99 % of the time a side carries more than this part of its static load: {FigureParts.Join([.. parts])}";
    }
}
