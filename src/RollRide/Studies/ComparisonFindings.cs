using RollRide.Metrics;

namespace RollRide.Studies;

/// <summary>What was found in one load state of a case, or in the only one.</summary>
/// <param name="Result">What the layouts did.</param>
public sealed record ComparisonFindings(ComparisonResult Result)
{
    /// <summary>The runs over several random roads; none if empty.</summary>
    public IReadOnlyList<SeededRuns> Seeds { get; init; } = [];

    /// <summary>The linear reference of each layout; not asked for if empty.</summary>
    public IReadOnlyList<LinearReference> Linear { get; init; } = [];

    /// <summary>The figures of each of a layout's runs: that of the scenario's own road, and those over several random roads; of sides that differ both ways.</summary>
    /// <param name="layout">The layout's place.</param>
    public IEnumerable<RunMetrics> Runs(int layout) => [.. Result.Layouts[layout].BothWays, .. Seeds.Count > 0 ? Seeds[layout].Runs.SelectMany(run => run.BothWays) : []];

    /// <summary>Whether it comes from one random road, of which another of its class has other extremes.</summary>
    public bool IsOfOneRandomRoad => Study.Manoeuvre.Road.Unevenness is not null && Seeds.Count == 0;

    /// <summary>The case in its load state.</summary>
    public StudyCase Study => Result.Study;
}
