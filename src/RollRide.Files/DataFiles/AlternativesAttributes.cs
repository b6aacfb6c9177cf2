using System.Collections.Immutable;

namespace RollRide.DataFiles;

/// <summary>Optional keys of one record that are alternatives: several forms of the same information.</summary>
/// <param name="keys">The keys, at least two.</param>
[AttributeUsage(AttributeTargets.Class, AllowMultiple = true)]
public abstract class AlternativesAttribute(params string[] keys) : Attribute
{
    /// <summary>The keys that are alternatives.</summary>
    public ImmutableArray<string> Keys { get; } = [.. keys];

    /// <summary>Whether one of them has to be there.</summary>
    public abstract bool IsRequired { get; }
}

/// <summary>One of these keys has to be there, and only one.</summary>
/// <param name="keys">The keys, at least two.</param>
public sealed class ExactlyOneOfAttribute(params string[] keys) : AlternativesAttribute(keys)
{
    /// <inheritdoc/>
    public override bool IsRequired => true;
}

/// <summary>One of these keys may be there, or none.</summary>
/// <param name="keys">The keys, at least two.</param>
public sealed class AtMostOneOfAttribute(params string[] keys) : AlternativesAttribute(keys)
{
    /// <inheritdoc/>
    public override bool IsRequired => false;
}
