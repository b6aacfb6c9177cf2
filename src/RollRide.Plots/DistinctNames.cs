namespace RollRide.Plots;

/// <summary>Shortens names so that each fits its place and no two of them look alike.</summary>
public static class DistinctNames
{
    private const string Gap = "…";

    // Letters kept before a gap, so that a shortened name can still be found in a list of the full ones; fewer where it is very narrow.
    private const int LeastStart = 8;
    private static readonly int[] LeastStarts = [LeastStart, 4, 1];
    private static readonly char[] Punctuation = [' ', ',', ';', ':', '.', '-', '–'];

    // A word longer than this, before the letter that tells two names apart, is not worth its room.
    private const int LongWord = 12;

    /// <summary>
    /// Shortens those that do not fit: at the end where that keeps the word that tells a name from the others, otherwise in the middle,
    /// before that word. Names that would look alike even then are numbered.
    /// </summary>
    /// <param name="names">The names, as they stand side by side; equal ones stay equal.</param>
    /// <param name="fits">Whether a text fits.</param>
    /// <returns>One text for each name.</returns>
    public static IReadOnlyList<string> Shorten(IReadOnlyList<string> names, Func<string, bool> fits)
    {
        ArgumentNullException.ThrowIfNull(names);
        ArgumentNullException.ThrowIfNull(fits);
        var different = names.Distinct().ToArray();
        var cut = different.ToDictionary(name => name, name => fits(name) ? name : Cut(name, Departure(name, different), fits));
        return [.. names.Select(name => cut[name] is { } text && cut.Values.Count(other => other == text) == 1
            ? text
            : CutAtEnd(FormattableString.Invariant($"{Array.IndexOf(different, name) + 1}: {name}"), fits))];
    }

    /// <summary>Shortens a text at its end until it fits.</summary>
    internal static string CutAtEnd(string text, Func<string, bool> fits) =>
        fits(text) ? text : Start(text, Longest(text.Length - 1, length => fits(Start(text, length))));

    /// <summary>The first letter in which a name departs from the one most like it.</summary>
    private static int Departure(string name, string[] others) =>
        others.Where(other => other != name).Select(other => name.AsSpan().CommonPrefixLength(other)).DefaultIfEmpty().Max();

    /// <summary>Null where no cut keeps the word that tells the name from the others.</summary>
    private static string? Cut(string name, int departure, Func<string, bool> fits)
    {
        var last = Math.Max(0, Math.Min(departure, name.Length - 1));
        var wordStart = last == 0 ? 0 : name.LastIndexOf(' ', last - 1) + 1;
        var wordEnd = name.IndexOf(' ', last) is var space and >= 0 ? space : name.Length;
        if (CutAtEnd(name, fits) is var atEnd && atEnd.Length - Gap.Length >= wordEnd)
            return atEnd;
        var from = last - wordStart > LongWord ? last : wordStart;
        var tail = name[(from > 0 && char.IsLowSurrogate(name[from]) ? from - 1 : from)..];
        if (fits(Start(name, LeastStart) + tail))
            return Start(name, Longest(from, length => fits(Start(name, length) + tail))) + tail;
        return LeastStarts.Select(length => CutAtEnd(Start(name, length) + tail, fits))
            .FirstOrDefault(cut => cut.Contains(tail[..(Math.Min(wordEnd, from + LongWord) - from)].TrimEnd(Punctuation), StringComparison.Ordinal));
    }

    private static string Start(string text, int length)
    {
        var whole = length > 0 && length < text.Length && char.IsHighSurrogate(text[length - 1]) ? length - 1 : length;
        return text[..Math.Min(whole, text.Length)].TrimEnd(Punctuation) + Gap;
    }

    /// <summary>The largest length up to a limit that fits; 0 where none does.</summary>
    private static int Longest(int most, Func<int, bool> fits)
    {
        var (good, bad) = (0, most + 1);
        while (bad - good > 1)
        {
            var middle = (good + bad) / 2;
            (good, bad) = fits(middle) ? (middle, bad) : (good, middle);
        }

        return good;
    }
}
