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
        var styles = StudyStyles.Of(result.Study);
        var (time, energy) = Halves(result.Layouts[0]);
        HistogramPanel Of(string title, string quantity, Func<VelocityHistogram, IReadOnlyList<double>> amounts, double half, LabelPlacement labels) => new(
            title, "Damper velocity, compression positive", "m/s", quantity, "%",
            [.. result.Layouts.Select(layout => Series(layout, styles[layout.Name], amounts))])
        {
            ReferenceLines = [.. new[] { -half, half }.Select(velocity => new ReferenceLine(velocity, FigureParts.Text($"{PlotText.Number(velocity, 2)} m/s"), Vertical: true))],
            Labels = labels,
        };
        return new Figure(
            "ride-damper-velocity.png",
            Title(result),
            FigureParts.Text($"Time and energy by damper velocity on {Conclusions.RandomRoad(result.Study)}; valve where the energy is. Dashed: half to each side, with “{result.Layouts[0].Name}”."),
            FigureParts.Footer(result.Study),
            [
                new Panel(Of("Time", "Share", histogram => histogram.Seconds, time, LabelPlacement.AbovePanels).Build()),
                new Panel(Of("Energy", "Share", histogram => histogram.Energy, energy, LabelPlacement.None).Build(), 0, 1),
            ]);
    }

    private static HistogramSeries Series(LayoutResult layout, SeriesStyle style, Func<VelocityHistogram, IReadOnlyList<double>> amounts)
    {
        var histogram = layout.Ride!.DamperVelocities;
        var values = amounts(histogram);
        var total = values.Sum();
        return new HistogramSeries(
            layout.Name, style,
            [.. Enumerable.Range(0, values.Count + 1).Select(i => (histogram.FirstBin + i) * histogram.BinWidth)],
            [.. values.Select(value => total > 0 ? 100 * value / total : 0)]);
    }

    private static string Title(ComparisonResult result)
    {
        var (time, energy) = Halves(result.Layouts[0]);
        return FigureParts.Text($"With “{result.Layouts[0].Name}”, the dampers spend half of the time below {time:F2} m/s and half of the energy above {energy:F2} m/s");
    }

    /// <summary>The velocity below which half of the time passes, and that above which half of the energy is taken up.</summary>
    private static (double Time, double Energy) Halves(LayoutResult layout)
    {
        var histogram = layout.Ride!.DamperVelocities;
        return (Median(histogram, histogram.Seconds), Median(histogram, histogram.Energy));
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
