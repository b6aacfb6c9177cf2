using System.Collections.Immutable;

namespace RollRide.Report.Chapters;

/// <summary>The chapters of a report.</summary>
public static class ChapterList
{
    /// <summary>The first page: two figures and the test in words; what it decides, and the table that this rests on, the page writes itself.</summary>
    public static IChapter FirstPage { get; } = new DecisionChapter();

    /// <summary>All chapters in the order of the argument: where the dampers sit, what they do, and what that does to bump, corner and comfort.</summary>
    public static ImmutableArray<IChapter> InOrderOfArgument { get; } =
    [
        new MountsChapter(),
        new PlacementChapter(),
        new DampersChapter(),
        new DampingChapter(),
        new WindowChapter(),
        new VehicleChapter(),
        new PositionChapter(),
        new BumpChapter(),
        new CornerChapter(),
        new RideChapter(),
        new ValvingChapter(),
        new ToleranceChapter(),
    ];
}
