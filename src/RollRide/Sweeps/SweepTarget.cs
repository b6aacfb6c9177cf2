using System.Globalization;

namespace RollRide.Sweeps;

/// <summary>A limit that a metric should keep.</summary>
/// <param name="Metric">Key of the metric.</param>
/// <param name="Limit">The limit, in the metric's unit.</param>
/// <param name="IsUpper">Whether the metric should not be above it; otherwise not below.</param>
public sealed record SweepTarget(string Metric, double Limit, bool IsUpper)
{
    /// <summary>Whether a value misses it.</summary>
    /// <param name="value">The value; NaN, a metric that is not defined, misses.</param>
    public bool IsMissedBy(double value) => IsUpper ? !(value <= Limit) : !(value >= Limit);

    /// <summary>The limit in words: <c>at most 40</c>.</summary>
    public string Words => string.Create(CultureInfo.InvariantCulture, $"at {(IsUpper ? "most" : "least")} {Limit}");
}
