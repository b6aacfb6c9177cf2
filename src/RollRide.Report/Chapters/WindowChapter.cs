using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Plots.Figures;
using RollRide.Studies;
using static System.FormattableString;

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
        string Table(string where)
        {
            const string table = "The table gives the factors on the present curve that meet all targets";
            if (input.Changes.All(changes => changes.IsEmpty))
                return $"{table}{where}.";
            var tolerance = DamperTolerance.Of(windows[0].Study, windows[0].Study.Layouts[0], windows[0].Targets.Velocity);
            return Invariant($"{table}{where}, and of each other change the value nearest to the present one that leaves room for {(tolerance.IsStated ? "the stated tolerance of the dampers" : "the usual scatter of production dampers")}, ±{Unit.Percent.Of(tolerance.Share):0.#} %. Each was driven through the manoeuvre; what bars it there is named.");
        }

        return windows.Count == 1
            ? new Chapter(title, [WindowConclusions.Of(windows[0])[0], Table("")], [SettingWindowFigure.Build(windows[0])]) { Table = RemedyTable.Write(input, windows) }
            : new Chapter(title, [.. CommonWindow.Of(windows).Select(WindowWords.Of), Table(" in every load state")], [LoadWindowsFigure.Build(windows)]) { IsOfAllLoads = true, Table = RemedyTable.Write(input, windows) };
    }
}
