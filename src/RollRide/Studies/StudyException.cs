using System.Collections.Immutable;

namespace RollRide.Studies;

/// <summary>A study could not be finished.</summary>
public sealed class StudyException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="layout">Name of the layout whose run failed.</param>
    /// <param name="cause">Why.</param>
    /// <param name="loadState">Name of the load state that it stood in; null for none.</param>
    public StudyException(string layout, Exception cause, string? loadState = null)
        : this($"Layout “{layout}”{(loadState is null ? "" : $" in load state “{loadState}”")}: {cause?.Message}", layout, cause!)
    {
    }

    /// <summary>Joins several failures, one line each; of many the first ones and how many more there are.</summary>
    /// <param name="failures">The failures, at least one, in the order of the runs.</param>
    public StudyException(IReadOnlyList<StudyException> failures)
        : this(Joined(failures), failures[0].Layout, failures[0])
    {
    }

    private StudyException(string message, string? layout, Exception cause)
        : this([message], layout, cause)
    {
    }

    private StudyException(ImmutableArray<string> lines, string? layout, Exception cause)
        : base(string.Join('\n', lines), cause) => (Lines, Layout) = (lines, layout);

    /// <summary>The message by its lines, one a failure; a name in a line may hold characters that break it.</summary>
    public ImmutableArray<string> Lines { get; }

    /// <summary>Name of the layout whose run failed; of several, the first; null where it was not that of one layout.</summary>
    public string? Layout { get; }

    /// <summary>A failure of something that is no layout, or of one of several runs of a layout.</summary>
    /// <param name="what">What failed, as the beginning of a line.</param>
    /// <param name="cause">Why.</param>
    /// <param name="layout">Name of the layout; null if it was not that of one.</param>
    public static StudyException At(string what, Exception cause, string? layout = null)
    {
        ArgumentNullException.ThrowIfNull(cause);
        return new StudyException($"{what}: {cause.Message}", layout, cause);
    }

    private static ImmutableArray<string> Joined(IReadOnlyList<StudyException> failures)
    {
        ArgumentNullException.ThrowIfNull(failures);
        const int shown = 8;
        var lines = failures.Take(shown).Select(failure => failure.Message);
        return [.. failures.Count > shown ? lines.Append(FormattableString.Invariant($"and {failures.Count - shown} more runs")) : lines];
    }
}
