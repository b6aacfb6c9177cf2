using System.Text.RegularExpressions;
using RollRide.Sweeps;

namespace RollRide.Findings;

/// <summary>The parameters of a sweep in words: the last words of their paths, as many as tell them apart, and their units.</summary>
public sealed partial class ParameterNames
{
    private const int FewestWords = 2;

    private readonly Dictionary<string, (string Quantity, string Unit)> _names;

    /// <summary>Names parameters.</summary>
    /// <param name="parameters">All parameters of the sweep.</param>
    public ParameterNames(IReadOnlyList<SweepParameter> parameters)
    {
        ArgumentNullException.ThrowIfNull(parameters);
        var split = parameters.Select(parameter => (parameter.Name, Parts: Split(parameter.Name))).ToArray();
        var longest = split.Max(name => name.Parts.Words.Length);
        var words = Enumerable.Range(FewestWords, Math.Max(1, longest - 1)).First(count =>
            count >= longest || split.Select(name => Last(name.Parts.Words, count)).Distinct().Count() == split.Length);
        _names = split.DistinctBy(name => name.Name).ToDictionary(name => name.Name, name => (Last(name.Parts.Words, words), name.Parts.Unit));
    }

    /// <summary>What a parameter is, and its unit; "" for none.</summary>
    /// <param name="parameter">One of the parameters.</param>
    public (string Quantity, string Unit) this[SweepParameter parameter]
    {
        get
        {
            ArgumentNullException.ThrowIfNull(parameter);
            return _names[parameter.Name];
        }
    }

    /// <summary>What a parameter is, within a sentence.</summary>
    /// <param name="parameter">One of the parameters.</param>
    public string InSentence(SweepParameter parameter)
    {
        var quantity = this[parameter].Quantity;
        return char.ToLowerInvariant(quantity[0]) + quantity[1..];
    }

    /// <summary>The parameter with its unit in brackets.</summary>
    /// <param name="parameter">One of the parameters.</param>
    public string WithUnit(SweepParameter parameter) => this[parameter] is var (quantity, unit) && unit.Length > 0 ? $"{quantity} [{unit}]" : this[parameter].Quantity;

    private static string Last(string[] words, int count)
    {
        var text = string.Join(", ", words[^Math.Min(count, words.Length)..]);
        return char.ToUpperInvariant(text[0]) + text[1..];
    }

    /// <summary>The words of a path, one for each of its keys, and the unit at the end of the last.</summary>
    /// <param name="path">The path.</param>
    internal static (string[] Words, string Unit) Split(string path)
    {
        var keys = Keys().Matches(path).Select(match => (Key: match.Groups["key"].Value, Index: match.Groups["index"].Value)).ToArray();
        var (last, unit) = keys[^1].Key.IndexOf('_', StringComparison.Ordinal) is >= 0 and var at ? (keys[^1].Key[..at], keys[^1].Key[(at + 1)..]) : (keys[^1].Key, "");
        keys[^1].Key = last;
        return ([.. keys.Select(key => key.Index.Length == 0 ? Words(key.Key) : $"{Words(key.Key)} {key.Index}")], UnitOf(unit));
    }

    // bodyEnd → body end
    private static string Words(string key) => Capitals().Replace(key, match => $" {match.Value.ToLowerInvariant()}");

    private static string UnitOf(string key) => key == "percent" ? "%" : key.Replace("_per_", "/", StringComparison.Ordinal).Replace('_', '·').Replace("s2", "s²", StringComparison.Ordinal).Replace("m2", "m²", StringComparison.Ordinal).Replace("m3", "m³", StringComparison.Ordinal);

    // A key and the index or name in brackets behind it, in which dots do not part keys.
    [GeneratedRegex(@"(?<key>[^.\[\]]+)(\[(?<index>[^\]]*)\])?\.?")]
    private static partial Regex Keys();

    [GeneratedRegex("(?<=[a-z])[A-Z]")]
    private static partial Regex Capitals();
}
