using System.Collections.Immutable;
using RollRide.Findings;
using RollRide.Plots;
using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>What a random road does to those who sit, to the tyres and to the dampers.</summary>
internal sealed class RideChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter? Write(ReportInput input)
    {
        var result = input.Comparison.Result;
        if (result.Layouts.Any(layout => layout.Ride is null))
            return null;
        var figures = ImmutableArray.CreateBuilder<Figure>();
        if (result.Layouts.All(layout => layout.Ride!.BodyAccelerationDensity is not null))
            figures.Add(RideAccelerationFigure.Build(result));
        figures.Add(RideLoadFigure.Build(result));
        figures.Add(RideDamperFigure.Build(result));
        var title = $"On {Conclusions.RandomRoad(input.Study)}";
        return input.Seeds.Count == 0
            ? new Chapter(title, ["This is one random road; another one of its class gives somewhat different numbers. Before a small difference decides, run several, with --seeds."], figures.ToImmutable())
            : new Chapter(title, [$"The figures show one of {SeedConclusions.Roads(input.Seeds)}; the table below covers all of them. Every layout was driven over the same roads."], input.OfShownRoad(figures))
            {
                Table = SeedsComparison.Write(input.Seeds, input.Styles),
                Notes = [.. SeedConclusions.Of(input.Seeds, input.Baseline)],
            };
    }
}
