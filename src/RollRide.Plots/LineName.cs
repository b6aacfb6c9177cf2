using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>The name of a reference line across a panel, written on the line: above or below it, at the end where it covers least.</summary>
internal sealed class LineName : TextAnnotation
{
    private static readonly (HorizontalAlignment End, VerticalAlignment Edge)[] Places =
        [(HorizontalAlignment.Right, VerticalAlignment.Bottom), (HorizontalAlignment.Left, VerticalAlignment.Bottom), (HorizontalAlignment.Right, VerticalAlignment.Top), (HorizontalAlignment.Left, VerticalAlignment.Top)];

    private readonly double _value;

    /// <summary>Makes the name.</summary>
    /// <param name="line">The line.</param>
    public LineName(ReferenceLine line)
    {
        _value = line.Value;
        Text = line.Label;
        TextColor = Theme.SoftInk;
        FontSize = Theme.LabelSize;
        StrokeThickness = 0;
        Padding = new OxyThickness(3, 0, 3, 1);
    }

    /// <inheritdoc/>
    public override void Render(IRenderContext rc)
    {
        var curves = PeakLabels.CurvesOf(this);
        OxyRect[] names = [.. PlotModel.Annotations.OfType<LineName>().TakeWhile(name => name != this).Select(PeakLabels.BoxOf)];
        Stand(Places.MinBy(Cost));
        base.Render(rc);

        double Cost((HorizontalAlignment End, VerticalAlignment Edge) place)
        {
            Stand(place);
            var (box, area) = (PeakLabels.BoxOf(this), PlotModel.PlotArea);
            // Out of the plot, or on another name, it cannot be read at all; a curve through it is shorter than the panel's two edges.
            var isHidden = box.Top < area.Top || box.Bottom > area.Bottom || names.Any(name => PeakLabels.Overlap(box, name));
            return (isHidden ? area.Width + area.Height : 0) + curves.Sum(curve => PeakLabels.LengthWithin(box, curve));
        }
    }

    private void Stand((HorizontalAlignment End, VerticalAlignment Edge) place)
    {
        (TextHorizontalAlignment, TextVerticalAlignment) = place;
        var across = PlotModel.Axes.Single(axis => axis.Position == AxisPosition.Bottom);
        TextPosition = new DataPoint(place.End == HorizontalAlignment.Right ? across.ActualMaximum : across.ActualMinimum, _value);
    }
}
