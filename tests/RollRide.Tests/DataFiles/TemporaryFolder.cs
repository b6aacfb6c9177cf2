namespace RollRide.Tests.DataFiles;

/// <summary>A folder of its own for one test, removed afterwards.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("rollride-test-");

    public string this[string name] => Path.Combine(_folder.FullName, name);

    /// <summary>Everything in the folder, hidden files included, as paths relative to it, sorted.</summary>
    public string[] Entries =>
        [.. Directory.EnumerateFileSystemEntries(_folder.FullName, "*", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(_folder.FullName, path))
            .Order(StringComparer.Ordinal)];

    public string Write(string name, string text)
    {
        File.WriteAllText(this[name], text);
        return this[name];
    }

    public void Dispose() => _folder.Delete(recursive: true);
}
