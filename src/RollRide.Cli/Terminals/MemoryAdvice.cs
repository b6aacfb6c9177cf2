using System.CommandLine;

namespace RollRide.Cli.Terminals;

/// <summary>Says what a user can change where the memory is not enough.</summary>
internal static class MemoryAdvice
{
    // By the option that a command must have.
    private static readonly (string Option, string Advice)[] ByOption =
    [
        ("--layouts", "run fewer layouts at once with --layouts"),
        ("--length", "look at less of the road with --length, or at fewer samples with --step"),
        ("--samples", "run fewer samples with --samples, or fewer variants at once with --threads"),
        ("--size", "draw smaller figures with --size"),
    ];

    /// <summary>What helps with a command, as the end of a sentence.</summary>
    /// <param name="command">The command.</param>
    public static string For(Command command)
    {
        string[] advice = [.. ByOption.Where(entry => command.Options.Any(option => option.Name == entry.Option)).Select(entry => entry.Advice)];
        return advice.Length == 0 ? "use a machine with more memory" : string.Join("; ", advice);
    }
}
