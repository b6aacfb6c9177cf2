using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>All figures of the mounts: motion ratios over travel, and what is left of the dampers' stroke.</summary>
public static class MountsFigures
{
    /// <summary>Builds the figures.</summary>
    /// <param name="result">What was found; at most <see cref="Theme.LayoutCount"/> layouts.</param>
    public static IReadOnlyList<Figure> All(MountsResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return [Ratios(result), .. Lengths(result) is { } lengths ? [lengths] : Array.Empty<Figure>()];
    }

    private static Figure Ratios(MountsResult result)
    {
        Panel Of(int column, string title, string quantity, string unit, string ratio, Func<LayoutMounts, IEnumerable<MountPosition>> positions, Func<MountPosition, double> x, Func<MountPosition, double> y) =>
            new(new CurvePanel(title, quantity, unit, ratio, "",
                [.. result.Layouts.Select((layout, i) => new PlotSeries(layout.Layout.Name, i, [.. positions(layout).Select(x)], [.. positions(layout).Select(y)]))])
            {
                ReferenceLines = [new ReferenceLine(0, ""), new ReferenceLine(1, "")],
                Labels = LabelPlacement.AbovePanels,
            }.Build(), 0, column);
        var ranked = Candidates.Of(result.Layouts, layout => layout.Layout);
        var (most, least) = (ranked.MaxBy(layout => layout.Layout.Fitting.RollRatio)!, ranked.MinBy(layout => layout.Layout.Fitting.RollRatio)!);
        var way = result.Study.Vehicle.Suspension.GuidesEachWheel ? "In heave and in roll" : "In roll";
        string title = most == least
            ? FigureParts.Text($"{way} '{most.Layout.Name}' moves its damper {most.Layout.Fitting.RollRatio:F2} times as far as the wheel")
            : FigureParts.Text($"{way} '{most.Layout.Name}' moves its damper {most.Layout.Fitting.RollRatio:F2} times as far as the wheel, '{least.Layout.Name}' {least.Layout.Fitting.RollRatio:F2} times");
        return new Figure("motion-ratios.png", title, "How far does the left damper move for the wheel's travel, over the whole travel in heave and in roll? (1: as far as the wheel)", FigureParts.Footer(result.Study),
            [
                Of(0, "Both wheels together", "Heave (bump positive)", "mm", "Motion ratio in heave", layout => layout.InHeave, p => Unit.Millimetre.Of(p.Heave), p => p.HeaveRatio),
                Of(1, "Wheels oppositely", "Roll (left wheel up positive)", "deg", "Motion ratio in roll", layout => layout.InRoll, p => Unit.Degree.Of(p.Roll), p => p.RollRatio),
            ]);
    }

    /// <summary>Builds the figure of what is left of the dampers' stroke; null where no damper's lengths are known.</summary>
    /// <param name="result">What was found.</param>
    public static Figure? Lengths(MountsResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var known = result.Layouts.Select((layout, i) => (Layout: layout, Index: i)).Where(item => item.Layout.ClosedReserve is not null && item.Layout.ExtendedReserve is not null).ToArray();
        if (known.Length == 0)
            return null;
        var panel = new BarPanel(null, "Left over before metal to metal", "mm", ["Closed", "Extended"],
            [.. known.Select(item => new BarGroup(item.Layout.Layout.Name, item.Index, [Unit.Millimetre.Of(item.Layout.ClosedReserve!.Value), Unit.Millimetre.Of(item.Layout.ExtendedReserve!.Value)]))])
        {
            Decimals = 1,
            Upright = known.Length <= 3,
        };
        var tightest = known.MinBy(item => Math.Min(item.Layout.ClosedReserve!.Value, item.Layout.ExtendedReserve!.Value)).Layout;
        double least = Math.Min(tightest.ClosedReserve!.Value, tightest.ExtendedReserve!.Value);
        return new Figure("length-budget.png",
            least < 0
                ? FigureParts.Text($"'{tightest.Layout.Name}' lacks {Unit.Millimetre.Show(-least):F1} of damper stroke")
                : FigureParts.Text($"Every damper keeps some stroke; '{tightest.Layout.Name}' has least, {Unit.Millimetre.Show(least):F1}"),
            $"What is left of the stroke at the worst position? {TravelWords.Of(tightest.Travel)}",
            FigureParts.Footer(result.Study), [new Panel(panel.Build())]);
    }
}
