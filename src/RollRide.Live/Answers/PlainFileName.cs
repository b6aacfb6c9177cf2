using RollRide.DataFiles;

namespace RollRide.Live.Answers;

/// <summary>Names that a page may give to files: plain on every system, and in one folder.</summary>
internal static class PlainFileName
{
    // Leaves room for a temporary suffix below the 255 bytes of common file systems, at up to 3 bytes a letter.
    private const int Longest = 70;

    private const string Forbidden = "/\\:*?\"<>|";

    /// <summary>Whether something has a name already. A link that leads to nothing has it too: what is written there would come to stand elsewhere.</summary>
    /// <param name="path">The path.</param>
    public static bool IsTaken(string path) => Path.Exists(path) || new FileInfo(path).LinkTarget is not null;

    /// <summary>Why a name is not accepted; null where it is.</summary>
    /// <param name="name">The name.</param>
    /// <param name="extension">The extension that it must have, with its dot.</param>
    public static string? WhyNot(string name, string extension)
    {
        if (name.Length > Longest)
            return $"the name is longer than {Longest} characters";
        if (name.Any(letter => char.IsControl(letter) || char.IsSurrogate(letter) || Forbidden.Contains(letter, StringComparison.Ordinal)))
            return "a name holds no control characters, no pictographs and none of / \\ : * ? \" < > |: it is a plain name in the scenario's own folder";
        if (!name.EndsWith(extension, StringComparison.OrdinalIgnoreCase))
            return $"the name must end with {extension}";
        var stem = name[..^extension.Length];
        if (stem.Length == 0 || stem[0] == '.' || stem[0] == ' ' || stem[^1] is '.' or ' ')
            return "a name neither begins with a dot or a space nor has one before its extension";
        return SafeFileNames.IsDevice(stem.Split('.')[0]) ? "this name belongs to a device on some systems" : null;
    }
}
