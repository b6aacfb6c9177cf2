using OxyPlot;
using OxyPlot.Annotations;

namespace RollRide.Plots;

/// <summary>The name of a reference line across a panel, written on the line: above or below it, at the end or place between where it covers least.</summary>
internal sealed class LineName : TextAnnotation
{
    private static readonly (double Share, VerticalAlignment Edge)[] Places =
    [
        .. from edge in (VerticalAlignment[])[VerticalAlignment.Bottom, VerticalAlignment.Top]
           from share in (double[])[1, 0]
           select (share, edge),
        .. from share in (double[])[0.75, 0.5, 0.25]
           from edge in (VerticalAlignment[])[VerticalAlignment.Bottom, VerticalAlignment.Top]
           select (share, edge),
    ];

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

        double Cost((double Share, VerticalAlignment Edge) place)
        {
            Stand(place);
            var (box, area) = (PeakLabels.BoxOf(this), PlotModel.PlotArea);
            // Out of the plot, or on another name, it cannot be read at all; a curve through it is shorter than the panel's two edges.
            var isHidden = box.Top < area.Top || box.Bottom > area.Bottom || box.Left < area.Left || box.Right > area.Right || names.Any(name => PeakLabels.Overlap(box, name));
            return (isHidden ? area.Width + area.Height : 0) + curves.Sum(curve => PeakLabels.LengthWithin(box, curve));
        }
    }

    private void Stand((double Share, VerticalAlignment Edge) place)
    {
        TextHorizontalAlignment = place.Share switch { 0 => HorizontalAlignment.Left, 1 => HorizontalAlignment.Right, _ => HorizontalAlignment.Center };
        TextVerticalAlignment = place.Edge;
        var area = PlotModel.PlotArea;
        TextPosition = new DataPoint(InverseTransform(new ScreenPoint(area.Left + (place.Share * area.Width), area.Top)).X, _value);
    }
}
