using System.Collections.Frozen;

namespace RollRide.DataFiles;

/// <summary>Separates the quantity from the unit in names such as <c>rate_N_per_mm</c>.</summary>
internal static class UnitSuffix
{
    // Units that a file of ours uses, and those that somebody may write in their place.
    private static readonly FrozenSet<string> Parts = new[]
    {
        "mm", "cm", "m", "km", "in", "inch", "ft", "m2", "mm2", "m3", "cm3", "mm3",
        "kg", "g", "t", "lb", "lbs", "kgm2",
        "N", "kN", "Nm", "kNm", "lbf", "kgf", "Ns",
        "Pa", "kPa", "MPa", "bar", "psi",
        "s", "ms", "s2", "min", "h", "Hz", "kHz", "rpm",
        "rad", "deg", "degC", "K", "kmh", "kph", "mph", "percent", "J", "W",
    }.ToFrozenSet();

    /// <summary>The name without its unit: <c>rate</c> for <c>rate_N_per_mm</c>; the name itself when it has none.</summary>
    /// <param name="name">A key or a column.</param>
    public static string StemOf(string name)
    {
        var parts = name.Split('_');
        var end = parts.Length;
        while (end > 1 && (Parts.Contains(parts[end - 1]) || (end < parts.Length && parts[end - 1] == "per"))) end--;
        return string.Join('_', parts[..end]);
    }
}
