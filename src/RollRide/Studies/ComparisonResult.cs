using System.Collections.Immutable;

namespace RollRide.Studies;

/// <summary>What the layouts of a case did.</summary>
/// <param name="Study">The case.</param>
/// <param name="Layouts">One result per layout, in the order of the case; at least one.</param>
public sealed record ComparisonResult(StudyCase Study, ImmutableArray<LayoutResult> Layouts)
{
    /// <summary>The layouts that count where the best and the worst are named, see <see cref="Studies.Candidates"/>.</summary>
    public ImmutableArray<LayoutResult> Candidates => Studies.Candidates.Of(Layouts, layout => layout.Car.Layout);
}

/// <summary>What the layouts of a case did, with their channels over time.</summary>
/// <param name="Study">The case.</param>
/// <param name="Layouts">One result per layout, in the order of the case; at least one.</param>
public sealed record RecordedComparison(StudyCase Study, ImmutableArray<RecordedLayout> Layouts)
{
    /// <summary>The layouts that count where the best and the worst are named, see <see cref="Studies.Candidates"/>.</summary>
    public ImmutableArray<RecordedLayout> Candidates => Studies.Candidates.Of(Layouts, layout => layout.Car.Layout);

    /// <summary>The same as what serves where no channels over time are needed.</summary>
    public ComparisonResult Result => new(Study, ImmutableArray<LayoutResult>.CastUp(Layouts));
}
