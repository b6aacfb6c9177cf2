using OxyPlot;
using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>A panel that shows how values are spread, one outline per layout: the share of time at each damper velocity.</summary>
public sealed record HistogramPanel
{
    private const double Headroom = 1.08;

    /// <summary>Makes a panel.</summary>
    /// <param name="title">Its title, or null.</param>
    /// <param name="xQuantity">What is sorted into classes.</param>
    /// <param name="xUnit">Its unit; "" for none.</param>
    /// <param name="yQuantity">What the heights are, e.g. "Share of time".</param>
    /// <param name="yUnit">Its unit, e.g. "%".</param>
    /// <param name="series">The histograms, at least one.</param>
    /// <exception cref="ArgumentException">There is no histogram.</exception>
    public HistogramPanel(string? title, string xQuantity, string xUnit, string yQuantity, string yUnit, IReadOnlyList<HistogramSeries> series)
    {
        if (series.Count == 0)
            throw new ArgumentException("A panel must have at least one histogram.", nameof(series));
        (Title, XQuantity, XUnit, YQuantity, YUnit, Series) = (title, xQuantity, xUnit, yQuantity, yUnit, series);
    }

    /// <summary>Its title, or null.</summary>
    public string? Title { get; }

    /// <summary>What is sorted into classes.</summary>
    public string XQuantity { get; }

    /// <summary>Unit of the horizontal axis.</summary>
    public string XUnit { get; }

    /// <summary>What the heights are.</summary>
    public string YQuantity { get; }

    /// <summary>Unit of the vertical axis.</summary>
    public string YUnit { get; }

    /// <summary>The histograms.</summary>
    public IReadOnlyList<HistogramSeries> Series { get; }

    /// <summary>Reference lines, e.g. where a valve opens.</summary>
    public IReadOnlyList<ReferenceLine> ReferenceLines { get; init; } = [];

    /// <summary>Where the layouts are named. The outlines all end on the axis, so their ends are no place for names.</summary>
    public LabelPlacement Labels { get; init; } = LabelPlacement.AbovePanels;

    /// <summary>Builds the plot.</summary>
    public PlotModel Build()
    {
        var model = Theme.Panel(Title);
        var outlines = Series.Select(histogram => histogram.Outline).ToArray();
        var x = PlotRange.Of(
            [.. outlines.SelectMany(outline => outline.X), .. ReferenceLines.Where(line => line.Vertical).Select(line => line.Value)]);
        var highest = PlotRange.Of(
            [0, .. outlines.SelectMany(outline => outline.Y), .. ReferenceLines.Where(line => !line.Vertical).Select(line => line.Value)]).Maximum;
        var value = PlotAxis.Linear(AxisPosition.Bottom, XQuantity, XUnit, x);
        model.Axes.Add(value);
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Left, YQuantity, YUnit, new PlotRange(0, Headroom * highest)));
        Theme.AddZeroLine(model, value);
        foreach (var outline in outlines)
            outline.AddTo(model, outline.X.Zip(outline.Y, (a, b) => new DataPoint(a, b)));
        ReferenceLineLabels.AddTo(model, ReferenceLines);
        model.Annotations.Add(new DirectLabels([.. outlines.Select(outline => outline.End)], Labels, ReferenceLines));
        return model;
    }
}
