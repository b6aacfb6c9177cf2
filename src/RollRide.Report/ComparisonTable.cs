using System.Collections.Immutable;
using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Plots;
using RollRide.Studies;

namespace RollRide.Report;

/// <summary>The comparison table: one row per quantity, one column per layout, best and worst marked, differences against a baseline.</summary>
internal static class ComparisonTable
{
    /// <summary>Writes the table.</summary>
    public static Html Write(ReportInput input)
    {
        var layouts = input.Comparison.Layouts;
        var header = LayoutColumns.Headings(input.Styles, [.. layouts.Select(layout => layout.Name)], i => layouts.Length > 1 && i == input.Baseline ? "baseline" : null);
        return Html.Of(
            $"""
            <div class="wide"><table{LayoutColumns.Width(layouts.Length)}>
            <thead><tr><th scope="col">Quantity</th><th scope="col" class="unit">Unit</th>{header}</tr></thead>
            <tbody>
            {Html.Join(ComparedQuantity.Of(input.Study).Select(quantity => Row(input, quantity)))}
            </tbody></table></div>
            <p class="note">{OfRoads(input)}Percentages are against “{layouts[input.Baseline].Name}”. <b class="best">best</b> and <b class="worst">worst</b> mark what is plainly better or worse by a difference that counts, as said on page one{(input.Seeds.Count > 0 ? ", and is more than chance" : "")}. A ratio has no better end: too much damping is as wrong as too little.</p>

            """);
    }

    private static string OfRoads(ReportInput input) => input.Seeds.Count == 0
        ? ""
        : $"What the road has a part in is the mean over {SeedConclusions.Roads(input.Seeds)}, ± half of the 95 % interval. ";

    private static Html Row(ReportInput input, ComparedQuantity quantity)
    {
        MeanInterval?[] intervals = quantity.OfRoad is { } figure ? [.. input.Seeds.Select(runs => runs.Of(figure))] : [];
        double?[] values = intervals.Length > 0 ? [.. intervals.Select(interval => interval?.Mean)] : [.. input.Comparison.Layouts.Select(layout => quantity.Value(layout))];
        if (values.All(value => value is null) || (quantity.IsFault && values.All(value => value is null or 0)))
            return default;
        var candidates = Candidates.Of([.. Enumerable.Range(0, values.Length)], i => input.Comparison.Layouts[i].Car.Layout);
        var isRanked = intervals.Length == 0 ? !(quantity.IsExtreme && input.Study.Manoeuvre.Road.Unevenness is not null) : DifferByMoreThanChance(input, quantity.OfRoad!, values, candidates);
        double?[] compared = [.. candidates.Select(i => values[i])];
        var cells = values.Select((value, i) =>
        {
            var mark = value is { } known && isRanked && candidates.Contains(i) ? Mark(quantity.Better, compared, known, quantity.Decimals, (one, other) => Noticeable.Whole(quantity.Unit, input.Study.Vehicle, one, other)) : 0;
            if (quantity.IsFault && value > 0)
                mark = Math.Min(mark, 0);
            return Html.Of($"<td data-layout=\"{input.Comparison.Layouts[i].Name}\">{Cell(input.Study, quantity, values, intervals.ElementAtOrDefault(i), mark, i, input.Baseline)}</td>");
        });
        return Html.Of($"<tr><th scope=\"row\">{quantity.Label}</th><td class=\"unit\">{quantity.Unit.Symbol}</td>{Html.Join(cells)}</tr>\n");
    }

    /// <summary>Whether the two candidates farthest from each other differ, road by road, by more than chance.</summary>
    private static bool DifferByMoreThanChance(ReportInput input, Func<SeededRun, double?> figure, double?[] values, ImmutableArray<int> candidates)
    {
        var known = candidates.Where(i => values[i] is not null).OrderBy(i => values[i]).ToArray();
        return known.Length > 1 && input.Seeds[known[^1]].DifferenceFrom(input.Seeds[known[0]], figure).IsMoreThanChance;
    }

    private static Html Cell(StudyCase study, ComparedQuantity quantity, double?[] values, MeanInterval? interval, int mark, int index, int baseline)
    {
        if (values[index] is not { } value)
            return Html.Of($"–");
        var number = (value == quantity.Beyond ? SettlingWords.Beyond(value) : quantity.Mode is { } mode ? VerdictWords.Ratio(study, mode, value) : PlotText.Number(value, quantity.Decimals)) + (interval is { } known ? $" ± {PlotText.Number(known.HalfWidth, quantity.Decimals)}" : "");
        // A percentage of a percentage says nothing.
        var difference = index == baseline || quantity.Unit == Unit.Percent || values[index] == quantity.Beyond || values[baseline] == quantity.Beyond ? default : Difference(value, values[baseline]);
        return mark switch
        {
            > 0 => Html.Of($"<b class=\"best\">{number}</b>{difference}<small class=\"best\"> best</small>"),
            < 0 => Html.Of($"<b class=\"worst\">{number}</b>{difference}<small class=\"worst\"> worst</small>"),
            _ => Html.Of($"{number}{difference}"),
        };
    }

    /// <summary>
    /// 1 for the best and what is similar to it, −1 for the worst and what is similar to it, 0 between them or similar to both, and where all are similar or shown as the same
    /// number. Where a layout has no value, it may be the worst.
    /// </summary>
    internal static int Mark(Better better, IReadOnlyList<double?> values, double value, int decimals, Func<double, double, double> whole)
    {
        if (better == Better.Smaller)
            return Mark(Better.Less, [.. values.Select(v => v is { } known ? Math.Abs(known) : (double?)null)], Math.Abs(value), decimals, whole);
        var known = values.OfType<double>().ToArray();
        if (better == Better.Neither || known.Length < 2)
            return 0;
        var (low, high) = (known.Min(), known.Max());
        if (AreSimilar(low, high) || Math.Round(high, decimals) == Math.Round(low, decimals))
            return 0;
        var (best, worst) = better == Better.Less ? (low, high) : (high, low);
        return (AreSimilar(value, best), AreSimilar(value, worst)) switch
        {
            (true, false) => 1,
            (false, true) when known.Length == values.Count => -1,
            _ => 0,
        };

        bool AreSimilar(double one, double other) => Math.Abs(one - other) <= Noticeable.Share * whole(one, other);
    }

    private static Html Difference(double value, double? baseline) => baseline is { } reference && reference != 0
        ? Html.Of($" <small>{SignedPercent(100 * ((value / reference) - 1) * (value < 0 == reference < 0 ? 1 : Math.Sign(reference)))}</small>")
        : default;

    private static string SignedPercent(double percent)
    {
        var number = PlotText.Number(percent, 0);
        return number is "0" ? "±0 %" : percent > 0 ? $"+{number} %" : $"{number} %";
    }
}
