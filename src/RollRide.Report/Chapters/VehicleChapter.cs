using RollRide.Findings;
using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>What the vehicle around the axle changes.</summary>
internal sealed class VehicleChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter? Write(ReportInput input)
    {
        var comparison = input.Comparison.Result;
        return comparison.Study.Vehicle.SecondAxle is null ? null : new(
            "The vehicle around the axle",
            [.. VehicleConclusions.Of(comparison)],
            [FrameFigure.Build(input.Studies.Modes), .. FrontShareFigure.Has(comparison) ? (Plots.Figure[])[FrontShareFigure.Build(comparison)] : []]);
    }
}
