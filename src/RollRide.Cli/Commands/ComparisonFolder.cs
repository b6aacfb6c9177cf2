using RollRide.DataFiles;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Writes the files of a comparison, all or none.</summary>
internal static class ComparisonFolder
{
    /// <summary>Writes the folder.</summary>
    /// <param name="path">The folder's path, as the user gave it.</param>
    /// <param name="result">What the layouts did.</param>
    /// <param name="scenario">The scenario.</param>
    /// <param name="seeds">The runs over several random roads; none if empty.</param>
    /// <param name="addMore">Adds what there is besides: time histories, figures.</param>
    /// <param name="cancellation">Stops the writing.</param>
    /// <returns>The path as given and the names of the files.</returns>
    public static WrittenFolder Write(string path, ComparisonResult result, Scenario scenario, IReadOnlyList<SeededRuns> seeds, Action<OutputFolder> addMore, CancellationToken cancellation)
    {
        using var folder = new OutputFolder(path);
        AddData(folder, result, scenario, seeds);
        addMore(folder);
        cancellation.ThrowIfCancellationRequested();
        folder.Commit();
        return new WrittenFolder(path, folder.Names);
    }

    /// <summary>Adds the summary and the metrics.</summary>
    public static void AddData(OutputFolder folder, ComparisonResult result, Scenario scenario, IReadOnlyList<SeededRuns> seeds)
    {
        folder.Add("summary.json", output => Summary.Write(output, result, scenario.Warnings));
        folder.Add("metrics.csv", output => MetricsTable.Write(output, result));
        if (seeds.Count > 0)
            folder.Add("seeds.csv", output => SeedsTable.Write(output, seeds));
    }

    /// <summary>Adds the time histories, a file a layout.</summary>
    public static void AddHistories(OutputFolder folder, RecordedComparison result, CancellationToken cancellation)
    {
        var names = new SafeFileNames();
        foreach (var layout in result.Layouts)
        {
            cancellation.ThrowIfCancellationRequested();
            folder.Add($"history-{names.Allocate(layout.Name)}.csv", output => HistoryTable.Write(output, layout.History));
        }
    }
}

/// <summary>A folder of results.</summary>
/// <param name="Path">Its path, as the user gave it.</param>
/// <param name="Files">The names of the files.</param>
internal sealed record WrittenFolder(string Path, IReadOnlyList<string> Files);
