using System.Globalization;
using System.Text;

namespace RollRide.DataFiles;

/// <summary>One thing wrong in a file: where it stands, what stands there, and what would be accepted.</summary>
/// <param name="File">The file's path, as the user gave it.</param>
/// <param name="Line">The line, counted from 1; null when the fault is of the whole file.</param>
/// <param name="Key">The key's path (<c>vehicle.body.mass_kg</c>) or the column's name; null when there is none.</param>
/// <param name="Value">The value as written; null when there is none or it is not a single value.</param>
/// <param name="Reason">What is wrong and what is accepted.</param>
public sealed record DataFileFault(string File, int? Line, string? Key, string? Value, string Reason)
{
    // Long enough for any number or name, short enough for one line of a terminal.
    private const int LongestValue = 60;

    // Twice the longest path of our own keys; what is longer holds a name that a user chose.
    private const int LongestKey = 160;

    // Room for every list of what is known that a reason can hold.
    private const int LongestReason = 6000;

    /// <summary>The fault on one line: <c>file:line: key = value: reason</c>, without the parts that are null.</summary>
    public override string ToString()
    {
        var text = new StringBuilder(OneLine.Of(File));
        if (Line is { } line) text.Append(CultureInfo.InvariantCulture, $":{line}");
        if (Key is not null) text.Append(": ").Append(OneLine.Of(Key, LongestKey));
        if (Value is not null) text.Append(Key is null ? ": " : " = ").Append(Shortened(Value));
        return text.Append(": ").Append(OneLine.Of(Reason, LongestReason)).ToString();
    }

    private static string Shortened(string value) => value.Length switch
    {
        0 => "\"\"",
        > LongestValue => OneLine.Of(value[..(LongestValue - 1)]) + "…",
        _ => OneLine.Of(value),
    };
}
