using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Writes the files of a comparison, all or none.</summary>
internal static class ComparisonFolder
{
    /// <summary>Writes the folder.</summary>
    /// <param name="path">The folder's path, as the user gave it.</param>
    /// <param name="verdict">What was found, and what that decides.</param>
    /// <param name="scenario">The scenario.</param>
    /// <param name="addMore">Adds what there is besides: time histories, figures.</param>
    /// <param name="cancellation">Stops the writing.</param>
    /// <returns>The path as given and the names of the files.</returns>
    public static WrittenFolder Write(string path, Verdict verdict, Scenario scenario, Action<OutputFolder> addMore, CancellationToken cancellation)
    {
        using var folder = new OutputFolder(path, cancellation);
        AddTables(folder, verdict.States);
        addMore(folder);
        return Finish(folder, path, verdict, scenario);
    }

    /// <summary>Adds the summary and puts all files in place.</summary>
    public static WrittenFolder Finish(OutputFolder folder, string path, Verdict verdict, Scenario scenario)
    {
        var summary = folder.AddSummary("summary.json", output => Summary.Write(output, verdict.States, scenario.Warnings, VerdictWords.Decision(verdict)));
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
