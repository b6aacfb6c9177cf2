using System.CommandLine;
using RollRide.Dynamics;
using RollRide.Studies;

namespace RollRide.Cli.Terminals;

/// <summary>Says what a user can change where the memory is not enough.</summary>
internal static class MemoryAdvice
{
    private const double Gigabyte = 1e9;

    // The first of them concern time histories.
    private const int HistoryAdvice = 3;

    // By the option that a command must have.
    private static readonly (string Option, string Advice)[] ByOption =
    [
        ("--no-history", "lower output.rate_Hz or leave the time histories out with --no-history"),
        ("--baseline", "lower output.rate_Hz"),
        ("--layouts", "run fewer layouts at once with --layouts"),
        ("--length", "look at less of the road with --length, or at fewer samples with --step"),
        ("--samples", "run fewer samples with --samples, or fewer variants at once with --threads"),
        ("--size", "draw smaller figures with --size"),
    ];

    /// <summary>What helps with a command, as the end of a sentence.</summary>
    /// <param name="command">The command.</param>
    public static string For(Command command) => For(command, ByOption);

    /// <summary>Refuses, before they are recorded, time histories that the memory cannot hold.</summary>
    /// <param name="study">The case.</param>
    /// <param name="command">The command, for its advice.</param>
    /// <param name="available">The memory of the process, bytes.</param>
    /// <exception cref="InsufficientMemoryException">It cannot.</exception>
    public static void RequireRoomForHistories(StudyCase study, Command command, long available)
    {
        var (duration, rate, layouts, loads) = (study.Manoeuvre.Duration, study.HistoryRate, study.Layouts.Length, study.InEachLoad.Length);
        var needed = duration * rate * Enum.GetValues<Channel>().Length * sizeof(double) * layouts * loads;
        if (needed > available)
        {
            var inLoads = loads == 1 ? "" : $" in {loads} load states";
            var advice = ByOption.Take(HistoryAdvice);
            if (loads > 1)
                advice = advice.Append(("--load", "run fewer load states at once with --load"));
            throw new InsufficientMemoryException(FormattableString.Invariant(
                $"The time histories of {layouts} layout{(layouts == 1 ? "" : "s")}{inLoads} over {duration:0.###} s at {rate:0.###} Hz take {needed / Gigabyte:0.0} GB of memory, and there are {available / Gigabyte:0.0} GB: {For(command, advice)}."));
        }
    }

    /// <summary>The memory that this process may use, bytes.</summary>
    public static long Available => GC.GetGCMemoryInfo().TotalAvailableMemoryBytes;

    private static string For(Command command, IEnumerable<(string Option, string Advice)> known)
    {
        string[] advice = [.. known.Where(entry => command.Options.Any(option => option.Name == entry.Option)).Select(entry => entry.Advice)];
        return advice.Length == 0 ? "use a machine with more memory" : string.Join("; ", advice);
    }
}
