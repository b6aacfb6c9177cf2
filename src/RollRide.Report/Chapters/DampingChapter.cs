using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>The damping ratios of the modes.</summary>
internal sealed class DampingChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter Write(ReportInput input) => new(
        "Damping ratios",
        ["A damping ratio of 0 never comes to rest, 1 creeps back without swinging. The curve of a damper is not straight, so the ratio belongs to the damper velocity named in the figure."],
        [ModesOverVelocityFigure.Build(input.Studies.Modes)]);
}
