using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>What the corner does to body and tyres.</summary>
internal sealed class CornerChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter? Write(ReportInput input) => input.Study.Manoeuvre.HasCorner
        ? new(
            "In the corner",
            ["The steady roll angle is set by springs, bars and heights. Dampers decide how far the body rolls past it, and how soon it settles."],
            [RollAngleFigure.Build(input.Comparison), .. input.OfShownRoad(TyreLoadFigure.Build(input.Comparison))])
        : null;
}
