using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;

namespace RollRide.Plots;

/// <summary>
/// A panel that shows one quantity over another: a damper's force over its velocity, a response over frequency. The part of a curve
/// that a run really used can be laid under it as a broad pale band.
/// </summary>
public sealed record CurvePanel
{
    private const double Padding = 0.05;
    private const double LogarithmicRoom = 1.3;
    private const byte RunOpacity = 0x48;
    private const double TargetBarThickness = 12;

    /// <summary>Makes a panel.</summary>
    /// <param name="title">Its title, or null.</param>
    /// <param name="xQuantity">What the horizontal axis shows.</param>
    /// <param name="xUnit">Its unit; "" for none.</param>
    /// <param name="yQuantity">What the vertical axis shows.</param>
    /// <param name="yUnit">Its unit; "" for none.</param>
    /// <param name="curves">The curves, at least one.</param>
    /// <exception cref="ArgumentException">There is no curve.</exception>
    public CurvePanel(string? title, string xQuantity, string xUnit, string yQuantity, string yUnit, IReadOnlyList<PlotSeries> curves)
    {
        if (curves.Count == 0)
            throw new ArgumentException("A panel must have at least one curve.", nameof(curves));
        (Title, XQuantity, XUnit, YQuantity, YUnit, Curves) = (title, xQuantity, xUnit, yQuantity, yUnit, curves);
    }

    /// <summary>Its title, or null.</summary>
    public string? Title { get; }

    /// <summary>What the horizontal axis shows.</summary>
    public string XQuantity { get; }

    /// <summary>Unit of the horizontal axis.</summary>
    public string XUnit { get; }

    /// <summary>What the vertical axis shows.</summary>
    public string YQuantity { get; }

    /// <summary>Unit of the vertical axis.</summary>
    public string YUnit { get; }

    /// <summary>The curves.</summary>
    public IReadOnlyList<PlotSeries> Curves { get; }

    /// <summary>The paths that were run, each in the colour of its layout.</summary>
    public IReadOnlyList<PlotSeries> Runs { get; init; } = [];

    /// <summary>Thickness of the paths, plot units: broad for a band under a curve, thin for loops that must be told apart.</summary>
    public double RunThickness { get; init; } = 7;

    /// <summary>Whether the horizontal axis is logarithmic, as for frequencies.</summary>
    public bool LogarithmicX { get; init; }

    /// <summary>Room left free at both ends of a linear horizontal axis, as a share of its range.</summary>
    public double XPadding { get; init; }

    /// <summary>Whether the vertical axis is logarithmic, as for gains; then every value must be greater than 0.</summary>
    public bool LogarithmicY { get; init; }

    /// <summary>The part of the vertical axis that is aimed at, shaded; null for none. The axis need not reach its ends.</summary>
    public PlotSpan? TargetBand { get; init; }

    /// <summary>Upright bars of what meets a target.</summary>
    public IReadOnlyList<TargetBar> TargetBars { get; init; } = [];

    /// <summary>Reference lines, which the axes always reach.</summary>
    public IReadOnlyList<ReferenceLine> ReferenceLines { get; init; } = [];

    /// <summary>Points that carry their value.</summary>
    public IReadOnlyList<PeakMark> Peaks { get; init; } = [];

    /// <summary>Straight continuations beyond what was measured, dotted.</summary>
    public IReadOnlyList<PlotSeries> Extensions { get; init; } = [];

    /// <summary>Limits of the horizontal axis before padding, for panels with one scale; null for those of what it shows.</summary>
    public PlotRange? XRange { get; init; }

    /// <summary>Limits of the vertical axis before padding, for panels with one scale; null for those of what it shows.</summary>
    public PlotRange? YRange { get; init; }

    /// <summary>Where the layouts are named.</summary>
    public LabelPlacement Labels { get; init; } = LabelPlacement.AtCurveEnds;

    /// <summary>Whether reference lines across the panel are named on the line instead of beside the panel.</summary>
    public bool NamesLinesInside { get; init; }

