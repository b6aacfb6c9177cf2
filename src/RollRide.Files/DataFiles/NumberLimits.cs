using System.Globalization;

namespace RollRide.DataFiles;

/// <summary>The numbers that a key accepts; null where there is no limit.</summary>
internal sealed record NumberLimits
{
    public static NumberLimits None { get; } = new();

    public double? Above { get; init; }

    public double? AtLeast { get; init; }

    public double? Below { get; init; }

    public double? AtMost { get; init; }

    public bool Allow(double value) =>
        !(value <= Above) && !(value < AtLeast) && !(value >= Below) && !(value > AtMost);

    /// <summary>The limits in words, such as "above 0 and at most 2"; empty when there is none.</summary>
    public override string ToString()
    {
        if (this is { AtLeast: { } lowest, AtMost: { } highest, Above: null, Below: null })
            return string.Create(CultureInfo.InvariantCulture, $"from {lowest} to {highest}");
        (string Words, double? Limit)[] limits = [("above", Above), ("at least", AtLeast), ("below", Below), ("at most", AtMost)];
        return string.Join(" and ", limits
            .Where(limit => limit.Limit is not null)
            .Select(limit => string.Create(CultureInfo.InvariantCulture, $"{limit.Words} {limit.Limit}")));
    }
}
