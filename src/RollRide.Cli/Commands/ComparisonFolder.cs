using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Writes the files of a comparison, all or none.</summary>
internal static class ComparisonFolder
{
    /// <summary>Writes the folder.</summary>
    /// <returns>The path as given and the names of the files.</returns>
    public static WrittenFolder Write(string path, ComparisonResult result, Scenario scenario, IReadOnlyList<SeededRuns> seeds, bool withPlots, CancellationToken cancellation)
    {
        using var folder = new OutputFolder(path);
        folder.Add("summary.json", output => Summary.Write(output, result, scenario.Warnings));
        folder.Add("metrics.csv", output => MetricsTable.Write(output, result));
        if (seeds.Count > 0)
            folder.Add("seeds.csv", output => SeedsTable.Write(output, seeds));
        var names = new SafeFileNames();
        foreach (var layout in result.Layouts)
        {
            cancellation.ThrowIfCancellationRequested();
            folder.Add($"history-{names.Allocate(layout.Name)}.csv", output => HistoryTable.Write(output, layout.History));
        }

        if (withPlots)
        {
            var size = new PlotSize(scenario.Output.ImageWidthPx, scenario.Output.ImageHeightPx);
            var figures = ComparisonFigures.All(result, size);
            var pictures = new byte[figures.Count][];
            Parallel.For(0, figures.Count, new ParallelOptions { CancellationToken = cancellation }, i => pictures[i] = PngRenderer.Render(figures[i]));
            for (var i = 0; i < figures.Count; i++)
                folder.AddBytes(figures[i].FileName, pictures[i]);
        }

        cancellation.ThrowIfCancellationRequested();
        folder.Commit();
        return new WrittenFolder(path, folder.Names);
    }
}

/// <summary>A folder of results.</summary>
/// <param name="Path">Its path, as the user gave it.</param>
/// <param name="Files">The names of the files.</param>
internal sealed record WrittenFolder(string Path, IReadOnlyList<string> Files);
