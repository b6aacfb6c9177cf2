using OxyPlot;
using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>A panel that shows one quantity of each layout over time.</summary>
public sealed record TimePanel
{
    private const double Padding = 0.07;

    /// <summary>Makes a panel.</summary>
    /// <param name="title">Its title, or null.</param>
    /// <param name="quantity">What it shows, e.g. "Roll angle".</param>
    /// <param name="unit">The unit; "" for a number without one.</param>
    /// <param name="series">The curves over time in s, at least one; time must not descend.</param>
    /// <exception cref="ArgumentException">There is no curve.</exception>
    public TimePanel(string? title, string quantity, string unit, IReadOnlyList<PlotSeries> series)
    {
        if (series.Count == 0)
            throw new ArgumentException("A panel must have at least one curve.", nameof(series));
        (Title, Quantity, Unit, Series) = (title, quantity, unit, series);
        Time = PlotRange.Of(series.SelectMany(curve => new[] { curve.X[0], curve.X[^1] }));
    }

    /// <summary>Its title, or null.</summary>
    public string? Title { get; }

    /// <summary>What it shows.</summary>
    public string Quantity { get; }

    /// <summary>The unit.</summary>
    public string Unit { get; }

    /// <summary>The curves.</summary>
    public IReadOnlyList<PlotSeries> Series { get; }

    /// <summary>Limits of the time axis, s; those of the curves unless given.</summary>
    public PlotRange Time { get; init; }

    /// <summary>Limits of the vertical axis before padding, for panels with one scale; null for those of what it shows.</summary>
    public PlotRange? Values { get; init; }

    /// <summary>Spans of time, s, that stand out by a darker ground.</summary>
    public IReadOnlyList<PlotSpan> Marked { get; init; } = [];

    /// <summary>Horizontal reference lines, which the vertical axis always reaches, and vertical ones.</summary>
    public IReadOnlyList<ReferenceLine> ReferenceLines { get; init; } = [];

    /// <summary>Points that carry their value.</summary>
    public IReadOnlyList<PeakMark> Peaks { get; init; } = [];

    /// <summary>Phases of the manoeuvre, s, in ascending order: every second one is shaded.</summary>
    public IReadOnlyList<PlotSpan> Phases { get; init; } = [];

    /// <summary>Where the layouts are named.</summary>
    public LabelPlacement Labels { get; init; } = LabelPlacement.AtCurveEnds;

    /// <summary>Whether reference lines across the panel are named on the line instead of beside the panel.</summary>
    public bool NamesLinesInside { get; init; }

    /// <summary>Limits of what it shows vertically.</summary>
    internal PlotRange Shown => PlotRange.Of(
        [.. Series.SelectMany(curve => curve.Y), .. ReferenceLines.Where(line => !line.Vertical).Select(line => line.Value), .. Peaks.Select(peak => peak.Y)]);

    /// <summary>Whether the time axis has labels and a title; not where another panel below has the same axis.</summary>
    public bool ShowsTime { get; init; } = true;

    /// <summary>Panels that are compared, the vertical axis of each with the limits of all.</summary>
    /// <param name="panels">The panels.</param>
    public static IReadOnlyList<TimePanel> OnOneScale(IReadOnlyList<TimePanel> panels)
    {
        var values = PlotRange.Over(panels.Select(panel => panel.Shown));
        return [.. panels.Select(panel => panel with { Values = values })];
    }

    /// <summary>Panels above each other over one time axis, in the order given, with the same limits; only the lowest writes it out.</summary>
    /// <param name="panels">The panels, from the top.</param>
    /// <param name="column">Column of the figure.</param>
    public static IReadOnlyList<Panel> Stack(IReadOnlyList<TimePanel> panels, int column = 0)
    {
        var time = PlotRange.Of(panels.SelectMany(panel => new[] { panel.Time.Minimum, panel.Time.Maximum }));
        return [.. panels.Select((panel, row) =>
            new Panel((panel with { Time = time, ShowsTime = row == panels.Count - 1 }).Build(), row, column))];
    }

    /// <summary>Builds the plot.</summary>
    public PlotModel Build()
    {
        var model = Theme.Panel(Title);
        var time = PlotAxis.Linear(AxisPosition.Bottom, "Time", "s", Time);
        time.Key = PlotAxis.TimeKey;
        if (!ShowsTime)
        {
            time.Title = time.Unit = null;
            time.LabelFormatter = _ => "";
            time.FontSize = 1; // an empty label still takes the height of a line
        }
        model.Axes.Add(time);
        var limits = Values ?? Shown;
        var value = PlotAxis.Linear(AxisPosition.Left, Quantity, Unit, PlotRange.Of([limits.Minimum, limits.Maximum], Padding));
        model.Axes.Add(value);
        Theme.AddZeroLine(model, value);
        SpanLabels.AddTo(model, Phases.Where(Shows).ToArray(), i => i % 2 == 0 ? Theme.Shade : OxyColors.White);
        SpanLabels.AddTo(model, Marked.Where(Shows).ToArray(), _ => Theme.Marked);
        foreach (var curve in Series)
            curve.AddTo(model, MinMaxDecimation.Reduce(curve.X, curve.Y));
        ReferenceLineLabels.AddTo(model, ReferenceLines, NamesLinesInside);
        model.Annotations.Add(new DirectLabels([.. Series.Select(curve => curve.End)], Labels, NamesLinesInside ? [] : ReferenceLines));
        model.Annotations.Add(new PeakLabels(Peaks));
        return model;
    }

    private bool Shows(PlotSpan span) => span.To > Time.Minimum && span.From < Time.Maximum;
}
