using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.ComponentModel;
using System.Reflection;

namespace RollRide.DataFiles;

/// <summary>
/// The keys that a record of a file has, taken from its properties and their attributes: the one source of the binder, the
/// JSON Schema and the key reference, which therefore agree.
/// </summary>
/// <remarks>Immutable and thread-safe; made once for each type.</remarks>
internal sealed class RecordContract
{
    private static readonly ConcurrentDictionary<Type, RecordContract> Known = new();

    private readonly Type _type;

    private RecordContract(Type type)
    {
        _type = type;
        Name = NameOf(type);
        Description = type.GetCustomAttribute<DescriptionAttribute>()?.Description;
        var defaults = Create();
        Keys =
        [
            .. type.GetProperties(BindingFlags.Public | BindingFlags.Instance)
                .Where(property => property.CanWrite)
                .Select(property => new KeyContract(property, defaults)),
        ];
        Alternatives = [.. type.GetCustomAttributes<AlternativesAttribute>()];
        RequireConsistentKeys();
    }

    /// <summary>The record's name: that of its type, without "Dto" or "File" at the end.</summary>
    public string Name { get; }

    /// <summary>What the record is, from its <see cref="DescriptionAttribute"/>; null when it has none.</summary>
    public string? Description { get; }

    /// <summary>The keys, in the order of the properties.</summary>
    public ImmutableArray<KeyContract> Keys { get; }

    /// <summary>The key of a name; null when there is none.</summary>
    /// <param name="name">The name.</param>
    public KeyContract? Find(string name)
    {
        foreach (var key in Keys)
        {
            if (key.Name == name)
                return key;
        }

        return null;
    }

    /// <summary>The sets of keys that exclude each other.</summary>
    public ImmutableArray<AlternativesAttribute> Alternatives { get; }

    /// <summary>The contract of a type of record.</summary>
    /// <param name="type">The type.</param>
    /// <exception cref="InvalidOperationException">The type's properties or attributes make no sense as a record of a file.</exception>
    public static RecordContract Of(Type type) => Known.GetOrAdd(type, static t => new RecordContract(t));

    /// <summary>A record with every optional property at its default; required ones are still to be set.</summary>
    public object Create() => Activator.CreateInstance(_type)!;

    /// <summary>This record and all that it holds, each once, nearest first.</summary>
    public ImmutableArray<RecordContract> WithNested()
    {
        List<RecordContract> found = [this];
        for (var i = 0; i < found.Count; i++)
        {
            foreach (var key in found[i].Keys)
            {
                if (key.Value.Record is { } nested && !found.Contains(nested)) found.Add(nested);
            }
        }

        if (found.GroupBy(record => record.Name).FirstOrDefault(group => group.Count() > 1) is { } clash)
            throw new InvalidOperationException($"Two records of one file are both named {clash.Key}.");
        return [.. found];
    }

    private static string NameOf(Type type)
    {
        var ending = Array.Find(["Dto", "File"], ending => type.Name.EndsWith(ending, StringComparison.Ordinal));
        return ending is null ? type.Name : type.Name[..^ending.Length];
    }

    private void RequireConsistentKeys()
    {
        if (Keys.GroupBy(key => key.Name).FirstOrDefault(group => group.Count() > 1) is { } twice)
            throw new InvalidOperationException($"{_type.Name} has the key {twice.Key} twice.");
        var optional = Keys.Where(key => !key.IsRequired && key.Default is null).Select(key => key.Name);
        if (Alternatives.SelectMany(set => set.Keys).Except(optional).FirstOrDefault() is { } wrong)
            throw new InvalidOperationException($"{_type.Name} has no key {wrong} that is optional and without a default.");
    }
}
