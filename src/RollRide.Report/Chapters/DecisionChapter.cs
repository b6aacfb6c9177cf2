using RollRide.Plots.Figures;
using RollRide.Studies;

namespace RollRide.Report.Chapters;

/// <summary>What the first page shows beside the decision: two figures that prove it at a glance, and the test in words.</summary>
internal sealed class DecisionChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter Write(ReportInput input)
    {
        var window = input.Studies.Windows?.Found is { } windows ? SettingWindowFigure.Build(windows.Count > 1 ? CommonWindow.AsOne(windows) : windows[0]) : null;
        return new(
            "The decision",
            [InputsFigure.Test(input.Comparison)],
            [
                input.Study.Manoeuvre.HasCorner ? RollAngleFigure.Build(input.Comparison) : BodyAccelerationFigure.Build(input.Comparison),
                window is { Panels.Count: 1 } ? window : DampingRatioFigure.Build(input.Comparison.Result), // several panels need more width
            ]);
    }
}
