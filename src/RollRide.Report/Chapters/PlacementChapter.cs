using RollRide.Findings;
using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>Where the dampers fit between rail, tyre, brake and each other, and what each place is worth.</summary>
internal sealed class PlacementChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter? Write(ReportInput input)
    {
        if (input.Studies.Placement is not { } result)
            return null;
        var sentences = PlacementConclusions.Of(result);
        return new Chapter("Where the dampers fit", [.. sentences.Take(1)], [.. PlacementFigures.All(result)]) { Notes = [.. sentences.Skip(1)] };
    }
}
