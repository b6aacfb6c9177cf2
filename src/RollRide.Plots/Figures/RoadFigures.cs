using System.Collections.Immutable;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Plots.Figures;

/// <summary>The figures of a road by itself: its profile, its spectrum and the likeness of its tracks.</summary>
public static class RoadFigures
{
    private const double Shown = 200;

    /// <summary>The elevation of both tracks over the first stretch.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="analysis">What it is.</param>
    /// <param name="footer">Where it comes from.</param>
    /// <param name="road">The scenario's road, if it has one: its obstacles are shaded, the first of them shown, and added to the profile of a random road, which is without them.</param>
    public static Figure Profile(RoadProfile profile, RoadAnalysis analysis, string footer, Road? road = null)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(analysis);
        PlotSpan[] obstacles = road is null ? [] : [.. road.EventStretches.Where(stretch => stretch.From < profile.Length).Select(stretch => new PlotSpan(stretch.From, stretch.To, ""))];
        var (start, end) = FigureParts.About(obstacles is [var obstacle, ..] ? obstacle.From : 0, 0, profile.Length, Shown);
        int[] samples = [.. Enumerable.Range(0, profile.Count).Where(i => profile.Distance(i) >= start && profile.Distance(i) <= end)];
        double[] distances = [.. samples.Select(profile.Distance)];
        PlotSeries Track(string name, SeriesStyle style, ImmutableArray<double> track, PiecewiseSignal? events) =>
            new(name, style, distances, [.. samples.Select(i => Unit.Millimetre.Of(track[i] + (road?.Unevenness is null ? 0 : events?.Value(profile.Distance(i)) ?? 0)))]);
        var finding = FigureParts.Text($"{(analysis.Spectrum is { } spectrum ? $"Class {spectrum.Class}, roughness index" : "Roughness index")} {analysis.MeanIndex:F1} m/km");
        var panel = new CurvePanel(
            FigureParts.Text($"Roughness index (mean of the tracks) {analysis.MeanIndex:F1} m/km"), "Distance", "m", "Elevation", "mm",
            [Track("left", OtherStyles.First, profile.Left, road?.Left), Track("right", OtherStyles.Second, profile.Right, road?.Right)])
        {
            Labels = LabelPlacement.AbovePanels,
        }.Build();
        SpanLabels.AddTo(panel, [.. obstacles.Where(span => span.From < end && span.To > start)], _ => Theme.Marked);
        var part = end - start >= profile.Length ? "" : start == 0 ? FigureParts.Text($" The first {end:F0} m of {profile.Length:F0} m.") : FigureParts.Text($" From {start:F0} to {end:F0} m of {profile.Length:F0} m.");
        return new Figure(
            "road-profile.png",
            finding,
            $"Height under each wheel.{part}{(obstacles is [] ? "" : " Shaded: obstacles.")}",
            footer, [new Panel(panel)]);
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
            [new PlotSeries("left", OtherStyles.First, n, curves[0]), new PlotSeries("right", OtherStyles.Second, n, curves[1]), new PlotSeries(FigureParts.Text($"straight line, waviness {spectrum.Waviness:F2}"), OtherStyles.Third, n, curves[2])])
        {
            LogarithmicX = true,
            LogarithmicY = true,
            ReferenceLines = [new ReferenceLine(RoadClasses.ReferenceWavenumber, FigureParts.Text($"n0 = {RoadClasses.ReferenceWavenumber} cycle/m"), Vertical: true), .. limits],
            Peaks = [new PeakMark(RoadClasses.ReferenceWavenumber, 1e6 * spectrum.ClassDensity, FigureParts.Text($"{1e6 * spectrum.ClassDensity:G3}e-6 m³"), OtherStyles.Reference)],
            Labels = LabelPlacement.AbovePanels,
        };
        return new Figure(
            "road-spectrum.png",
            FigureParts.Text($"Class {spectrum.Class}: Gd(n0) = {1e6 * spectrum.ClassDensity:G3}e-6 m³ at n0 = {RoadClasses.ReferenceWavenumber} cycle/m, waviness {spectrum.Waviness:F2}"),
            "Roughness by wavelength, with the class limits of ISO 8608. Rising to the right: more short waves than with the slope of 2 of the standard, at which Gd(n0) is taken.",
            footer, [new Panel(panel.Build())]);
    }

    /// <summary>The coherence of the tracks against that of an isotropic road.</summary>
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
            > 0.1 => "Left–right coherence is above that of an isotropic road: less roll",
            < -0.1 => "Left–right coherence is below that of an isotropic road: more roll",
            _ => "Left–right coherence matches an isotropic road",
        };
        var panel = new CurvePanel(
            null, "Spatial frequency n", "cycle/m", "Coherence γ of left and right", "",
            [new PlotSeries("this road", OtherStyles.First, n, spectrum.Coherence), new PlotSeries("isotropic surface", OtherStyles.Second, n, [.. n.Select(isotropic.Gamma)])])
        {
            LogarithmicX = true,
            Labels = LabelPlacement.AbovePanels,
        };
        return new Figure("road-coherence.png", finding, "Coherence 1: the same road under both wheels, heave only. Coherence 0: as much roll as heave.", footer, [new Panel(panel.Build())]);
    }
}
