namespace RollRide.DataFiles;

/// <summary>Makes text from a file or a command line fit to be shown on one line.</summary>
public static class OneLine
{
    /// <summary>The text with a mark in place of each control character: they would break the line, or steer the terminal that shows it.</summary>
    /// <param name="text">Any text.</param>
    public static string Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Any(IsControl) ? string.Concat(text.Select(c => IsControl(c) ? '�' : c)) : text;
    }

    /// <summary>The text on one line, cut in its middle where it is longer than a limit: beginning and end tell most.</summary>
    /// <param name="text">Any text.</param>
    /// <param name="longest">The most characters, at least 3.</param>
    public static string Of(string text, int longest)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length <= longest)
            return Of(text);
        var tail = (longest - 1) / 2;
        return $"{Of(text[..(longest - 1 - tail)])}…{Of(text[^tail..])}";
    }

    // The separators of lines and paragraphs are no control characters, but some terminals break a line there.
    private static bool IsControl(char c) => char.IsControl(c) || c is '\u2028' or '\u2029';
}
