using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>The front axle's share of the load transfer over time, in the corner from rest.</summary>
public static class FrontShareFigure
{
    // As long as roll shows in the figure of its angle.
    private const double PeriodsShown = 4;

    /// <summary>Whether there is anything to draw.</summary>
    /// <param name="result">What the layouts did.</param>
    public static bool Has(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return Driven(result).Length > 0;
    }

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did, on a vehicle with two axles and through a corner.</param>
    public static Figure Build(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var (driven, styles) = (Driven(result), StudyStyles.Of(result.Study));
        var corner = result.Study.Manoeuvre.Cornering.Alone;
        var period = driven.Max(layout => layout.Metrics.RollResponse?.RollPeriod) ?? corner.Duration;
        var end = Math.Min(corner.Duration, (corner.EquivalentRamp ?? 0) + (PeriodsShown * period));
        var series = new List<PlotSeries>();
        var marks = new List<PeakMark>();
        foreach (var layout in driven)
        {
            var transfer = layout.OnVehicle!.Transfer!;
            var shown = Math.Max(2, transfer.Time.Count(time => time <= end));
            series.Add(new PlotSeries(layout.Name, styles[layout.Name], [.. transfer.Time.Take(shown)], [.. transfer.Share.Take(shown).Select(share => Unit.Percent.Of(share))]));
            if (transfer is { LargestDeviation: { } deviation, LargestDeviationTime: { } time, Steady: { } steady })
                marks.Add(new PeakMark(time, Unit.Percent.Of(steady + deviation), FigureParts.Text($"{Unit.Percent.Of(steady + deviation):F0} %"), styles[layout.Name]));
        }

        double[] steadies = [.. driven.Select(layout => Unit.Percent.Of(layout.OnVehicle!.Transfer!.Steady)).OfType<double>().DistinctBy(share => Math.Round(share))];
        return new Figure(
            "front-share.png",
            Title(driven),
            "In the corner from rest, while the load transfer is more than a tenth of its largest value.",
            FigureParts.Footer(result.Study),
            [
                new Panel(
                    new TimePanel(null, "Front axle's share of load transfer", "%", series)
                    {
                        ReferenceLines = [.. steadies.Select(share => new ReferenceLine(share, FigureParts.Text($"steady {share:F0} %")))],
                        Peaks = marks,
                    }.Build(),
                    0,
                    0),
            ]);
    }

    private static LayoutResult[] Driven(ComparisonResult result) => [.. result.Layouts.Where(layout => layout.OnVehicle?.Transfer is { Time.Length: > 2 })];

    private static string Title(LayoutResult[] driven)
    {
        var steady = driven.Where(layout => layout.OnVehicle!.Transfer!.LargestDeviation is not null).ToArray();
        if (steady.Length == 0)
            return "The front axle's share of the load transfer changes through the corner";
        var most = steady.MaxBy(layout => Math.Abs(layout.OnVehicle!.Transfer!.LargestDeviation!.Value))!;
        var transfer = most.OnVehicle!.Transfer!;
        var (share, deviation) = (Unit.Percent.Of(transfer.Steady!.Value), Unit.Percent.Of(transfer.LargestDeviation!.Value));
        return FigureParts.Text($"The front axle carries {share:F0} % of the load transfer, and {share + deviation:F0} % while roll settles{(driven.Length > 1 ? $" with “{most.Name}”" : "")}");
    }
}
