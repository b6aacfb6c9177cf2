using System.Collections.Immutable;
using RollRide.Findings;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Report.Chapters;

/// <summary>The valving before and after tuning for the scenario's targets.</summary>
internal sealed class ValvingChapter : IChapter
{
    private const string Title = "Valving, before and after";

    /// <inheritdoc/>
    public Chapter? Write(ReportInput input)
    {
        if (input.Scenario.Tuning is null)
            return null;
        if (input.Studies.Tuning is not { } answer)
            return new Chapter(Title, [$"The valving of up to {TuningFigures.MostLayouts} layouts is compared here, and there are {input.Study.Layouts.Length}: choose fewer."], []);
        if (answer.Found is not { } result)
            return new Chapter(Title, [answer.Failure], []);
        var sentences = TuningConclusions.Named(result);
        return new Chapter(Title, [.. sentences.Take(1), .. input.Seeds.Count == 0 ? [] : new[] { $"Where a run is told of, it is one{input.OnShownRoad}." }], FiguresOf(input, result)) { Notes = [.. sentences.Skip(1)] };
    }

    /// <summary>The figures of the load state that the report shows.</summary>
    private static ImmutableArray<Figure> FiguresOf(ReportInput input, TuningResult result)
    {
        var states = result.Study.InEachLoad;
        var prefix = LoadStates.FilePrefixes(states)[Math.Max(0, states.ToList().FindIndex(state => state.Load?.Name == input.Study.Load?.Name))];
        return
        [
            .. TuningFigures.All(result, input.Size)
                .Where(figure => figure.FileName.StartsWith(prefix, StringComparison.Ordinal))
                .Select(figure => figure with { FileName = figure.FileName[prefix.Length..] }),
        ];
    }
}
