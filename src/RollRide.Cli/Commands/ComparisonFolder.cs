using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Writes the files of a comparison, all or none.</summary>
internal static class ComparisonFolder
{
    /// <summary>Adds the summary and puts all files in place.</summary>
    public static WrittenFolder Finish(OutputFolder folder, string path, Verdict verdict, Scenario scenario)
    {
        var summary = folder.AddSummary("summary.json", output => Summary.Write(output, verdict.States, scenario.Warnings, VerdictWords.Decision(verdict, scenario.AsksForTuning)));
        folder.Commit();
        return new WrittenFolder(path, folder.Names, summary);
    }

    /// <summary>Adds the metrics, and the tables of random roads where there are any.</summary>
    public static void AddTables(OutputFolder folder, IReadOnlyList<ComparisonFindings> states)
    {
        folder.Add("metrics.csv", output => MetricsTable.Write(output, states));
        if (states.Any(state => state.Seeds.Count > 0))
            folder.Add("seeds.csv", output => SeedsTable.Write(output, states));
        if (states.Any(state => state.Linear.Count > 0))
            folder.Add("linear.csv", output => LinearTable.Write(output, states));
    }

    /// <summary>Adds the time histories, a file a load state and layout.</summary>
    public static void AddHistories(OutputFolder folder, IReadOnlyList<RecordedComparison> states, CancellationToken cancellation)
    {
        foreach (var (state, prefix) in states.Zip(LoadStates.FilePrefixes(states.Select(state => state.Study))))
        {
            var names = new SafeFileNames();
            foreach (var layout in state.Layouts)
            {
                cancellation.ThrowIfCancellationRequested();
                folder.Add($"{prefix}history-{names.Allocate(layout.Name)}.csv", output => HistoryTable.Write(output, layout.History));
            }
        }
    }
}

/// <summary>A folder of results.</summary>
/// <param name="Path">Its path, as the user gave it.</param>
/// <param name="Files">The names of the files, the summary first.</param>
/// <param name="Summary">The text of the summary.</param>
internal sealed record WrittenFolder(string Path, IReadOnlyList<string> Files, string Summary);
