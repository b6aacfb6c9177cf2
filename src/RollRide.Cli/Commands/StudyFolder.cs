using RollRide.DataFiles;

namespace RollRide.Cli.Commands;

/// <summary>Writes the files and figures of a study, all or none.</summary>
internal static class StudyFolder
{
    /// <summary>Writes the folder.</summary>
    /// <param name="path">The folder's path, as the user gave it.</param>
    /// <param name="summary">The summary, a JSON object.</param>
    /// <param name="files">The other files of numbers.</param>
    /// <param name="addFigures">Adds the figures.</param>
    /// <param name="cancellation">Stops the writing.</param>
    /// <returns>The path as given and the names of the files.</returns>
    public static WrittenFolder Write(
        string path, (string Name, Action<TextWriter> Write) summary, IReadOnlyList<(string Name, Action<TextWriter> Write)> files, Action<OutputFolder> addFigures,
        CancellationToken cancellation)
    {
        using var folder = new OutputFolder(path, cancellation);
        foreach (var (name, write) in files)
            folder.Add(name, write);
        addFigures(folder);
        var text = folder.AddSummary(summary.Name, summary.Write);
        folder.Commit();
        return new WrittenFolder(path, folder.Names, text);
    }
}
