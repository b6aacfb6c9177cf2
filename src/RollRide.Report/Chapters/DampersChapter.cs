using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>The force–velocity curves, and the part of them that the run used.</summary>
internal sealed class DampersChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter Write(ReportInput input) => new(
        "Force over velocity",
        ["The pale band is what the dampers went through in this run. Where only the middle of a curve is used, its low-speed valving decides."],
        input.OfShownRoad(DamperCurvesFigure.Build(input.Comparison), DamperVelocityFigure.Build(input.Comparison)));
}
