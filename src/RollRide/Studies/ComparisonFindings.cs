namespace RollRide.Studies;

/// <summary>What was found in one load state of a case, or in the only one.</summary>
/// <param name="Result">What the layouts did.</param>
public sealed record ComparisonFindings(ComparisonResult Result)
{
    /// <summary>The runs over several random roads; none if empty.</summary>
    public IReadOnlyList<SeededRuns> Seeds { get; init; } = [];

    /// <summary>The linear reference of each layout; not asked for if empty.</summary>
    public IReadOnlyList<LinearReference> Linear { get; init; } = [];

    /// <summary>The case in its load state.</summary>
    public StudyCase Study => Result.Study;
}
