using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Plots;
using RollRide.Studies;

namespace RollRide.Report;

/// <summary>The quantities that decide, in every load state: one column per layout, one row per quantity, and of many load states one per state as well.</summary>
internal static class LoadStateTable
{
    /// <summary>Writes the section with table and conclusions; nothing where the scenario has no load states.</summary>
    public static Html Write(ReportInput input)
    {
        var states = input.LoadStates;
        if (states.Count == 0)
            return default;
        var layouts = input.Comparison.Layouts;
        var inOneRow = states.Count <= VerdictTable.MostInACell;
        var order = inOneRow ? string.Join(" · ", states.Select(state => state.Study.Load!.Name)) : null;
        var columns = LayoutColumns.Headings(input.Styles, [.. layouts.Select(layout => layout.Name)], _ => order);
        var rows = Quantities(input.Study).SelectMany(quantity => inOneRow ? [Row(quantity, states)] : states.Select(state => Row(quantity, [state], Html.Of($"<td>{state.Study.Load!.Name}</td>"))));
        return Html.Of(
            $"""
            <section>
            <h2>All load states</h2>
            {Html.Join(LoadConclusions.Of(states).Select(sentence => Html.Of($"<p>{PlotText.WithUnits(sentence)}</p>\n")))}
            <div class="wide"><table{LayoutColumns.Width(layouts.Length)}>
            <thead><tr><th scope="col">Quantity</th>{(inOneRow ? default : Html.Of($"<th scope=\"col\">Load state</th>"))}<th scope="col" class="unit">Unit</th>{columns}</tr></thead>
            <tbody>
            {Html.Join(rows)}
            </tbody></table></div>
            <p class="note">{(input.Seeds.Count > 0 ? $"Each number is of one run{input.OnShownRoad}. " : "")}Height changes count from the design position; what is left of a damper's stroke is counted at rest.</p>
            </section>
            """);
    }

    private static Html Row(Quantity quantity, IReadOnlyList<ComparisonFindings> states, Html load = default)
    {
        var layouts = states[0].Study.Layouts;
        double?[][] values = [.. layouts.Select((written, i) => states.Select(state => quantity.Value(state.Result.Layouts[i], state.Study.Settle(written)!.Rest)).ToArray())];
        return values.All(ofLayout => ofLayout.All(value => value is null))
            ? default
            : Html.Of($"<tr><th scope=\"row\">{quantity.Label}</th>{load}<td class=\"unit\">{quantity.Unit.Symbol}</td>{Html.Join(layouts.Zip(values, (layout, ofLayout) => Html.Of($"<td data-layout=\"{layout.Name}\">{string.Join(" · ", ofLayout.Select(value => value is { } known ? quantity.Text(states[0].Study, known) : "–"))}</td>")))}</tr>\n");
    }

    private static Quantity[] Quantities(StudyCase study)
    {
        var speed = FormattableString.Invariant($"{study.Analysis.ReferenceVelocity:0.###} m/s");
        Quantity Ratio(ModeName mode) => new($"{mode}: damping ratio at {speed}", Unit.One, 2, (layout, _) => layout.ReferenceModes[mode].DampingRatio, mode);
        Quantity OfRun(PhaseMetric metric) => new($"Whole run: {metric.Label}", metric.Unit, metric.Decimals, (layout, _) => metric.Of(layout.Metrics.Whole));
        return
        [
            new("Body, height change at rest", Unit.Millimetre, 1, (_, rest) => rest.BodyHeave),
            new("Damper stroke left at rest, compression", Unit.Millimetre, 1, (_, rest) => rest.Sides.Min(side => side.Side.LeftToClosed)),
            new("Damper stroke left at rest, extension", Unit.Millimetre, 1, (_, rest) => rest.Sides.Min(side => side.Side.LeftToExtended)),
            Ratio(ModeName.Heave),
            Ratio(ModeName.Roll),
            new(RollMetric.RollOvershoot.Label, RollMetric.RollOvershoot.Unit, RollMetric.RollOvershoot.Decimals, (layout, _) =>
                layout.Metrics.RollResponse is null ? null : RollMetric.RollOvershoot.Of(layout.Metrics)),
            OfRun(PhaseMetric.SeatWeightedRms),
            OfRun(PhaseMetric.TyreLoadMinimum),
        ];
    }

    /// <summary>A quantity of a layout in one load state, from its run and its rest, in SI.</summary>
    private sealed record Quantity(string Label, Unit Unit, int Decimals, Func<LayoutResult, RestPosition, double?> Value, ModeName? Mode = null)
    {
        public string Text(StudyCase study, double value) => Mode is { } mode ? VerdictWords.Ratio(study, mode, value) : PlotText.Number(Unit.Of(value), Decimals);
    }
}
