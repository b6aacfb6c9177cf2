namespace RollRide.DataFiles;

/// <summary>Limits the numbers that a key accepts; on a list, each of its numbers.</summary>
[AttributeUsage(AttributeTargets.Property)]
public abstract class LimitAttribute : Attribute
{
    internal abstract NumberLimits Narrow(NumberLimits limits);
}

/// <summary>Accepts numbers greater than a limit.</summary>
/// <param name="limit">The limit, in the key's unit.</param>
public sealed class AboveAttribute(double limit) : LimitAttribute
{
    /// <summary>The limit, in the key's unit.</summary>
    public double Limit { get; } = limit;

    internal override NumberLimits Narrow(NumberLimits limits) => limits with { Above = Limit };
}

/// <summary>Accepts a limit and numbers greater than it.</summary>
/// <param name="limit">The limit, in the key's unit.</param>
public sealed class AtLeastAttribute(double limit) : LimitAttribute
{
    /// <summary>The limit, in the key's unit.</summary>
    public double Limit { get; } = limit;

    internal override NumberLimits Narrow(NumberLimits limits) => limits with { AtLeast = Limit };
}

/// <summary>Accepts numbers less than a limit.</summary>
/// <param name="limit">The limit, in the key's unit.</param>
public sealed class BelowAttribute(double limit) : LimitAttribute
{
    /// <summary>The limit, in the key's unit.</summary>
    public double Limit { get; } = limit;

    internal override NumberLimits Narrow(NumberLimits limits) => limits with { Below = Limit };
}

/// <summary>Accepts a limit and numbers less than it.</summary>
/// <param name="limit">The limit, in the key's unit.</param>
public sealed class AtMostAttribute(double limit) : LimitAttribute
{
    /// <summary>The limit, in the key's unit.</summary>
    public double Limit { get; } = limit;

    internal override NumberLimits Narrow(NumberLimits limits) => limits with { AtMost = Limit };
}

/// <summary>Accepts two limits and the numbers between them.</summary>
/// <param name="lowest">The lowest number accepted, in the key's unit.</param>
/// <param name="highest">The highest number accepted, in the key's unit.</param>
public sealed class BetweenAttribute(double lowest, double highest) : LimitAttribute
{
    /// <summary>The lowest number accepted, in the key's unit.</summary>
    public double Lowest { get; } = lowest;

    /// <summary>The highest number accepted, in the key's unit.</summary>
    public double Highest { get; } = highest;

    internal override NumberLimits Narrow(NumberLimits limits) => limits with { AtLeast = Lowest, AtMost = Highest };
}
