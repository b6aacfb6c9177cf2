using System.Globalization;
using RollRide.Numerics;
using RollRide.Plots.Figures;

namespace RollRide.Report.Chapters;

/// <summary>One layout with its dampers moved sideways.</summary>
internal sealed class PositionChapter : IChapter
{
    /// <inheritdoc/>
    public Chapter? Write(ReportInput input)
    {
        if (input.Positions is not { Positions.IsEmpty: false } sweep)
            return null;
        var given = input.Comparison.Layouts.Single(layout => layout.Name == sweep.Layout.Name);
        var frames = sweep.Positions.Select((at, i) => (
            string.Create(CultureInfo.InvariantCulture, $"{Unit.Millimetre.Show(at.Position):F0}"),
            PositionFigure.Build(input.Study, given, sweep, i) with { Size = input.Size }));
        // The frame that shows most is the one farthest from where the dampers are.
        var start = Enumerable.Range(0, sweep.Positions.Length).MaxBy(i => Math.Abs(sweep.Positions[i].Position - sweep.OwnPosition));
        return new Chapter(
            "The trade-off: one damper, every position",
            [
                $"The dampers of '{sweep.Layout.Name}' are moved sideways, with the same valving and their lean kept. Stops at the ends of the dampers' travel are not checked here.",
                .. sweep.Faults,
            ],
            [])
        {
            Frames = new FrameSet("Damper position from the centre", [.. frames], start),
        };
    }
}
