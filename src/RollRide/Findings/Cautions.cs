using System.Collections.Immutable;

namespace RollRide.Findings;

/// <summary>What every result says before anybody drives.</summary>
public static class Cautions
{
    /// <summary>The one line that figures carry.</summary>
    public const string OneLine = "A design aid. Confirm on instrumented tests by trained drivers in a closed area.";

    /// <summary>The full text, one sentence an item.</summary>
    public static ImmutableArray<string> All { get; } =
    [
        "RollRide is a design aid: it computes a simplified model, not the behaviour of a vehicle on the road.",
        "Wheel lift means rollover risk. A result without wheel lift is no proof that the vehicle cannot roll over.",
        "Confirm every change on instrumented tests by trained drivers in a closed area.",
        "Local rules and licensed engineering practice come first.",
    ];
}
