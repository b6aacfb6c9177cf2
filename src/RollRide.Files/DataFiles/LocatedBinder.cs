using System.Collections;
using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;

namespace RollRide.DataFiles;

/// <summary>Turns the values of a file into records, by the attributes of their properties (<see cref="KeyAttribute"/>).</summary>
public sealed class LocatedBinder
{
    private const string SchemaKey = "$schema";

    private readonly string _file;
    private readonly FaultList _faults = new();
    private readonly IReadOnlyDictionary<LocatedNode, object> _known;
    private readonly Dictionary<LocatedNode, object>? _bound;

    private LocatedBinder(string file, IReadOnlyDictionary<LocatedNode, object> known, Dictionary<LocatedNode, object>? bound) =>
        (_file, _known, _bound) = (file, known, bound);

    /// <summary>Binds a whole file.</summary>
    /// <typeparam name="T">The record of the root object.</typeparam>
    /// <param name="root">The file's content. The root object may also have a key <c>$schema</c>, for editors.</param>
    /// <param name="file">The name to give in faults.</param>
    /// <exception cref="DataFileException">
    /// Keys are unknown or missing, values are of the wrong kind or outside their limits: all such faults of the file.
    /// </exception>
    public static T Bind<T>(LocatedNode root, string file)
        where T : class => Bind<T>(root, file, ImmutableDictionary<LocatedNode, object>.Empty);

