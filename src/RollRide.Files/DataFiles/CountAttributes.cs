namespace RollRide.DataFiles;

/// <summary>The fewest items that a list or a set of named entries has.</summary>
/// <param name="count">The fewest items accepted.</param>
[AttributeUsage(AttributeTargets.Property)]
public sealed class MinCountAttribute(int count) : Attribute
{
    /// <summary>The fewest items accepted.</summary>
    public int Count { get; } = count;
}

/// <summary>The most items that a list or a set of named entries has.</summary>
/// <param name="count">The most items accepted.</param>
[AttributeUsage(AttributeTargets.Property)]
public sealed class MaxCountAttribute(int count) : Attribute
{
    /// <summary>The most items accepted.</summary>
    public int Count { get; } = count;
}
