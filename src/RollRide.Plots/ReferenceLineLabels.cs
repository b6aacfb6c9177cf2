using OxyPlot;
using OxyPlot.Annotations;

namespace RollRide.Plots;

/// <summary>What the vertical reference lines of a panel stand for, above the plot area.</summary>
internal sealed class ReferenceLineLabels : MarginAnnotation
{
    private const double Gap = 2;

    private readonly IReadOnlyList<ReferenceLine> _lines;

    private ReferenceLineLabels(IReadOnlyList<ReferenceLine> lines) => _lines = lines;

    /// <inheritdoc/>
    public override OxyThickness Room => new(0, Offset + Gap + TopLabels.Height(PlotModel.PlotArea, [.. _lines.Select(line => line.Label)]), 0, 0);

    /// <summary>Height of the names of spans, which stand below.</summary>
    private double Offset => PlotModel.Annotations.OfType<SpanLabels>().Select(labels => labels.Room.Top).DefaultIfEmpty().Max();

    /// <summary>Adds reference lines to a panel; those across it are named by <see cref="DirectLabels"/>, or on the line.</summary>
    /// <param name="model">The panel.</param>
    /// <param name="lines">The lines.</param>
    /// <param name="inside">Whether those across the panel are named on the line, where a panel is too narrow for names beside it.</param>
    public static void AddTo(PlotModel model, IReadOnlyList<ReferenceLine> lines, bool inside = false)
    {
        foreach (var line in lines)
        {
            model.Annotations.Add(new LineAnnotation
            {
                Type = line.Vertical ? LineAnnotationType.Vertical : LineAnnotationType.Horizontal,
                X = line.Value,
                Y = line.Value,
                Color = OtherStyles.Reference.Color,
                LineStyle = LineStyle.Dash,
                StrokeThickness = OtherStyles.Reference.Thickness,
                Layer = AnnotationLayer.BelowSeries,
            });
        }
        foreach (var line in lines.Where(line => inside && !line.Vertical && line.Label.Length > 0))
            model.Annotations.Add(new LineName(line));

        ReferenceLine[] named = [.. lines.Where(line => line.Vertical && line.Label.Length > 0)];
        if (named.Length > 0)
            model.Annotations.Add(new ReferenceLineLabels(named));
    }

    /// <inheritdoc/>
    public override void Render(IRenderContext rc) => TopLabels.Draw(rc, PlotModel.PlotArea, Offset + Gap,
        [.. _lines.Select(line => (line.Label, Transform(new DataPoint(line.Value, 0)).X))]);
}
