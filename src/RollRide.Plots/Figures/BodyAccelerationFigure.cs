using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Vertical acceleration of the body at the centre of gravity and its roll acceleration: RMS over the first phase, and over time about the worst instant.</summary>
public static class BodyAccelerationFigure
{
    // Longer than this, and the layout drawn last hides the others.
    private const double LongestSpan = 2;

    // Closer together than this, two RMS values are the same to whoever sits in the vehicle (common practice, no source).
    private const double Alike = 0.02;

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
        var worst = FigureParts.Series(result, Channel.BodyAcceleration, Unit.MetrePerSecondSquared, phase.Start, phase.End).Select(FigureParts.Extreme).MaxBy(point => Math.Abs(point.Y)).X;
        var (start, end) = FigureParts.About(worst, phase.Start, phase.End, LongestSpan);
        var bars = Quantities.Select((quantity, row) => new Panel(
            new BarPanel($"{quantity.Title}, RMS", "RMS", quantity.Unit.Symbol, [phase.Name],
                [.. result.Layouts.Select(layout => new BarGroup(layout.Name, styles[layout.Name], [quantity.Rms(FigureParts.Of(layout, phase))]))])
            {
                Decimals = 2,
                Headroom = 0.4,
                NamesBars = false,
            }.Build(),
            row));
        var histories = TimePanel.Stack(
            [.. Quantities.Select(quantity => new TimePanel("About the worst instant", quantity.Title, quantity.Unit.Symbol, FigureParts.Series(result, quantity.Channel, quantity.Unit, start, end)) { Labels = LabelPlacement.None })],
            column: 1);
        var part = phase.End - phase.Start - LongestSpan > 1 / result.Study.HistoryRate ? FigureParts.Text($"{LongestSpan:0.#} s ") : "";
        return new Figure("body-acceleration.png", Title(result, phase),
            $"What does the body feel in phase “{phase.Name}”, and does the place of the dampers change it? Left: over the whole phase. Right: {part}about the largest vertical acceleration.",
            FigureParts.Footer(result.Study), [.. bars, .. histories])
        {
            ColumnWidths = [1, 1.7],
        };
    }

    /// <summary>States the quantity in which the layouts differ most, or that they differ in neither.</summary>
    private static string Title(RecordedComparison result, Phase phase)
    {
        var ranges = Quantities.Select(quantity => (
            Quantity: quantity,
            Low: result.Candidates.MinBy(layout => quantity.Rms(FigureParts.Of(layout, phase)))!,
            High: result.Candidates.MaxBy(layout => quantity.Rms(FigureParts.Of(layout, phase)))!)).ToArray();
        double Of((Quantity Quantity, RecordedLayout Low, RecordedLayout High) range, LayoutResult layout) => range.Quantity.Rms(FigureParts.Of(layout, phase));
        double Spread((Quantity Quantity, RecordedLayout Low, RecordedLayout High) range) => Of(range, range.High) > 0 ? 1 - (Of(range, range.Low) / Of(range, range.High)) : 0;
        var most = ranges.MaxBy(Spread);
        return Spread(most) < Alike
            ? FigureParts.Text($"In phase “{phase.Name}”, RMS body acceleration is {Of(ranges[0], ranges[0].High):F2} m/s²{FigureParts.WithAll([.. result.Candidates.Select(layout => layout.Name)], result.Layouts.Length)}")
            : FigureParts.Text($"In phase “{phase.Name}”, RMS {most.Quantity.Name} is {Of(most, most.Low):F2} {most.Quantity.Unit.Symbol} with “{most.Low.Name}”, {Of(most, most.High):F2} with “{most.High.Name}”");
    }

    private sealed record Quantity(string Title, string Name, Unit Unit, Channel Channel, Func<PhaseMetrics, double> Rms);
}
