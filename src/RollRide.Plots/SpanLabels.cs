using OxyPlot;
using OxyPlot.Annotations;

namespace RollRide.Plots;

/// <summary>Names of spans of the horizontal axis, above the plot area, each over the middle of its span where there is room.</summary>
/// <param name="spans">The spans, in ascending order.</param>
internal sealed class SpanLabels(IReadOnlyList<PlotSpan> spans) : MarginAnnotation
{
    private const double Gap = 2;

    /// <inheritdoc/>
    public override OxyThickness Room => new(0, Gap + TopLabels.Height(PlotModel.PlotArea, [.. Named.Select(span => span.Label)]), 0, 0);

    private IEnumerable<PlotSpan> Named => spans.Where(span => span.Label.Length > 0);

    /// <summary>Adds shaded spans with their names to a panel.</summary>
    /// <param name="model">The panel.</param>
    /// <param name="spans">The spans.</param>
    /// <param name="fill">Fill of the span at a given place.</param>
    public static void AddTo(PlotModel model, IReadOnlyList<PlotSpan> spans, Func<int, OxyColor> fill)
    {
        for (var i = 0; i < spans.Count; i++)
        {
            model.Annotations.Add(new RectangleAnnotation
            {
                MinimumX = spans[i].From,
                MaximumX = spans[i].To,
                Fill = fill(i),
                Layer = AnnotationLayer.BelowAxes,
            });
        }
        if (spans.All(span => span.Label.Length == 0))
            return;
        model.Annotations.Add(new SpanLabels(spans));
    }

    /// <inheritdoc/>
    public override void Render(IRenderContext rc) =>
        TopLabels.Draw(rc, PlotModel.PlotArea, Gap, [.. Named.Select(span => (span.Label, Middle(span)))]);

    private double Middle(PlotSpan span)
    {
        var area = PlotModel.PlotArea;
        var left = Math.Max(area.Left, Transform(new DataPoint(span.From, 0)).X);
        var right = Math.Min(area.Right, Transform(new DataPoint(span.To, 0)).X);
        return (left + right) / 2;
    }
}
