using RollRide.Findings;
using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>The settings that meet the scenario's targets for heave and roll at once.</summary>
internal sealed class WindowChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter? Write(ReportInput input)
    {
        const string title = "The setting window";
        if (input.Studies.Windows is not { } answer)
            return null;

        // A layout without damping has no window, but the rest of the report stands.
        if (answer.Found is not { } windows)
            return new Chapter(title, [answer.Failure], []);
        var sentences = WindowConclusions.Of(windows);
        return new Chapter(title, [sentences[0]], [SettingWindowFigure.Build(windows)]) { Notes = [.. sentences.Skip(1)] };
    }
}
