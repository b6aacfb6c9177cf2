using RollRide.Plots.Figures;
using RollRide.Studies;

namespace RollRide.Report.Chapters;

/// <summary>The settings that meet the scenario's targets for heave and roll at once.</summary>
internal sealed class WindowChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter? Write(ReportInput input, CancellationToken cancellation)
    {
        if (input.Study.Targets is null)
            return null;
        const string title = "The setting window";
        try
        {
            var windows = SettingWindowStudy.Run(input.Study, cancellation);
            var sentences = WindowConclusions.Of(windows);
            return new Chapter(title, [sentences[0]], [SettingWindowFigure.Build(windows)]) { Notes = [.. sentences.Skip(1)] };
        }
        catch (StudyException e)
        {
            // A layout without damping has no window, but the rest of the report stands.
            return new Chapter(title, [e.Message], []);
        }
    }
}
