using System.Collections.Immutable;
using RollRide.Plots;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Sweeps;

namespace RollRide.Report;

/// <summary>What a report is written from.</summary>
public sealed record ReportInput
{
    /// <summary>The scenario.</summary>
    public required Scenario Scenario { get; init; }

    /// <summary>What its layouts did.</summary>
    public required RecordedComparison Comparison { get; init; }

    /// <summary>What the studies beside the runs found; without a tuning where its figures cannot tell the layouts apart.</summary>
    public required ReportStudies Studies { get; init; }

    /// <summary>How the tuned dampers hold over all states and tolerances; null where nothing was tuned.</summary>
    public StudyAnswer<RobustResult>? Robust { get; init; }

    /// <summary>What the comparison decides, over every load state.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>What comes of the single changes to each layout: the verdict's <see cref="Verdict.AllChanges"/>.</summary>
    public required ImmutableArray<ImmutableArray<TriedChange>> Changes { get; init; }

    /// <summary>The layout with which the others are compared: its place in the list.</summary>
    public int Baseline { get; init; }

    /// <summary>One layout moved sideways; null where no layout has a place of its own.</summary>
    public PositionSweepResult? Positions { get; init; }

    /// <summary>The runs of its layouts, in the same order, over several random roads; empty where there were none.</summary>
    public IReadOnlyList<SeededRuns> Seeds { get; init; } = [];

    /// <summary>What was found in each load state, the one shown among them; empty where the scenario has none.</summary>
    public IReadOnlyList<ComparisonFindings> LoadStates { get; init; } = [];

    /// <summary>Size of the figures.</summary>
    public PlotSize Size { get; init; } = PlotSize.Slide;

    /// <summary>The case.</summary>
    public StudyCase Study => Comparison.Study;

    /// <summary>The styles of the layouts, as in the figures.</summary>
    internal LayoutStyles Styles => new(Study.ScenarioLayouts, [.. Study.Layouts.Select(layout => layout.Name)]);

    /// <summary>Which road a statement on one run is of, after a name; empty where there is but one.</summary>
    internal string OnShownRoad => Seeds.Count == 0 ? "" : FormattableString.Invariant($", road of seed {Study.Manoeuvre.Road.Unevenness!.Seed}");

    /// <summary>The figures of the one run that was recorded: where there are several roads their titles say of which.</summary>
    internal ImmutableArray<Figure> OfShownRoad(params IEnumerable<Figure> figures) =>
        [.. figures.Select(figure => figure with { Title = figure.Title + OnShownRoad })];
}
