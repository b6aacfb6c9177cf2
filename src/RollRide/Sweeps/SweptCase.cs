using RollRide.Studies;

namespace RollRide.Sweeps;

/// <summary>What the numbers of one variant make: a case to run, or the reason why there is none.</summary>
/// <remarks>A sweep knows numbers only. Whoever gives it its numbers says what they make, and what of it deserves a warning.</remarks>
public sealed record SweptCase
{
    private SweptCase()
    {
    }

    /// <summary>The case; null where the numbers are refused.</summary>
    public StudyCase? Study { get; private init; }

    /// <summary>Why the numbers are refused; null where they are not.</summary>
    public string? Refusal { get; private init; }

    /// <summary>Counts what a reader of a layout's run should be warned of.</summary>
    public Func<LayoutFigures, int> CountWarnings { get; private init; } = _ => 0;

    /// <summary>A case to run.</summary>
    /// <param name="study">The case.</param>
    /// <param name="countWarnings">Counts the warnings of a layout's run.</param>
    public static SweptCase Of(StudyCase study, Func<LayoutFigures, int> countWarnings) => new() { Study = study, CountWarnings = countWarnings };

    /// <summary>Numbers that make no case.</summary>
    /// <param name="reason">What is wrong with them.</param>
    public static SweptCase Refused(string reason) => new() { Refusal = reason };
}
