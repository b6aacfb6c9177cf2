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

    /// <summary>The fault on one line: <c>file:line: key = value: reason</c>, without the parts that are null.</summary>
    public override string ToString()
    {
        var text = new StringBuilder(OnOneLine(File));
        if (Line is { } line) text.Append(CultureInfo.InvariantCulture, $":{line}");
        if (Key is not null) text.Append(": ").Append(OnOneLine(Key));
        if (Value is not null) text.Append(Key is null ? ": " : " = ").Append(Shortened(Value));
        return text.Append(": ").Append(OnOneLine(Reason)).ToString();
    }

    private static string Shortened(string value) => value.Length switch
    {
        0 => "\"\"",
        > LongestValue => OnOneLine(value[..(LongestValue - 1)]) + "…",
        _ => OnOneLine(value),
    };

    // Text from a file must not break the line, nor steer the terminal it is printed on.
    private static string OnOneLine(string text) =>
        text.Any(char.IsControl) ? string.Concat(text.Select(c => char.IsControl(c) ? '�' : c)) : text;
}