    /// <summary>Limits of what it shows horizontally, with the room at the ends.</summary>
    private PlotRange ShownX => PlotRange.Of(
        [.. All.SelectMany(curve => curve.X), .. TargetBars.Select(bar => bar.X), .. ReferenceLines.Where(line => line.Vertical).Select(line => line.Value), .. Peaks.Select(peak => peak.X)],
        LogarithmicX ? 0 : XPadding);

    /// <summary>Limits of what it shows vertically.</summary>
    internal PlotRange ShownY => PlotRange.Of(
        [.. All.SelectMany(curve => curve.Y), .. TargetBars.SelectMany(bar => new[] { bar.From, bar.To }), .. ReferenceLines.Where(line => !line.Vertical).Select(line => line.Value), .. Peaks.Select(peak => peak.Y)]);

    private IEnumerable<PlotSeries> All => Curves.Concat(Runs).Concat(Extensions);

    /// <summary>Panels that are compared, both axes of each with the limits of all.</summary>
    /// <param name="panels">The panels.</param>
    public static IReadOnlyList<CurvePanel> OnOneScale(IReadOnlyList<CurvePanel> panels)
    {
        var (x, y) = (PlotRange.Over(panels.Select(panel => panel.ShownX)), PlotRange.Over(panels.Select(panel => panel.ShownY)));
        return [.. panels.Select(panel => panel with { XRange = x, YRange = y })];
    }

    /// <summary>Builds the plot.</summary>
    public PlotModel Build()
    {
        var model = Theme.Panel(Title);
        var x = XRange ?? ShownX;
        var shown = YRange ?? ShownY;
        var y = PlotRange.Of([shown.Minimum, shown.Maximum], LogarithmicY ? 0 : Padding);
        if (LogarithmicY)
            y = new PlotRange(y.Minimum / LogarithmicRoom, y.Maximum * LogarithmicRoom);
        model.Axes.Add(LogarithmicX
            ? PlotAxis.Logarithmic(AxisPosition.Bottom, XQuantity, XUnit, x)
            : PlotAxis.Linear(AxisPosition.Bottom, XQuantity, XUnit, x));
        model.Axes.Add(LogarithmicY
            ? PlotAxis.Logarithmic(AxisPosition.Left, YQuantity, YUnit, y)
            : PlotAxis.Linear(AxisPosition.Left, YQuantity, YUnit, y));
        if (TargetBand is { } band)
            model.Annotations.Add(new RectangleAnnotation { MinimumY = band.From, MaximumY = band.To, Fill = Theme.Target, Layer = AnnotationLayer.BelowAxes });
        foreach (var axis in model.Axes.OfType<LinearAxis>())
            Theme.AddZeroLine(model, axis);
        foreach (var bar in TargetBars)
            AddPath(model, bar.Name, [new(bar.X, bar.From), new(bar.X, bar.To)], Theme.Target, TargetBarThickness);
        foreach (var run in Runs)
            AddPath(model, run.Name, run.X.Zip(run.Y, (a, b) => new DataPoint(a, b)), OxyColor.FromAColor(RunOpacity, run.Style.Color), RunThickness);
        foreach (var extension in Extensions)
        {
            var line = new LineSeries { Color = extension.Style.Color, StrokeThickness = extension.Style.Thickness, Dashes = [1, 2] };
            line.Points.AddRange(extension.X.Zip(extension.Y, (a, b) => new DataPoint(a, b)));
            model.Series.Add(line);
        }
        foreach (var curve in Curves)
            curve.AddTo(model, curve.X.Zip(curve.Y, (a, b) => new DataPoint(a, b)));
        ReferenceLineLabels.AddTo(model, ReferenceLines, NamesLinesInside);
        model.Annotations.Add(new DirectLabels([.. Curves.Select(curve => curve.End)], Labels, NamesLinesInside ? [] : ReferenceLines));
        model.Annotations.Add(new PeakLabels(Peaks));
        return model;
    }

    private static void AddPath(PlotModel model, string name, IEnumerable<DataPoint> points, OxyColor color, double thickness)
    {
        var line = new LineSeries { Color = color, StrokeThickness = thickness, LineJoin = LineJoin.Round, ToolTip = name };
        line.Points.AddRange(points);
        model.Series.Add(line);
    }
}
