using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Where the dampers of each layout stand, and the motion ratios that follow.</summary>
public static class MountsFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="study">The case.</param>
    public static Figure Build(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        var layouts = study.Layouts.Select((layout, i) => (layout, i)).ToArray();
        var ratios = new BarPanel("Damper travel over wheel travel", "Motion ratio", "", ["Heave", "Roll"],
            [.. layouts.Select(entry => new BarGroup(entry.layout.Name, entry.i, [entry.layout.Fitting.HeaveRatio, entry.layout.Fitting.RollRatio]))])
        {
            Decimals = 2,
            Headroom = 0.36,
        };
        return new Figure("mounts.png", Title(study), "Where do the dampers sit, and how much of the wheel's motion reaches them?", FigureParts.Footer(study),
            [new Panel(new RearViewPanel("Seen from behind; body and tyres are a sketch", study.Vehicle, layouts).Build()), new Panel(ratios.Build(), 0, 1)])
        {
            ColumnWidths = [1.4, 1],
        };
    }

    private static string Title(StudyCase study)
    {
        var ranked = Candidates.Of(study.Layouts, layout => layout);
        var most = ranked.MaxBy(layout => layout.Fitting.RollRatio)!;
        var least = ranked.MinBy(layout => layout.Fitting.RollRatio)!;
        var (high, low) = (most.Fitting.RollRatio, least.Fitting.RollRatio);
        if (ranked.Length == 1 || high - low < 0.005)
            return FigureParts.Text($"The dampers move {most.Fitting.HeaveRatio:F2} of the wheel's travel in heave, {high:F2} in roll");
        return study.Vehicle.Suspension.GuidesEachWheel
            ? FigureParts.Text($"'{most.Name}' moves its dampers {high:F2} of the wheel's travel, '{least.Name}' {low:F2}")
            : FigureParts.Text($"In roll '{most.Name}' moves its dampers {high:F2} of the wheel's travel, '{least.Name}' {low:F2}");
    }
}
