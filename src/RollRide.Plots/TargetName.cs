using OxyPlot;

namespace RollRide.Plots;

/// <summary>The name of a horizontal target band, right of the plot area.</summary>
/// <param name="target">The band, on the vertical axis.</param>
internal sealed class TargetName(PlotSpan target) : MarginAnnotation
{
    private const double Gap = 5;
    private const double WidestName = 90;

    private readonly IReadOnlyList<string> _lines = PlotFont.Wrap(target.Label, Theme.LabelSize, WidestName, maxLines: 3);

    /// <inheritdoc/>
    public override OxyThickness Room => new(0, 0, Gap + _lines.Max(line => PlotFont.Width(line, Theme.LabelSize)), 0);

    /// <inheritdoc/>
    public override void Render(IRenderContext rc)
    {
        var middle = Transform(new DataPoint(0, (target.From + target.To) / 2)).Y;
        rc.DrawText(new ScreenPoint(PlotModel.PlotArea.Right + Gap, middle), string.Join('\n', _lines), Theme.SoftInk, null,
            Theme.LabelSize, PlotFont.Normal, 0, HorizontalAlignment.Left, VerticalAlignment.Middle, null);
    }
}
