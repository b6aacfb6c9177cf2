using RollRide.Metrics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>At which frequencies the body shakes on a random road, and what a seated person feels of it.</summary>
public static class RideAccelerationFigure
{
    private const double Lowest = 0.4;
    private const double Highest = 50;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did; all with a ride whose density is known.</param>
    public static Figure Build(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        CurvePanel Of(string title, Func<double, double> factor, LabelPlacement labels) => new(
            title, "Frequency", "Hz", "Density of the body's acceleration", "(m/s²)²/Hz",
            [.. result.Layouts.Select((layout, i) => Curve(layout, i, factor))])
        {
            LogarithmicX = true,
            Labels = labels,
        };
        return new Figure(
            "ride-acceleration.png",
            Title(result),
            "At which frequencies does the body shake on the random road, and what does a seated person feel of it?",
            FigureParts.Footer(result.Study),
            [
                new Panel(Of("As it is", _ => 1, LabelPlacement.AbovePanels).Build(), 0),
                new Panel(Of("As it is felt: weighted with Wk of ISO 2631-1", FrequencyWeighting.Wk.Factor, LabelPlacement.None).Build(), 1),
            ]);
    }

    private static PlotSeries Curve(LayoutResult layout, int index, Func<double, double> factor)
    {
        var density = layout.Ride!.BodyAccelerationDensity!;
        var bins = Enumerable.Range(1, density.Density.Length - 1).Where(i => density.Frequency(i) is >= Lowest and <= Highest).ToArray();
        return new PlotSeries(
            layout.Name, index,
            [.. bins.Select(density.Frequency)],
            [.. bins.Select(i => density.Density[i] * Math.Pow(factor(density.Frequency(i)), 2))]);
    }

    private static string Title(ComparisonResult result)
    {
        static double Felt(LayoutResult layout) => layout.Ride!.WorstSeat.Total;
        var (low, high) = (result.Layouts.MinBy(Felt)!, result.Layouts.MaxBy(Felt)!);
        return Felt(high) - Felt(low) <= 0.02 * Felt(high)
            ? FigureParts.Text($"The worst seat feels {Felt(high):F2} m/s²{(result.Layouts.Length > 1 ? ", alike for all" : "")}")
            : FigureParts.Text($"The worst seat feels {Felt(low):F2} m/s² with {low.Name}, {Felt(high):F2} with {high.Name}");
    }
}
