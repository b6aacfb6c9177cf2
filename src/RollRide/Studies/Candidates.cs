using System.Collections.Immutable;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>The layouts that count where the best and the worst are named: one that cannot be built is shown, but is never named as either.</summary>
public static class Candidates
{
    /// <summary>The candidates of some layouts; all of them where none is one.</summary>
    /// <param name="layouts">The layouts, or what was found of them.</param>
    /// <param name="layout">The layout that one of them is of.</param>
    public static ImmutableArray<T> Of<T>(ImmutableArray<T> layouts, Func<T, DamperLayout> layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        ImmutableArray<T> candidates = [.. layouts.Where(found => layout(found).IsCandidate)];
        return candidates.IsEmpty ? layouts : candidates;
    }
}
