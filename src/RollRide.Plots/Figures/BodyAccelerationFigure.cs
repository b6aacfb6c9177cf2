using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Vertical acceleration of the body at the centre of gravity and its roll acceleration: RMS over the first phase, and the one that tells most over time about its worst instant.</summary>
public static class BodyAccelerationFigure
{
    // Longer than this, and the layout drawn last hides the others.
    private const double LongestSpan = 2;

    private static readonly Quantity[] Quantities =
    [
        new("Vertical acceleration", "body acceleration", Unit.MetrePerSecondSquared, Channel.BodyAcceleration, phase => phase.BodyAccelerationRms),
        new("Roll acceleration", "roll acceleration", Unit.RadianPerSecondSquared, Channel.BodyRollAcceleration, phase => phase.RollAccelerationRms),
    ];

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var phase = FigureParts.PhasesWithCurves(result.Study, 1)[0];
        var styles = StudyStyles.Of(result.Study);
        var (told, title) = Finding(result, phase);
        var worst = FigureParts.Series(result, told.Channel, told.Unit, phase.Start, phase.End).Select(FigureParts.Extreme).MaxBy(point => Math.Abs(point.Y)).X;
        var (start, end) = FigureParts.About(worst, phase.Start, phase.End, LongestSpan);
        var bars = Quantities.Select((quantity, column) => new Panel(
            new BarPanel("RMS", quantity.Title, quantity.Unit.Symbol, [phase.Name],
                [.. result.Layouts.Select(layout => new BarGroup(layout.Name, styles[layout.Name], [quantity.Rms(FigureParts.Of(layout, phase))]))])
            {
                Decimals = 2,
                NamesBars = false,
                Upright = true,
            }.Build(),
            0, column));
        var history = new TimePanel("Worst instant", told.Title, told.Unit.Symbol, FigureParts.Series(result, told.Channel, told.Unit, start, end)) { Labels = LabelPlacement.None };
        var part = phase.End - phase.Start - LongestSpan > 1 / result.Study.HistoryRate ? FigureParts.Text($"{LongestSpan:0.#} s ") : "";
        return new Figure("body-acceleration.png", title,
            $"Left: RMS over phase “{phase.Name}”. Right: {part}around the largest {told.Name}.{FigureParts.InLoad(result.Study)}",
            FigureParts.Footer(result.Study), [.. bars, new Panel(history.Build(), 0, Quantities.Length)])
        {
            ColumnWidths = [1, 1, 1.2],
        };
    }

    /// <summary>The quantity in which the layouts differ most; the body's where they differ in neither.</summary>
    private static (Quantity Told, string Title) Finding(RecordedComparison result, Phase phase)
    {
        var ranges = Quantities.Select(quantity => (
            Quantity: quantity,
            Low: result.Candidates.MinBy(layout => quantity.Rms(FigureParts.Of(layout, phase)))!,
            High: result.Candidates.MaxBy(layout => quantity.Rms(FigureParts.Of(layout, phase)))!)).ToArray();
        double Of((Quantity Quantity, RecordedLayout Low, RecordedLayout High) range, LayoutResult layout) => range.Quantity.Rms(FigureParts.Of(layout, phase));
        double Spread((Quantity Quantity, RecordedLayout Low, RecordedLayout High) range) => Of(range, range.High) > 0 ? 1 - (Of(range, range.Low) / Of(range, range.High)) : 0;
        var most = ranges.MaxBy(Spread);
        return Spread(most) <= Noticeable.Share
            ? (Quantities[0], FigureParts.Text($"In phase “{phase.Name}”, RMS body acceleration is {(result.Layouts.Length == 1 ? "" : "similar, ")}{FigureParts.Range(Of(ranges[0], ranges[0].Low), Of(ranges[0], ranges[0].High))} m/s²{FigureParts.WithAll([.. result.Candidates.Select(layout => layout.Name)], result.Layouts.Length)}"))
            : (most.Quantity, FigureParts.Text($"In phase “{phase.Name}”, RMS {most.Quantity.Name} is {Of(most, most.Low):F2} {most.Quantity.Unit.Symbol} with “{most.Low.Name}”, {Of(most, most.High):F2} with “{most.High.Name}”"));
    }

    private sealed record Quantity(string Title, string Name, Unit Unit, Channel Channel, Func<PhaseMetrics, double> Rms);
}
