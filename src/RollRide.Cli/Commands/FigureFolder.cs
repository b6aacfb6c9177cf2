using RollRide.DataFiles;
using RollRide.Plots;

namespace RollRide.Cli.Commands;

/// <summary>Adds figures to a folder of results.</summary>
internal static class FigureFolder
{
    /// <summary>Draws the figures on the machine's cores and writes the folder, all files or none.</summary>
    public static WrittenFolder Write(string path, IReadOnlyList<Figure> figures, CancellationToken cancellation, params IReadOnlyList<(string Name, Action<TextWriter> Write)> files)
    {
        using var folder = new OutputFolder(path);
        foreach (var (name, write) in files)
            folder.Add(name, write);
        var pictures = new byte[figures.Count][];
        Parallel.For(0, figures.Count, new ParallelOptions { CancellationToken = cancellation }, i => pictures[i] = PngRenderer.Render(figures[i]));
        for (var i = 0; i < figures.Count; i++)
            folder.AddBytes(figures[i].FileName, pictures[i]);
        cancellation.ThrowIfCancellationRequested();
        folder.Commit();
        return new WrittenFolder(path, folder.Names);
    }
}
