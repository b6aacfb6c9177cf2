using RollRide.Findings;
using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>How far the dampers may stray from their drawing, over all states of load and damper, and what holding for all of them costs.</summary>
internal sealed class ToleranceChapter : IChapter
{
    private const string Title = "Tolerance and wear of the tuned dampers";

    /// <inheritdoc/>
    public Chapter? Write(ReportInput input)
    {
        if (input.Robust is not { } answer)
            return null;
        return answer.Found is { } result
            ? new Chapter(Title, [.. RobustConclusions.Margins(result)], [RobustFigure.Build(result) with { Size = input.Size }])
            {
                Table = ToleranceTable.Write(result),
                Notes = [.. RobustConclusions.MissesAndCost(result)],
            }
            : new Chapter(Title, [answer.Failure], []);
    }
}
