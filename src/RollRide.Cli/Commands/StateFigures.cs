using RollRide.Plots;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>The figures of several load states, in files of their own.</summary>
internal static class StateFigures
{
    /// <summary>All figures; those of a load state bear its name before theirs.</summary>
    /// <param name="states">The case in each load state.</param>
    /// <param name="figures">The figures of each.</param>
    public static IEnumerable<Figure> Of(IReadOnlyList<StudyCase> states, IReadOnlyList<IReadOnlyList<Figure>> figures) =>
        LoadStates.FilePrefixes(states).Zip(figures).SelectMany(state => state.Second.Select(figure => figure with { FileName = state.First + figure.FileName }));
}
