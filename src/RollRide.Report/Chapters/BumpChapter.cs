using RollRide.Findings;
using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>What the road does to the body.</summary>
internal sealed class BumpChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter? Write(ReportInput input) => input.Study.Manoeuvre.Road.Breakpoints.Any()
        ? new(
            RoadWords.Noun(input.Study.Manoeuvre.Road) is { } obstacle ? $"Over the {obstacle}" : "Along the road",
            [$"The first figure is the test itself: every layout is driven over the same road{(input.Study.Manoeuvre.HasCorner ? " and through the same corner" : "")}."],
            input.OfShownRoad(InputsFigure.Build(input.Comparison), BodyAccelerationFigure.Build(input.Comparison)))
        : null;
}
