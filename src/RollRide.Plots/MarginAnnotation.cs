using OxyPlot;
using OxyPlot.Annotations;

namespace RollRide.Plots;

/// <summary>Something drawn in the margin around a plot area, for which the page leaves room.</summary>
internal abstract class MarginAnnotation : Annotation
{
    /// <summary>Makes it; drawn above everything else.</summary>
    protected MarginAnnotation() => Layer = AnnotationLayer.AboveSeries;

    /// <summary>The room it needs on each side of the plot area, plot units.</summary>
    public abstract OxyThickness Room { get; }

    /// <summary>Nothing is cut off: it is drawn outside the plot area.</summary>
    public override OxyRect GetClippingRect() => OxyRect.Everything;
}
