namespace RollRide.DataFiles;

/// <summary>The key in the file that a property is read from, and what it means.</summary>
/// <remarks>
/// The key is required when the property is; otherwise the property's initial value holds when the key is left out. A record
/// of a file is a <c>sealed record</c> with <c>init</c> properties and a constructor without parameters; a property is a
/// <c>double</c>, <c>int</c>, <c>bool</c>, <c>string</c>, enum, another such record or what a <see cref="NamesAttribute"/> lists, an <see cref="IReadOnlyList{T}"/>
/// of these, or an <see cref="IReadOnlyDictionary{TKey, TValue}"/> from names to these.
/// </remarks>
/// <param name="name">The key, with its unit: <c>track_mm</c>.</param>
/// <param name="description">What it means, for whoever writes the file.</param>
[AttributeUsage(AttributeTargets.Property)]
public sealed class KeyAttribute(string name, string description) : Attribute
{
    /// <summary>The key as it stands in the file.</summary>
    public string Name { get; } = name;

    /// <summary>What it means, for whoever writes the file.</summary>
    public string Description { get; } = description;
}
