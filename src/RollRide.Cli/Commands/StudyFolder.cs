using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Scenarios;

namespace RollRide.Cli.Commands;

/// <summary>Writes the files and figures of a study, all or none.</summary>
internal static class StudyFolder
{
    /// <summary>Writes the folder.</summary>
    /// <returns>The path as given and the names of the files.</returns>
    public static WrittenFolder Write(
        string path, Scenario scenario, IReadOnlyList<(string Name, Action<TextWriter> Write)> files, IReadOnlyList<Figure> figures, CancellationToken cancellation)
    {
        using var folder = new OutputFolder(path);
        foreach (var (name, write) in files)
            folder.Add(name, write);
        var size = new PlotSize(scenario.Output.ImageWidthPx, scenario.Output.ImageHeightPx);
        foreach (var figure in figures)
        {
            cancellation.ThrowIfCancellationRequested();
            folder.AddBytes(figure.FileName, PngRenderer.Render(figure with { Size = size }));
        }

        cancellation.ThrowIfCancellationRequested();
        folder.Commit();
        return new WrittenFolder(path, folder.Names);
    }
}
