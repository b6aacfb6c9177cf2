using RollRide.Findings;
using RollRide.Mounting;
using RollRide.Plots;
using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>Where the dampers sit, and the ratios that follow; with mount points also over the whole travel, and what is left of the strokes.</summary>
internal sealed class MountsChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter Write(ReportInput input)
    {
        var study = input.Study;
        var chapter = new Chapter(
            "Mounts and motion ratios",
            [$"{study.Vehicle.Suspension.Ratios} Damping scales with the square of the ratio."],
            [MountsFigure.Build(study)]);
        if (!study.Layouts.Any(layout => layout.Fitting is IMountedElement))
            return chapter;
        if (study.Vehicle.Envelope is null)
            return chapter with { Notes = ["Neither the travel of the suspension nor its stops are given, so what is left of the strokes is not known."] };
        return input.Studies.Mounts switch
        {
            { Found: { } mounts } => chapter with { Figures = [.. chapter.Figures, .. MountsFigures.Lengths(mounts) is { } lengths ? [lengths] : Array.Empty<Figure>()], Notes = [.. MountsConclusions.OnStroke(mounts)] },
            { Failure: var failure } => chapter with { Notes = [failure] },
            null => chapter,
        };
    }
}
