using System.Globalization;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>Finds every number that a scenario has or may have where it stands.</summary>
internal static class NumberAddresses
{
    private const string SweepKey = "sweep";

    /// <summary>All numbers of a scenario, except those that describe a sweep of it.</summary>
    public static IEnumerable<NumberAddress> Of(LocatedNode root) => FieldsOf(root).Select(field => field.Address);

    /// <summary>The same, each with the key that holds it.</summary>
    public static IEnumerable<NumberField> FieldsOf(LocatedNode root) =>
        Keys(root, new ObjectContract(typeof(ScenarioFile)), null, "", "").Where(field => !field.Address.Path.StartsWith(SweepKey + ".", StringComparison.Ordinal));

    /// <summary>Each key that takes one of several names and stands in a record of the file, with the record's path.</summary>
    public static IEnumerable<NameField> NamesOf(LocatedNode root) => NamesOf(root, new ObjectContract(typeof(ScenarioFile)), "", "");

    private static IEnumerable<NameField> NamesOf(LocatedNode node, ValueContract contract, string path, string readable) => contract switch
    {
        ObjectContract record => record.Record.Keys.SelectMany(key => key.Value is NamedContract names
            ? [new NameField(Join(path, key.Name), Join(readable, key.Name), key, names, node.Find(key.Name)?.Text, key.Default is { } usual ? names.NameOf(usual) : null)]
            : node.Find(key.Name) is { } child ? NamesOf(child, key.Value, Join(path, key.Name), Join(readable, key.Name)) : []),
        MapContract map => node.Children.SelectMany(child => NamesOf(child, map.Item, LocatedParser.MemberPath(path, child.Key!), PlainMember(readable, child.Key!))),
        ListContract list => node.Children.SelectMany((child, i) => NamesOf(
            child, list.Item, Item(path, i.ToString(CultureInfo.InvariantCulture)), Item(readable, NameOf(child) ?? i.ToString(CultureInfo.InvariantCulture)))),
        _ => [],
    };

    private static IEnumerable<NumberField> Keys(LocatedNode? node, ObjectContract record, object? fallback, string path, string readable) => record.Record.Keys.SelectMany(key => Below(
        node?.Find(key.Name), key, key.Value, fallback is null ? key.Default : key.Get(fallback), Join(path, key.Name), Join(readable, key.Name)));

    private static IEnumerable<NumberField> Below(LocatedNode? node, KeyContract key, ValueContract contract, object? fallback, string path, string readable) => contract switch
    {
        NumberContract or WholeNumberContract => [new NumberField(new NumberAddress(path, readable, ValueOf(node, fallback)), key, IsWritten: node is not null)],
        ObjectContract record when node is not null || fallback is not null => Keys(node, record, fallback, path, readable),
        MapContract map when node is not null => node.Children.SelectMany(child => Below(
            child, key, map.Item, null, LocatedParser.MemberPath(path, child.Key!), PlainMember(readable, child.Key!))),
        ListContract list when node is not null => node.Children.SelectMany((child, i) => Below(
            child, key, list.Item, null, Item(path, i.ToString(CultureInfo.InvariantCulture)), Item(readable, NameOf(child) ?? i.ToString(CultureInfo.InvariantCulture)))),
        _ => [],
    };

    private static double? ValueOf(LocatedNode? node, object? fallback) =>
        node?.Kind == LocatedKind.Number ? double.Parse(node.Text!, NumberStyles.Float, CultureInfo.InvariantCulture)
        : node is null && fallback is not null ? Convert.ToDouble(fallback, CultureInfo.InvariantCulture)
        : null;

    private static string? NameOf(LocatedNode node) => node.Find("name")?.Text;

    private static string Item(string path, string item) => $"{path}[{item}]";

    private static string Join(string path, string key) => path.Length == 0 ? key : $"{path}.{key}";

    // What a user would write for a name with spaces or dots: without the quotes of the exact path.
    private static string PlainMember(string path, string key)
    {
        var exact = LocatedParser.MemberPath(path, key);
        return exact.EndsWith(']') ? Item(path, key) : exact;
    }
}

/// <summary>One of several names in a scenario, with the key that holds it.</summary>
/// <param name="Path">Its exact path.</param>
/// <param name="ReadablePath">The path as a user would write it.</param>
/// <param name="Key">The key that holds it.</param>
/// <param name="Names">The names that it may be.</param>
/// <param name="Written">What the file says; null where it says nothing.</param>
/// <param name="Usual">What holds where the file says nothing; null where nothing does.</param>
internal sealed record NameField(string Path, string ReadablePath, KeyContract Key, NamedContract Names, string? Written, string? Usual);

/// <summary>A number of a scenario with the key that holds it.</summary>
/// <param name="Address">Its place.</param>
/// <param name="Key">The key that holds it, directly or as an item of a list.</param>
/// <param name="IsWritten">Whether it stands in the file, and does not hold by default.</param>
internal sealed record NumberField(NumberAddress Address, KeyContract Key, bool IsWritten);
