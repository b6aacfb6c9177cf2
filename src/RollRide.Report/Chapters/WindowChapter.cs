using RollRide.Findings;
using RollRide.Plots.Figures;
using RollRide.Studies;

namespace RollRide.Report.Chapters;

/// <summary>The settings that meet the scenario's targets for heave and roll at once.</summary>
internal sealed class WindowChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter? Write(ReportInput input)
    {
        const string title = "The setting window, and what would open it";
        if (input.Studies.Windows is not { } answer)
            return null;

        // A layout without damping has no window, but the rest of the report stands.
        if (answer.Found is not { } windows)
            return new Chapter(title, [answer.Failure], []);
        static string Table(string where) => $"The table gives the value nearest to the present one with which a damper setting meets all targets{where}. It leaves out place, travel and tyre loads.";
        return windows.Count == 1
            ? new Chapter(title, [WindowConclusions.Of(windows[0])[0], Table("")], [SettingWindowFigure.Build(windows[0])]) { Table = RemedyTable.Write(windows, input.Styles) }
            : new Chapter(title, [.. CommonWindow.Of(windows).Select(WindowWords.Of), Table(" in every load state")], [LoadWindowsFigure.Build(windows)]) { IsOfAllLoads = true, Table = RemedyTable.Write(windows, input.Styles) };
    }
}
