using System.Globalization;
using RollRide.Numerics;
using RollRide.Plots.Figures;
using RollRide.Studies;

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
            Where(input.Study, sweep, at),
            PositionFigure.Build(input.Study, given, sweep, i) with { Size = input.Size }));
        // First, and alone where the page is printed or its script does not run, as the dampers were given.
        var start = Enumerable.Range(0, sweep.Positions.Length).MinBy(i => Math.Abs(sweep.Positions[i].Position - sweep.OwnPosition));
        return new Chapter(
            "The trade-off: one damper, every position",
            [
                $"The dampers of “{sweep.Layout.Name}” are moved sideways, with the same valving and lean. Whether the dampers run out of stroke is not checked here.",
                .. sweep.Faults,
            ],
            [])
        {
            Frames = new FrameSet("Damper position from the centre", [.. frames], start),
        };
    }

    /// <summary>A position, and whose it is.</summary>
    private static string Where(StudyCase study, PositionSweepResult sweep, PositionResult at)
    {
        var place = string.Create(CultureInfo.InvariantCulture, $"{Unit.Millimetre.Show(at.Position):F0}");
        if (at.Position == sweep.OwnPosition)
            return $"{place}, as given";
        var there = study.Layouts.Where(layout => PositionSweep.Applies(study, layout) && PositionSweep.PositionOf(layout.Fitting) == at.Position).Select(layout => $"“{layout.Name}”").ToArray();
        return there.Length == 0 ? place : $"{place}, where {string.Join(" and ", there)} {(there.Length == 1 ? "sits" : "sit")}";
    }
}
