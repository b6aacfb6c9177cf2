using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Plots.Figures;

/// <summary>The figures of a road by itself: its profile, its spectrum and the likeness of its tracks.</summary>
public static class RoadFigures
{
    private const int Left = 0;
    private const int Right = 1;
    private const int Reference = 2;
    private const double Shown = 200;

    /// <summary>The elevation of both tracks over the first stretch.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="analysis">What it is.</param>
    /// <param name="footer">Where it comes from.</param>
    public static Figure Profile(RoadProfile profile, RoadAnalysis analysis, string footer)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(analysis);
        var count = Math.Min(profile.Count, (int)(Shown / profile.Step) + 1);
        var distances = Enumerable.Range(0, count).Select(profile.Distance).ToArray();
        PlotSeries Track(string name, int style, IEnumerable<double> track) => new(name, style, distances, [.. track.Take(count).Select(z => Unit.Millimetre.Of(z))]);
        var panel = new CurvePanel(
            null, "Distance", "m", "Elevation", "mm",
            [Track("left", Left, profile.Left), Track("right", Right, profile.Right)])
        {
            Labels = LabelPlacement.AbovePanels,
        };
        return new Figure(
            "road-profile.png",
            FigureParts.Text($"{(analysis.Spectrum is { } spectrum ? $"Class {spectrum.Class}, roughness index" : "Roughness index")} {analysis.MeanIndex:F1} m/km"),
            count < profile.Count ? FigureParts.Text($"What do the wheels ride over? The first {Shown:F0} m of {profile.Length:F0}.") : "What do the wheels ride over?",
            footer, [new Panel(panel.Build())]);
    }

    /// <summary>The displacement density of both tracks against the limits of the classes.</summary>
    /// <param name="spectrum">The spectrum.</param>
    /// <param name="footer">Where it comes from.</param>
    public static Figure Spectrum(MeasuredSpectrum spectrum, string footer)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        double[] n = [.. spectrum.Bands.Select(band => band.Centre)];

        // Times (n/n0)² the classes of the standard lie level, and what departs from them stands out.
        double[] Level(IEnumerable<double> density) => [.. density.Zip(n, (g, x) => 1e6 * g * Math.Pow(x / RoadClasses.ReferenceWavenumber, 2))];
        double[][] curves = [Level(spectrum.Left), Level(spectrum.Right), Level(n.Select(spectrum.Line))];
        var (low, high) = (curves.Min(c => c.Min()) / 2, curves.Max(c => c.Max()) * 2);
        var limits = Enum.GetValues<RoadClass>().SkipLast(1)
            .Select(c => new ReferenceLine(1e6 * RoadClasses.UpperLimit(c), $"{c}/{c + 1}"))
            .Where(line => line.Value > low && line.Value < high).ToArray();
        var panel = new CurvePanel(
            null, "Spatial frequency n", "cycle/m", "Displacement density × (n/n0)²", "1e-6 m³",
            [new PlotSeries("left", Left, n, curves[0]), new PlotSeries("right", Right, n, curves[1]), new PlotSeries("straight line", Reference, n, curves[2])])
        {
            LogarithmicX = true,
            LogarithmicY = true,
            ReferenceLines = limits,
            Labels = LabelPlacement.AbovePanels,
        };
        return new Figure(
            "road-spectrum.png",
            FigureParts.Text($"Gd(n0) = {1e6 * spectrum.ClassDensity:G3}e-6 m³ at n0 = 0.1 cycle/m on a slope of 2, waviness {spectrum.Waviness:F2}: class {spectrum.Class}"),
            "How rough is the road at each wavelength, against the class limits of ISO 8608? Rising to the right: more short waves than the standard's slope.",
            footer, [new Panel(panel.Build())]);
    }

    /// <summary>The likeness of the tracks against that of a surface that is alike in every direction.</summary>
    /// <param name="spectrum">The spectrum.</param>
    /// <param name="isotropic">The coherence of such a surface, for this track and waviness.</param>
    /// <param name="footer">Where it comes from.</param>
    public static Figure Coherence(MeasuredSpectrum spectrum, TrackCoherence isotropic, string footer)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        ArgumentNullException.ThrowIfNull(isotropic);
        double[] n = [.. spectrum.Bands.Select(band => band.Centre)];
        var difference = n.Select((x, i) => spectrum.Coherence[i] - isotropic.Gamma(x)).Where((_, i) => n[i] is > 0.03 and < 0.5).DefaultIfEmpty(0).Average();
        var finding = difference switch
        {
            > 0.1 => "The tracks are more alike than on a surface that is alike in every direction: less roll",
            < -0.1 => "The tracks are less alike than on a surface that is alike in every direction: more roll",
            _ => "The tracks are as alike as on a surface that is alike in every direction",
        };
        var panel = new CurvePanel(
            null, "Spatial frequency n", "cycle/m", "Coherence γ of left and right", "",
            [new PlotSeries("this road", Left, n, spectrum.Coherence), new PlotSeries("isotropic surface", Reference, n, [.. n.Select(isotropic.Gamma)])])
        {
            LogarithmicX = true,
            Labels = LabelPlacement.AbovePanels,
        };
        return new Figure("road-coherence.png", finding, "Do both wheels meet the same road? 1: heave only; 0: as much roll as heave.", footer, [new Panel(panel.Build())]);
    }
}
