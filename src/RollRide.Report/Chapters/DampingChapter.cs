using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>The damping ratios of the modes.</summary>
internal sealed class DampingChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter Write(ReportInput input) => new(
        "Damping ratios",
        ["At a damping ratio of 0 a motion never comes to rest; at 1 it returns without swinging. The damper curve is not straight, so each ratio holds at the damper velocity named."],
        [ModesOverVelocityFigure.Build(input.Studies.Modes)]);
}
