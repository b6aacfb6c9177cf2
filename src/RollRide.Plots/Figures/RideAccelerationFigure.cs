using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>At which frequencies the body shakes on a random road, and what a seated person feels of it.</summary>
public static class RideAccelerationFigure
{
    private const double Lowest = 0.5;
    private const double Highest = 50;

    // Narrower bands hold too few values of a density with steps of a sixth of a hertz.
    private const double LowestBand = 0.8;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did; all with a ride whose density is known.</param>
    public static Figure Build(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var styles = StudyStyles.Of(result.Study);
        var (shaken, sensed) = Strongest(result.Layouts[0]);
        var density = new CurvePanel(
            "As it is: spectral density", "Frequency", "Hz", "Density", "(m/s²)²/Hz",
            [.. result.Layouts.Select(layout => Density(layout, styles[layout.Name]))])
        {
            LogarithmicX = true,
            ReferenceLines = [At(shaken)],
            Labels = LabelPlacement.AbovePanels,
        };
        var felt = new CurvePanel(
            "As it is felt: third-octave bands, weighted with Wk of ISO 2631-1", "Frequency", "Hz", "RMS in the band", "m/s²",
            [.. result.Layouts.Select(layout => Felt(layout, styles[layout.Name]).Marked)])
        {
            LogarithmicX = true,
            ReferenceLines = [At(sensed)],
            Labels = LabelPlacement.None,
        };
        var frequencies = PlotRange.Of(density.Curves.Concat(felt.Curves).SelectMany(curve => curve.X));
        static ReferenceLine At(FrequencyBand band) => new(band.Centre, FigureParts.Text($"{band.Centre:0.#} Hz"), Vertical: true);
        return new Figure(
            "ride-acceleration.png",
            Title(result),
            FigureParts.Text($"Vertical acceleration of the body on {Conclusions.RandomRoad(result.Study)}, as it is and as a seated person feels it."),
            FigureParts.Footer(result.Study),
            [new Panel((density with { XRange = frequencies }).Build()), new Panel((felt with { XRange = frequencies }).Build(), 0, 1)]);
    }

    private static PlotSeries Density(LayoutResult layout, SeriesStyle style)
    {
        var density = layout.Ride!.BodyAccelerationDensity!;
        var bins = Enumerable.Range(1, density.Density.Length - 1).Where(i => density.Frequency(i) is >= Lowest and <= Highest).ToArray();
        return new PlotSeries(layout.Name, style, [.. bins.Select(density.Frequency)], [.. bins.Select(i => density.Density[i])]);
    }

    private static PlotSeries Felt(LayoutResult layout, SeriesStyle style)
    {
        var bands = ThirdOctave.Within(LowestBand, Highest);
        return new PlotSeries(layout.Name, style, [.. bands.Select(band => band.Centre)], [.. bands.Select(band => Felt(layout, band))]);
    }

    private static double Felt(LayoutResult layout, FrequencyBand band) =>
        FrequencyWeighting.Wk.Factor(band.Centre) * Math.Sqrt(layout.Ride!.BodyAccelerationDensity!.BandMean(band) * band.Width);

    /// <summary>The bands in which a layout's body shakes most, and in which a seated person feels it most.</summary>
    private static (FrequencyBand Shaken, FrequencyBand Felt) Strongest(LayoutResult layout)
    {
        var bands = ThirdOctave.Within(LowestBand, Highest);
        return (bands.MaxBy(layout.Ride!.BodyAccelerationDensity!.BandMean)!, bands.MaxBy(band => Felt(layout, band))!);
    }

    private static string Title(ComparisonResult result)
    {
        var (shaken, felt) = Strongest(result.Layouts[0]);
        var whose = result.Layouts.All(layout => Strongest(layout) == (shaken, felt)) ? "" : $" with “{result.Layouts[0].Name}”";
        return shaken == felt
            ? FigureParts.Text($"Body acceleration is strongest, and felt most, in the third octave of {shaken.Centre:0.#} Hz{whose}")
            : FigureParts.Text($"Body acceleration is strongest in the third octave of {shaken.Centre:0.#} Hz, and felt most in that of {felt.Centre:0.#} Hz{whose}");
    }
}
