using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Scenarios;

namespace RollRide.Cli.Commands;

/// <summary>Writes the files and figures of a study, all or none.</summary>
internal static class StudyFolder
{
    /// <summary>Writes the folder, its figures as PNG in the scenario's size.</summary>
    /// <returns>The path as given and the names of the files.</returns>
    public static WrittenFolder Write(
        string path, Scenario scenario, IReadOnlyList<(string Name, Action<TextWriter> Write)> files, IReadOnlyList<Figure> figures, CancellationToken cancellation)
    {
        var size = new PlotSize(scenario.Output.ImageWidthPx, scenario.Output.ImageHeightPx);
        return Write(path, files, folder =>
        {
            foreach (var figure in figures)
            {
                cancellation.ThrowIfCancellationRequested();
                folder.AddBytes(figure.FileName, PngRenderer.Render(figure with { Size = size }));
            }
        }, cancellation);
    }

    /// <summary>Writes the folder.</summary>
    /// <param name="path">The folder's path, as the user gave it.</param>
    /// <param name="files">The files of numbers.</param>
    /// <param name="addFigures">Adds the figures.</param>
    /// <param name="cancellation">Stops the writing.</param>
    /// <returns>The path as given and the names of the files.</returns>
    public static WrittenFolder Write(
        string path, IReadOnlyList<(string Name, Action<TextWriter> Write)> files, Action<OutputFolder> addFigures, CancellationToken cancellation)
    {
        using var folder = new OutputFolder(path);
        foreach (var (name, write) in files)
            folder.Add(name, write);
        addFigures(folder);
        cancellation.ThrowIfCancellationRequested();
        folder.Commit();
        return new WrittenFolder(path, folder.Names);
    }
}
