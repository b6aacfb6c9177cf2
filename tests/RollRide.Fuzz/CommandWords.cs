namespace RollRide.Fuzz;

/// <summary>The command lines that are tried.</summary>
internal static class CommandWords
{
    private const string File = CaseInput.ScenarioName;

    private static readonly string[] Plain = ["--out", "out"];

    // How often each comes up: reading is where faults of input belong, and takes a hundredth of the time of a study.
    private static readonly (int Weight, string[] Words)[] Commands =
    [
        (60, ["check", File]),
        (8, ["window", File, "--no-plots", .. Plain]),
        (8, ["compare", File, "--no-plots", .. Plain]),
        (4, ["simulate", File, "--no-history", .. Plain]),
        (5, ["modes", File, "--no-plots", .. Plain]),
        (5, ["mounts", File, "--no-plots", .. Plain]),
        (4, ["place", File, "--no-plots", .. Plain]),
        (3, ["road", File, "--length", "200", "--no-plots", .. Plain]),
        (1, ["report", File, .. Plain]),
        (1, ["compare", File, .. Plain]),
        (1, ["tune", File, "--no-front", "--no-plots", .. Plain]),
        (1, ["sweep", File, "--design", "latinHypercube", "--samples", "3", "--vary", "vehicle.track_mm=uniform:1500:1700", "--no-plots", .. Plain]),
    ];

    private static readonly string[] Words =
    [
        "", "-", "--", "--out", "--no-plots", "--json", "--quiet", "--format", "svg", "gif", "--size", "640x360", "1x1", "99999999x9", "--dpi", "1e9", "-1", "96", "--layouts",
        "Outboard", "@file", "--length", "1e12", "NaN", "1e-300", "--step", "0", "--seeds", "2", "--linear", "--vary", "vehicle.track_mm=1,2", "vehicle.track_mm=lin:1500:1600:2",
        "--samples", "--threads", "--part", "0/0", "--baseline", "out", "\u001b[31m", "\n", "report.json", "compare",
    ];

    /// <summary>A command, in the proportion of its weight.</summary>
    public static IReadOnlyList<string> Pick(Random random)
    {
        var at = random.Next(Commands.Sum(command => command.Weight));
        foreach (var (weight, words) in Commands)
        {
            at -= weight;
            if (at < 0)
                return words;
        }

        throw new System.Diagnostics.UnreachableException();
    }

    /// <summary>A word put in, taken out or exchanged.</summary>
    public static Change Any(Random random)
    {
        var (place, word, kind) = (random.NextDouble(), Words[random.Next(Words.Length)], random.Next(3));
        return new Change($"the command line: {(kind == 0 ? "without a word" : $"with '{word}'")} at {place:P0}", input =>
        {
            var at = (int)(place * input.Words.Count);
            if (kind != 1 && at < input.Words.Count)
                input.Words.RemoveAt(at);
            if (kind != 0)
                input.Words.Insert(at, word);
        });
    }
}
