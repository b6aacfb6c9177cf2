using RollRide.Findings;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>All figures of the mounts: motion ratios over travel, and what is left of the dampers' stroke.</summary>
public static class MountsFigures
{
    /// <summary>Builds the figures.</summary>
    /// <param name="result">What was found; at most <see cref="LayoutStyles.Count"/> layouts.</param>
    public static IReadOnlyList<Figure> All(MountsResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return [Ratios(result), .. Lengths(result) is { } lengths ? [lengths] : Array.Empty<Figure>()];
    }

    private static Figure Ratios(MountsResult result)
    {
        var styles = StudyStyles.Of(result.Study);
        // One scale for the ratios; heave and roll have each their own travel.
        CurvePanel Of(string title, string quantity, string unit, string ratio, Func<LayoutMounts, IEnumerable<MountPosition>> positions, Func<MountPosition, double> x, Func<MountPosition, double> y, Func<IFitting, double> given) =>
            new(title, quantity, unit, ratio, "",
                [.. result.Layouts.Select(layout => new PlotSeries(layout.Name, styles[layout.Layout.Name], [.. positions(layout).Select(x)], [.. positions(layout).Select(y)]))])
            {
                ReferenceLines = [new ReferenceLine(0, ""), new ReferenceLine(1, "")],
                Peaks = [.. result.Layouts.Select(layout => new PeakMark(0, given(layout.Fitting), FigureParts.Text($"{given(layout.Fitting):F2}{layout.Name[layout.Layout.Name.Length..]}"), styles[layout.Layout.Name])).DistinctBy(mark => mark.Label)],
                Labels = LabelPlacement.AbovePanels,
            };
        CurvePanel heave = Of("Both wheels together", "Heave (bump positive)", "mm", "Motion ratio in heave", layout => layout.InHeave, p => Unit.Millimetre.Of(p.Heave), p => p.HeaveRatio, fitting => fitting.HeaveRatio);
        CurvePanel roll = Of("Wheels oppositely", "Roll (left wheel up positive)", "deg", "Motion ratio in roll", layout => layout.InRoll, p => Unit.Degree.Of(p.Roll), p => p.RollRatio, fitting => fitting.RollRatio);
        var ratios = PlotRange.Over([heave.ShownY, roll.ShownY]);
        var ranked = Candidates.Of(result.Layouts, layout => layout.Layout);
        var (most, least) = (ranked.MaxBy(layout => layout.Fitting.RollRatio)!, ranked.MinBy(layout => layout.Fitting.RollRatio)!);
        var way = result.Study.Vehicle.Suspension.GuidesEachWheel ? "In heave and in roll" : "In roll";
        string title = most.Fitting.RollRatio - least.Fitting.RollRatio < 0.005
            ? FigureParts.Text($"{way}, the damper sees {most.Fitting.RollRatio:F2} of the wheel travel{FigureParts.WithAll([.. ranked.Select(layout => layout.Name)], result.Layouts.Length)}")
            : FigureParts.Text($"{way}, the damper sees {most.Fitting.RollRatio:F2} of the wheel travel with “{most.Name}”, {least.Fitting.RollRatio:F2} with “{least.Name}”");
        return new Figure("motion-ratios.png", title, $"Travel of the {(result.Layouts.Length > result.Study.Layouts.Length ? "" : "left ")}damper over wheel travel, in heave and in roll. Marked: as given.", FigureParts.Footer(result.Study),
            [new Panel((heave with { YRange = ratios }).Build()), new Panel((roll with { YRange = ratios }).Build(), 0, 1)]);
    }

    /// <summary>Builds the figure of what is left of the dampers' stroke; null where no damper's lengths are known.</summary>
    /// <param name="result">What was found.</param>
    public static Figure? Lengths(MountsResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var styles = StudyStyles.Of(result.Study);
        var known = result.Layouts.Where(layout => layout.ClosedReserve is not null && layout.ExtendedReserve is not null).ToArray();
        if (known.Length == 0)
            return null;
        var panel = new BarPanel(null, "Left over before metal to metal", "mm", ["Closed", "Extended"],
            [.. known.Select(layout => new BarGroup(layout.Name, styles[layout.Layout.Name], [Unit.Millimetre.Of(layout.ClosedReserve!.Value), Unit.Millimetre.Of(layout.ExtendedReserve!.Value)]))])
        {
            Decimals = 1,
            Upright = known.Length <= 3,
        };
        var tightest = known.MinBy(layout => Math.Min(layout.ClosedReserve!.Value, layout.ExtendedReserve!.Value))!;
        double least = Math.Min(tightest.ClosedReserve!.Value, tightest.ExtendedReserve!.Value);
        return new Figure("length-budget.png",
            least < 0
                ? FigureParts.Text($"“{tightest.Name}” lacks {Unit.Millimetre.Show(-least):F1} of damper stroke")
                : FigureParts.Text($"Every damper keeps some stroke; “{tightest.Name}” has least, {Unit.Millimetre.Show(least):F1}"),
            $"Stroke left at the worst position. {TravelWords.Of(tightest.Travel)}",
            FigureParts.Footer(result.Study), [new Panel(panel.Build())]);
    }
}
