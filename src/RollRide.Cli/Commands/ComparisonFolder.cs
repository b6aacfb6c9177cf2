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
    /// <param name="ride">What was found on random roads besides.</param>
    /// <param name="addMore">Adds what there is besides: time histories, figures.</param>
    /// <param name="cancellation">Stops the writing.</param>
    /// <returns>The path as given and the names of the files.</returns>
    public static WrittenFolder Write(string path, ComparisonResult result, Scenario scenario, RideFindings ride, Action<OutputFolder> addMore, CancellationToken cancellation)
    {
        using var folder = new OutputFolder(path, cancellation);
        AddTables(folder, result, ride);
        addMore(folder);
        return Finish(folder, path, result, scenario, ride);
    }

    /// <summary>Adds the summary and puts all files in place.</summary>
    public static WrittenFolder Finish(OutputFolder folder, string path, ComparisonResult result, Scenario scenario, RideFindings ride)
    {
        var summary = folder.AddSummary("summary.json", output => Summary.Write(output, result, scenario.Warnings, ride.Seeds));
        folder.Commit();
        return new WrittenFolder(path, folder.Names, summary);
    }

    /// <summary>Adds the metrics, and the tables of random roads where there are any.</summary>
    public static void AddTables(OutputFolder folder, ComparisonResult result, RideFindings ride)
    {
        folder.Add("metrics.csv", output => MetricsTable.Write(output, result));
        if (ride.Seeds.Count > 0)
            folder.Add("seeds.csv", output => SeedsTable.Write(output, ride.Seeds));
        if (ride.Linear.Count > 0)
            folder.Add("linear.csv", output => LinearTable.Write(output, ride.Linear));
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
/// <param name="Files">The names of the files, the summary first.</param>
/// <param name="Summary">The text of the summary.</param>
internal sealed record WrittenFolder(string Path, IReadOnlyList<string> Files, string Summary);
