using System.Globalization;
using System.Text;

namespace RollRide.DataFiles;

/// <summary>Makes file names from names that users chose, such as those of layouts.</summary>
/// <remarks>Mutable and not thread-safe: one per output folder; it remembers the names it gave.</remarks>
public sealed class SafeFileNames
{
    // Leaves room for a prefix, a suffix and an extension below the 255 bytes of common file systems, at 3 bytes a letter.
    private const int LongestName = 60;

    // Names that Windows keeps for devices, whatever the extension.
    private static readonly HashSet<string> Devices = new(
        ["con", "prn", "aux", "nul", .. Enumerable.Range(1, 9).SelectMany(i => new[] { $"com{i}", $"lpt{i}" })],
        StringComparer.OrdinalIgnoreCase);

    private readonly HashSet<string> _given = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>
    /// A name of letters, digits and single dashes, never empty and without an extension: <c>Outboard, soft</c> becomes
    /// <c>Outboard-soft</c>. Different names can become the same; see <see cref="Allocate"/>.
    /// </summary>
    /// <param name="name">Any text.</param>
    public static string Clean(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var cleaned = new StringBuilder();
        foreach (var rune in name.EnumerateRunes())
        {
            if (cleaned.Length >= LongestName) break;
            if (Rune.IsLetterOrDigit(rune)) cleaned.Append(rune);
            else if (cleaned.Length > 0 && cleaned[^1] != '-') cleaned.Append('-');
        }

        var result = cleaned.ToString().TrimEnd('-');
        if (result.Length == 0) return "unnamed";
        return IsDevice(result) ? result + "-file" : result;
    }

    /// <summary>Whether a name without an extension is one that Windows keeps for a device.</summary>
    /// <param name="stem">The name.</param>
    internal static bool IsDevice(string stem) => Devices.Contains(stem);

    /// <summary>A clean name that this object has not given before, compared without case: a number is appended if need be.</summary>
    /// <param name="name">Any text.</param>
    public string Allocate(string name)
    {
        var clean = Clean(name);
        var candidate = clean;
        for (var n = 2; !_given.Add(candidate); n++)
            candidate = string.Create(CultureInfo.InvariantCulture, $"{clean}-{n}");
        return candidate;
    }
}
