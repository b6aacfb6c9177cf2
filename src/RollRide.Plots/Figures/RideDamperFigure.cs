using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>At which velocities the dampers run on a random road, and at which they take up their energy.</summary>
public static class RideDamperFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did; all with a ride.</param>
    public static Figure Build(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        HistogramPanel Of(string title, string quantity, Func<VelocityHistogram, IReadOnlyList<double>> amounts, LabelPlacement labels) => new(
            title, "Damper velocity, compression positive", "m/s", quantity, "%",
            [.. result.Layouts.Select((layout, i) => Series(layout, i, amounts))])
        {
            Labels = labels,
        };
        return new Figure(
            "ride-damper-velocity.png",
            Title(result),
            FigureParts.Text($"At which velocities do the dampers run on {Conclusions.RandomRoad(result.Study)}, and where do they work? Valve there."),
            FigureParts.Footer(result.Study),
            [
                new Panel(Of("Time", "Share of time", histogram => histogram.Seconds, LabelPlacement.AbovePanels).Build(), 0),
                new Panel(Of("Energy", "Share of energy", histogram => histogram.Energy, LabelPlacement.None).Build(), 1),
            ]);
    }

    private static HistogramSeries Series(LayoutResult layout, int index, Func<VelocityHistogram, IReadOnlyList<double>> amounts)
    {
        var histogram = layout.Ride!.DamperVelocities;
        var values = amounts(histogram);
        var total = values.Sum();
        return new HistogramSeries(
            layout.Name, index,
            [.. Enumerable.Range(0, values.Count + 1).Select(i => (histogram.FirstBin + i) * histogram.BinWidth)],
            [.. values.Select(value => total > 0 ? 100 * value / total : 0)]);
    }

    private static string Title(ComparisonResult result)
    {
        // The half of the time at the lowest speeds, and the half of the energy above the median speed of energy.
        var histogram = result.Layouts[0].Ride!.DamperVelocities;
        var (time, energy) = (Median(histogram, histogram.Seconds), Median(histogram, histogram.Energy));
        return FigureParts.Text($"{result.Layouts[0].Name}: half of the time below {time:F2} m/s, half of the energy above {energy:F2} m/s");
    }

    private static double Median(VelocityHistogram histogram, IReadOnlyList<double> amounts)
    {
        double gathered = 0;
        var half = 0.5 * amounts.Sum();
        foreach (var i in Enumerable.Range(0, amounts.Count).OrderBy(i => Math.Abs(histogram.Velocity(i))))
        {
            gathered += amounts[i];
            if (gathered >= half)
                return Math.Abs(histogram.Velocity(i)) + (0.5 * histogram.BinWidth);
        }

        return 0;
    }
}
