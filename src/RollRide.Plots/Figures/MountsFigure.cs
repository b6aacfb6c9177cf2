using System.Collections.Immutable;
using RollRide.Mounting;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Plots.Figures;

/// <summary>Where the dampers of each layout stand, and the motion ratios that follow.</summary>
public static class MountsFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="study">The case.</param>
    public static Figure Build(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        var styles = StudyStyles.Of(study);
        ImmutableArray<DamperLayout> standing = [.. study.Layouts.Select(layout => study.Assemble(layout).Layout)]; // the load changes the ratios of dampers that lean
        var areApart = study.Layouts.Any(layout => layout.Places.Count > 1);
        Side[] sides = areApart ? [Side.Left, Side.Right] : [Side.Left];
        var ratios = new BarPanel("Motion ratios", "Damper/wheel travel", "", areApart ? ["Heave, left", "Heave, right", "Roll, left", "Roll, right"] : ["Heave", "Roll"],
            [.. standing.Select(layout => new BarGroup(layout.Name, styles[layout.Name], [.. sides.Select(side => layout.On(side).Fitting.HeaveRatio), .. sides.Select(side => layout.On(side).Fitting.RollRatio)]))])
        {
            Decimals = 2,
            Headroom = 0.36,
        };
        return new Figure("mounts.png", Title(study, standing), "Where the dampers sit, and their travel over that of the wheel.", FigureParts.Footer(study),
            [new Panel(new RearViewPanel("Seen from behind; body and tyres are a sketch", study.Vehicle, [.. study.Layouts.Select(layout => (layout, styles[layout.Name]))]).Build()), new Panel(ratios.Build(), 0, 1)])
        {
            ColumnWidths = [2.4, 1],
        };
    }

    private static string Title(StudyCase study, ImmutableArray<DamperLayout> standing)
    {
        var ranked = Candidates.Of(standing, layout => layout);
        var places = ranked.SelectMany(layout => layout.Places.Select(place => (place.Name, layout.On(place.Side).Fitting))).ToArray();
        var most = places.MaxBy(place => place.Fitting.RollRatio);
        var least = places.MinBy(place => place.Fitting.RollRatio);
        var (high, low) = (most.Fitting.RollRatio, least.Fitting.RollRatio);
        if (FigureParts.AreSimilar(low, high))
            return FigureParts.Text($"The dampers see {FigureParts.Range(places.Min(place => place.Fitting.HeaveRatio), places.Max(place => place.Fitting.HeaveRatio))} of the wheel travel in heave, {FigureParts.Range(low, high)} in roll{FigureParts.WithAll([.. ranked.Select(layout => layout.Name)], study.Layouts.Length)}");
        return study.Vehicle.Suspension.GuidesEachWheel
            ? FigureParts.Text($"The dampers see {high:F2} of the wheel travel with “{most.Name}”, {low:F2} with “{least.Name}”")
            : FigureParts.Text($"In roll, the dampers see {high:F2} of the wheel travel with “{most.Name}”, {low:F2} with “{least.Name}”");
    }
}
