using RollRide.Plots.Figures;
using RollRide.Vehicle;

namespace RollRide.Report.Chapters;

/// <summary>Where the dampers sit, and the ratios that follow.</summary>
internal sealed class MountsChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter Write(ReportInput input, CancellationToken cancellation) => new(
        "Mounts and motion ratios",
        [
            input.Study.Vehicle.Suspension == SuspensionKind.LiveAxle
                ? "On a live axle a damper inboard of the wheel moves as much as the wheel in heave, but less in roll. Damping goes with the square of the ratio."
                : "On independent suspension each damper follows its own wheel: the ratio is the same in heave and in roll. Damping goes with the square of the ratio.",
        ],
        [MountsFigure.Build(input.Study)]);
}
