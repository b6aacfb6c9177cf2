using System.Globalization;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>Finds every number that a scenario has or may have where it stands.</summary>
internal static class NumberAddresses
{
    private const string SweepKey = "sweep";

    /// <summary>All numbers of a scenario, except those that describe a sweep of it.</summary>
    public static IEnumerable<NumberAddress> Of(LocatedNode root) =>
        Below(root, new ObjectContract(typeof(ScenarioFile)), null, "", "").Where(address => !address.Path.StartsWith(SweepKey + ".", StringComparison.Ordinal));

    private static IEnumerable<NumberAddress> Below(LocatedNode? node, ValueContract contract, object? fallback, string path, string readable) => contract switch
    {
        NumberContract or WholeNumberContract => [new NumberAddress(path, readable, ValueOf(node, fallback))],
        ObjectContract record when node is not null || fallback is not null => record.Record.Keys.SelectMany(key => Below(
            node?.Find(key.Name), key.Value, fallback is null ? key.Default : key.Get(fallback), Join(path, key.Name), Join(readable, key.Name))),
        MapContract map when node is not null => node.Children.SelectMany(child => Below(
            child, map.Item, null, LocatedParser.MemberPath(path, child.Key!), PlainMember(readable, child.Key!))),
        ListContract list when node is not null => node.Children.SelectMany((child, i) => Below(
            child, list.Item, null, Item(path, i.ToString(CultureInfo.InvariantCulture)), Item(readable, NameOf(child) ?? i.ToString(CultureInfo.InvariantCulture)))),
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
