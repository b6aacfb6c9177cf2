using System.Collections.Concurrent;
using RollRide.Tests.DataFiles;

[assembly: AssemblyFixture(typeof(NoFolderLeft))]

namespace RollRide.Tests.DataFiles;

/// <summary>A folder of its own for one test, removed afterwards.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("rollride-test-");

    public TemporaryFolder() => NoFolderLeft.Open[_folder.FullName] = Environment.StackTrace;

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

    /// <summary>Puts a new file in the place of an old one, as many editors save: nobody sees it half written.</summary>
    public void Replace(string name, string text) => File.Move(Write($"{name}~", text), this[name], overwrite: true);

    public void Dispose()
    {
        _folder.Delete(recursive: true);
        NoFolderLeft.Open.TryRemove(_folder.FullName, out _);
    }
}

/// <summary>After the last test no folder may be left; a run that leaves one fails, and tells where it was made.</summary>
public sealed class NoFolderLeft : IDisposable
{
    internal static ConcurrentDictionary<string, string> Open { get; } = new(StringComparer.Ordinal);

    /// <summary>Looks for what was left.</summary>
    public void Dispose() => Assert.Empty(Open);
}
