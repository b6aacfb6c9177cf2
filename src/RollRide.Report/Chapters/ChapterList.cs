using System.Collections.Immutable;

namespace RollRide.Report.Chapters;

/// <summary>The chapters of a report.</summary>
public static class ChapterList
{
    /// <summary>All chapters in the order of the argument: where the dampers sit, what they do, and what that does to bump, corner and comfort.</summary>
    public static ImmutableArray<IChapter> InOrderOfArgument { get; } =
    [
        new MountsChapter(),
        new PlacementChapter(),
        new DampersChapter(),
        new DampingChapter(),
        new WindowChapter(),
        new PositionChapter(),
        new BumpChapter(),
        new CornerChapter(),
        new RideChapter(),
        new ValvingChapter(),
    ];
}
