using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>The force–velocity curves, and the part of them that the run used.</summary>
internal sealed class DampersChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter Write(ReportInput input) => new(
        "Force over velocity",
        ["The pale band is where the damper worked in this run. A curve that is used only near its middle is decided by its low-speed valving."],
        input.OfShownRoad(DamperCurvesFigure.Build(input.Comparison), DamperVelocityFigure.Build(input.Comparison)));
}
