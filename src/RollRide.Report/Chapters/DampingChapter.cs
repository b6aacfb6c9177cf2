using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>The damping ratios of the modes.</summary>
internal sealed class DampingChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter Write(ReportInput input) => new(
        "Damping ratios",
        ["A motion with damping ratio 0 never comes to rest; with 1 it returns without swinging. The damper curve is not straight: a ratio holds at its velocity."],
        [ModesOverVelocityFigure.Build(input.Studies.Modes)]);
}
