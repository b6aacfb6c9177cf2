using System.Collections.Immutable;
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
        var isOfVehicle = windows[0].Study.Vehicle.SecondAxle is not null;
        string Table(string where)
        {
            var table = "The table gives the factors on the present curve that meet "
                + (!isOfVehicle ? "all targets" : input.Verdict.Layouts.All(layout => layout.IsJudgedOnVehicle) ? "all targets, on this axle and on the whole vehicle (there the heave limits hold for bounce or pitch, whichever is damped more)" : "the targets of this axle alone");
            if (input.Changes.All(changes => changes.All(change => change.Kind is null)))
                return $"{table}{where}.";
            DamperTolerance[] tolerances = [.. windows[0].Study.Layouts.Select(layout => DamperTolerance.Of(windows[0].Study, layout, windows[0].Targets.Velocity)).Distinct()];
            var room = tolerances.Length == 1 ? VerdictWords.Tolerance(tolerances[0]) : "the tolerance of the dampers";
            return $"{table}{where}, and of each other change the value nearest to the present one that leaves room for {room}; where none does, for half of it; where none does that either, without room. Each was driven through the manoeuvre; what bars it there is named.";
        }

        ImmutableArray<string> prices = [.. input.Verdict.Layouts.SelectMany((layout, i) => VerdictWords.Prices(layout, input.Changes[i]))];
        return windows.Count == 1
            ? new Chapter(title, [WindowConclusions.Of(windows[0])[0], Table("")], [SettingWindowFigure.Build(windows[0])]) { Table = RemedyTable.Write(input, windows), Notes = prices }
            : new Chapter(title, [.. CommonWindow.Of([.. windows.Select(state => state.JudgedAs(input.Verdict))]).Select(WindowWords.Of), Table(" in every load state")], [LoadWindowsFigure.Build(windows)]) { IsOfAllLoads = true, Table = RemedyTable.Write(input, windows), Notes = prices };
    }
}
