using System.Collections.Frozen;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>The files of a scenario whose text was edited: some stand in memory alone, and the edits may not lead out of the scenario's folder.</summary>
internal sealed class EditedFiles
{
    private readonly string _folder;
    private readonly FrozenSet<(string Key, string Name)> _named;

    /// <summary>Takes what was there before the edits.</summary>
    /// <param name="scenario">The scenario file.</param>
    /// <param name="written">The scenario before the edits: a file that it names itself stays readable wherever it lies.</param>
    /// <param name="added">The files that stand in memory alone.</param>
    public EditedFiles(string scenario, LocatedNode written, IEnumerable<AddedCurve> added)
    {
        _folder = Path.GetDirectoryName(scenario) ?? "";
        _named = TextsOf(written).ToFrozenSet();
        Added = added.ToFrozenDictionary(curve => Path.Combine(_folder, curve.Name));
    }

    /// <summary>The files that stand in memory alone, by the paths that they will have.</summary>
    public FrozenDictionary<string, AddedCurve> Added { get; }

    /// <summary>Whether the scenario before the edits names a file.</summary>
    /// <param name="key">The key that names it.</param>
    /// <param name="name">The file as named there.</param>
    public bool Names(string key, string name) => _named.Contains((key, name));

    /// <summary>Why a file may not be read; null where it may.</summary>
    /// <param name="path">The key that names it.</param>
    /// <param name="name">The file as named there.</param>
    public string? WhyRefused(string path, string name) =>
        Names(path[(path.LastIndexOf('.') + 1)..], name) || IsInFolder(name) ? null
            : "the file lies outside the scenario's folder; only a file within it can be named here, behind no link, or one that the scenario on disk names already";

    private bool IsInFolder(string name)
    {
        if (name.Contains('\0') || Path.IsPathRooted(name))
            return false;
        var folder = Path.GetFullPath(_folder.Length == 0 ? "." : _folder);
        var path = Path.GetFullPath(Path.Combine(folder, name));
        return path.StartsWith(Path.EndsInDirectorySeparator(folder) ? folder : folder + Path.DirectorySeparatorChar, StringComparison.Ordinal) && !HasLink(path, folder);
    }

    /// <summary>Whether a file, or a folder between it and the scenario's, is a link: it may lead anywhere.</summary>
    private static bool HasLink(string path, string folder)
    {
        for (var at = path; at.Length > folder.Length; at = Path.GetDirectoryName(at)!)
        {
            if (new FileInfo(at).LinkTarget is not null)
                return true;
        }

        return false;
    }

    private static IEnumerable<(string Key, string Name)> TextsOf(LocatedNode node) =>
        node is { Kind: LocatedKind.Text, Key: { } key } ? [(key, node.Text!)] : node.Children.SelectMany(TextsOf);
}