    /// <summary>Binds a file that shares values with one bound before.</summary>
    /// <typeparam name="T">The record of the root object.</typeparam>
    /// <param name="root">The file's content.</param>
    /// <param name="file">The name to give in faults.</param>
    /// <param name="known">What its values were bound to, without a fault; a value found here is not bound again.</param>
    /// <param name="bound">Takes what each value is bound to.</param>
    /// <exception cref="DataFileException">As for a file bound for the first time.</exception>
    internal static T Bind<T>(LocatedNode root, string file, IReadOnlyDictionary<LocatedNode, object> known, Dictionary<LocatedNode, object>? bound = null)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(root);
        var binder = new LocatedBinder(file, known, bound);
        var value = binder.Value(root, new ObjectContract(typeof(T)));
        binder._faults.ThrowIfAny();
        return (T)value!;
    }

    private object? Value(LocatedNode node, ValueContract contract)
    {
        if (_known.TryGetValue(node, out var known))
            return known;
        var value = NewValue(node, contract);
        if (value is not null)
            _bound?.Add(node, value);
        return value;
    }

    // Each of these returns null after noting a fault, so that the rest of the file is still checked.
    private object? NewValue(LocatedNode node, ValueContract contract) => contract switch
    {
        NumberContract number => Number(node, number),
        WholeNumberContract number => WholeNumber(node, number),
        BooleanContract => node.Kind == LocatedKind.Boolean ? node.Text == "true" : Refuse(node, contract),
        TextContract => Text(node, contract),
        NamedContract named => Named(node, named),
        ObjectContract record => Record(node, record),
        ListContract list => List(node, list),
        MapContract map => Map(node, map),
        _ => throw new UnreachableException(),
    };

    private object? Number(LocatedNode node, NumberContract contract) =>
        TryNumber(node, out var value) && double.IsFinite(value) && contract.Limits.Allow(value) ? value : Refuse(node, contract);

    private object? WholeNumber(LocatedNode node, WholeNumberContract contract) =>
        TryNumber(node, out var value) && double.IsInteger(value) && Math.Abs(value) <= int.MaxValue && contract.Limits.Allow(value)
            ? (int)value
            : Refuse(node, contract);

    private object? Text(LocatedNode node, ValueContract contract)
    {
        if (node.Kind != LocatedKind.Text) return Refuse(node, contract);
        return string.IsNullOrWhiteSpace(node.Text) ? Refuse(node, "the text is blank; at least one visible character is expected") : node.Text;
    }

    private object? Named(LocatedNode node, NamedContract contract)
    {
        if (node.Kind != LocatedKind.Text) return Refuse(node, contract);
        if (contract.Values.TryGetValue(node.Text!, out var value)) return value;
        var question = NearestName.Ask(node.Text!, contract.Names);
        return Refuse(node, $"{contract.Accepted} is expected{(question is null ? "" : "; " + question)}");
    }

    private Array? List(LocatedNode node, ListContract contract)
    {
        if (node.Kind != LocatedKind.List) return (Array?)Refuse(node, contract);
        RequireCount(node, contract.Count);
        var items = Array.CreateInstance(contract.Item.Type, node.Children.Length);
        for (var i = 0; i < items.Length; i++)
            items.SetValue(Value(node.Children[i], contract.Item), i);
        return items;
    }

    private IDictionary? Map(LocatedNode node, MapContract contract)
    {
        if (node.Kind != LocatedKind.Object) return (IDictionary?)Refuse(node, contract);
        RequireCount(node, contract.Count);
        var entries = (IDictionary)Activator.CreateInstance(contract.Entries)!;
        foreach (var child in node.Children)
        {
            if (string.IsNullOrWhiteSpace(child.Key)) Refuse(child, "the name is blank; at least one visible character is expected");
            if (Value(child, contract.Item) is { } value) entries.Add(child.Key!, value);
        }

        return entries;
    }

    private object? Record(LocatedNode node, ObjectContract contract)
    {
        if (node.Kind != LocatedKind.Object) return Refuse(node, contract);
        var record = contract.Record.Create();
        foreach (var key in contract.Record.Keys)
        {
            if (node.Find(key.Name) is { } child)
                Set(record, key, child);
            else if (key.IsRequired)
                AddFault(node, Below(node, key.Name), null, $"this key is missing: {key.Description}; {key.Value.Accepted} is expected");
        }

        RefuseUnknownKeys(node, contract.Record);
        foreach (var set in contract.Record.Alternatives) RequireOne(node, set);
        return record;
    }

    private void Set(object record, KeyContract key, LocatedNode node)
    {
        if (Value(node, key.Value) is { } value) key.Set(record, value);
    }

    private void RefuseUnknownKeys(LocatedNode node, RecordContract contract)
    {
        var known = contract.Keys.Select(key => key.Name).ToArray();
        string[]? free = null;
        foreach (var child in node.Children)
        {
            if (contract.Find(child.Key!) is not null)
                continue;
            if (child.Key == SchemaKey && node.Path.Length == 0)
            {
                Value(child, new TextContract());
                continue;
            }

            free ??= [.. known.Where(name => node.Find(name) is null)];
            Refuse(child, $"unknown key; {NearestName.Ask(child.Key!, free) ?? $"known here: {string.Join(", ", known)}"}");
        }
    }

    private void RequireOne(LocatedNode node, AlternativesAttribute set)
    {
        var given = 0;
        foreach (var key in set.Keys)
        {
            if (node.Find(key) is not null)
                given++;
        }

        if (given == 1 || (given == 0 && !set.IsRequired)) return;
        var found = given == 0
            ? "none is here"
            : string.Join(" and ", node.Children.Where(child => set.Keys.Contains(child.Key!)).Select(child => string.Create(CultureInfo.InvariantCulture, $"{child.Key} (line {child.Line})")));
        AddFault(node, PathOf(node), null, $"{(set.IsRequired ? "exactly" : "at most")} one of {string.Join(", ", set.Keys)} is expected; found: {found}");
    }

    private void RequireCount(LocatedNode node, ItemCount count)
    {
        if (count.Allows(node.Children.Length)) return;
        AddFault(node, PathOf(node), null, string.Create(
            CultureInfo.InvariantCulture, $"a list{count} is expected; this has {node.Children.Length}"));
    }

    private static bool TryNumber(LocatedNode node, out double value)
    {
        value = 0;
        return node.Kind == LocatedKind.Number
            && double.TryParse(node.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out value);
    }

    private object? Refuse(LocatedNode node, ValueContract contract)
    {
        var isNumber = contract is NumberContract or WholeNumberContract;
        var advice = node.Kind switch
        {
            LocatedKind.Text when isNumber => ", without quotes",
            LocatedKind.Number when isNumber => "",
            _ => $", not {NameOf(node.Kind)}",
        };
        return Refuse(node, $"{contract.Accepted} is expected{advice}");
    }

    private object? Refuse(LocatedNode node, string reason)
    {
        AddFault(node, PathOf(node), node.Text, reason);
        return null;
    }

    private void AddFault(LocatedNode node, string? path, string? value, string reason) =>
        _faults.Add(new DataFileFault(_file, node.Line, path, value, reason));

    private static string? PathOf(LocatedNode node) => node.Path.Length == 0 ? null : node.Path;

    private static string Below(LocatedNode node, string key) => node.Path.Length == 0 ? key : $"{node.Path}.{key}";

    private static string NameOf(LocatedKind kind) => kind switch
    {
        LocatedKind.Object => "an object",
        LocatedKind.List => "a list",
        LocatedKind.Number => "a number",
        LocatedKind.Text => "a text",
        LocatedKind.Boolean => "true or false",
        _ => "null",
    };
}
