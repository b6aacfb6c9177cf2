namespace RollRide.DataFiles;

/// <summary>Finds the names a user may have meant by an unknown one.</summary>
public static class NearestName
{
    private const int MostOffered = 3;

    /// <summary>A question naming the nearest known names, or null when none is near.</summary>
    /// <param name="unknown">The name as written.</param>
    /// <param name="known">The names accepted in its place.</param>
    /// <remarks>
    /// A name that differs from known ones only by its unit is offered those first: it is the most likely slip, and a
    /// silent one if it were let through.
    /// </remarks>
    public static string? Ask(string unknown, IEnumerable<string> known)
    {
        var names = known.ToList();
        var stem = UnitSuffix.StemOf(unknown);
        var sameStem = names.Where(name => name != stem && UnitSuffix.StemOf(name) == stem).ToList();
        if (sameStem.Count > 0) return $"the unit is in the key: did you mean {OrList(sameStem)}?";

        var near = names
            .Select(name => (Name: name, Nearest: Math.Max(2, Math.Min(unknown.Length, name.Length) / 3)))
            // At least so many letters are too many or missing; this alone spares the long work for a long name.
            .Where(pair => Math.Abs(unknown.Length - pair.Name.Length) <= pair.Nearest)
            .Select(pair => (pair.Name, pair.Nearest, Distance: EditDistance(unknown, pair.Name)))
            .Where(pair => pair.Distance <= pair.Nearest)
            .Where(pair => pair.Distance < pair.Name.Length)
            .OrderBy(pair => pair.Distance)
            .Take(MostOffered)
            .Select(pair => pair.Name)
            .ToList();
        return near.Count > 0 ? $"did you mean {OrList(near)}?" : null;
    }

    private static string OrList(List<string> names) => string.Join(" or ", names.Take(MostOffered));

    /// <summary>
    /// The number of insertions, deletions and substitutions that turn one text into the other (Levenshtein 1966),
    /// a change of case counting as none.
    /// </summary>
    /// <param name="a">One text.</param>
    /// <param name="b">The other.</param>
    public static int EditDistance(string a, string b)
    {
        var previous = Enumerable.Range(0, b.Length + 1).ToArray();
        var current = new int[b.Length + 1];
        for (var i = 1; i <= a.Length; i++)
        {
            current[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var substitution = char.ToLowerInvariant(a[i - 1]) == char.ToLowerInvariant(b[j - 1]) ? 0 : 1;
                current[j] = Math.Min(previous[j - 1] + substitution, Math.Min(previous[j], current[j - 1]) + 1);
            }

            (previous, current) = (current, previous);
        }

        return previous[b.Length];
    }
}
