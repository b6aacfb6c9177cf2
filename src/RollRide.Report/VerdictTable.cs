using RollRide.Findings;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Plots;
using RollRide.Studies;

namespace RollRide.Report;

/// <summary>The table that the decision rests on: one row per target and deciding quantity, one column per layout, every load state in each cell.</summary>
internal static class VerdictTable
{
    // Of more load states a cell shows the one that decides.
    internal const int MostInACell = 4;

    private const string OnVehicleToo = ", roll of the whole vehicle too";

    private static readonly ModeName[] Judged = [ModeName.Roll, ModeName.Heave, ModeName.Hop, ModeName.Tramp];

    /// <summary>Writes the table.</summary>
    /// <param name="verdict">The verdict.</param>
    /// <param name="styles">The styles of the layouts.</param>
    public static Html Write(Verdict verdict, LayoutStyles styles)
    {
        var layouts = verdict.Layouts;
        var loads = verdict.States.Select(state => state.Study.Load?.Name).OfType<string>().ToArray();
        var order = loads.Length is > 1 and <= MostInACell ? string.Join(" · ", loads) : null;
        var place = layouts.Any(layout => layout.IsPlaceChecked) ? "no contact" : "";
        return Html.Of(
            $"""
            <div class="wide"><table{LayoutColumns.Width(layouts.Length)}>
            <thead><tr><th scope="col">{(loads.Length > 1 ? $"In load states {VerdictWords.LoadNames(loads)}" : "")}</th><th scope="col">{(verdict.Targets is null && place.Length == 0 ? "" : "Target")}</th>{LayoutColumns.Headings(styles, [.. layouts.Select(layout => layout.Name)], i => (layouts[i].IsCandidate, order) is (true, null) ? null : string.Join("; ", new[] { layouts[i].IsCandidate ? null : "for comparison only", order }.OfType<string>()))}</tr></thead>
            <tbody>
            {Html.Join(RatioRows(verdict))}{OnVehicle(verdict)}{Html.Join(verdict.Told.Select(quantity => QuantityRow(verdict, quantity)))}{RollGradient(verdict)}{Row("Fits its place", place, layouts, Place, isText: true)}
            {(verdict.Targets is null && layouts.All(layout => layout.Obstacles.IsEmpty) ? default : Row("Verdict", "", layouts, Outcome, isText: true))}</tbody></table></div>
            {(layouts.Length == 1 ? default : Html.Of($"<p class=\"note\">{VerdictWords.Rule}{(verdict.States[0].IsOfOneRandomRoad ? " The least tyre load on one random road does not count: another road has another." : "")}{Window(verdict)}</p>"))}

            """);
    }

    /// <summary>Over which part of the run the ride is measured: the weighted acceleration at the worst seat is not of the whole run, as other figures are.</summary>
    private static string Window(Verdict verdict) => verdict.States[0].Study.Manoeuvre is var manoeuvre && RideWords.Window(manoeuvre) is { Length: > 0 } window
        ? $" The acceleration at the worst seat is that over the random road{(manoeuvre.Road.HasEvents ? " with its obstacles" : "")}{window}." : "";

    private static IEnumerable<Html> RatioRows(Verdict verdict)
    {
        if (verdict.Targets is not { } targets)
        {
            var speed = FormattableString.Invariant($"{verdict.States[0].Study.Analysis.ReferenceVelocity:0.###} m/s");
            return Judged.Take(2).Select(mode => Row($"{mode} damping ratio at {speed}", "", verdict.Layouts, layout =>
                Listed(verdict.States.Select(state => Html.Of($"{VerdictWords.Ratio(state.Result.Layouts[layout.Index].ReferenceModes[mode].DampingRatio)}")))));
        }

        return
            from mode in Judged
            let asked = targets.All.Where(target => DampingTargets.ModeOf(target) == mode).ToArray()
            let label = FormattableString.Invariant($"{mode} damping ratio at {targets.Velocity:0.###} m/s")
            where asked.Length > 0 || (mode == ModeName.Hop && verdict.Remedy is { LosesHopDamping: true })
            select asked.Length > 0
                ? Row(label, Asked(targets, asked), verdict.Layouts, layout => Ratios(layout.Targets.Where(target => !target.IsOnVehicle && asked.Contains(target.Target))))
                : Row(label, "", verdict.Layouts, layout => Listed(verdict.States.Select(state => Html.Of($"{VerdictWords.Ratio(state.Result.Layouts[layout.Index].Window!.Modes[mode].DampingRatio)}"))));
    }

    /// <summary>The roll gradient, where it is the price of the remedy.</summary>
    private static Html RollGradient(Verdict verdict) => verdict.Remedy is { CostsRollGradient: true }
        ? Row($"Roll gradient, {Unit.DegreePerG.Symbol}", "", verdict.Layouts, layout => Listed(verdict.States.Select(state =>
            Html.Of($"{PlotText.Number(Unit.DegreePerG.Of(state.Result.Layouts[layout.Index].RollGradient), 1)}"))))
        : default;

    /// <summary>The roll damping ratio of the whole vehicle, where the axle is part of one and its frame stiff enough for it to have one; the rows above are of the axle alone.</summary>
    private static Html OnVehicle(Verdict verdict)
    {
        if (verdict.States[0].Study.Vehicle.SecondAxle is null || verdict.States.Any(state => state.Result.Layouts.Any(layout => layout.OnVehicle!.Modes.RollsInParts)))
            return default;
        if (verdict.Targets is { } targets && verdict.Layouts.All(layout => layout.IsJudgedOnVehicle))
        {
            return Row(FormattableString.Invariant($"Roll damping ratio of the whole vehicle at {targets.Velocity:0.###} m/s"), Asked(targets, [DampingTarget.RollMinimum]), verdict.Layouts, layout => Ratios(layout.Targets.Where(target => target.IsOnVehicle)));
        }

        var speed = verdict.States[0].Study.Analysis.ReferenceVelocity;
        return Row(FormattableString.Invariant($"Roll damping ratio of the whole vehicle at {speed:0.###} m/s"), "", verdict.Layouts, layout =>
            Listed(verdict.States.Select(state => Html.Of($"{VerdictWords.Ratio(state.Result.Layouts[layout.Index].OnVehicle!.Modes.Roll.DampingRatio)}"))));
    }

    private static string Asked(DampingTargets targets, DampingTarget[] asked)
    {
        string Limit(DampingTarget target) => FormattableString.Invariant($"{targets.Limit(target):0.00#}");
        return asked.Length == 2 ? $"{Limit(asked[0])} to {Limit(asked[1])}" : $"{(asked[0] == DampingTarget.HeaveMaximum ? "at most" : "at least")} {Limit(asked[0])}";
    }

    /// <summary>The damping ratio of one mode in each load state, and whether it meets what is asked for there.</summary>
    private static Html Ratios(IEnumerable<TargetMargin> targets)
    {
        TargetMargin[][] states = [.. targets.GroupBy(target => target.Load).Select(state => state.ToArray())];
        if (states.Length <= MostInACell)
            return Listed(states.Select(Ratio));
        var worst = states.MinBy(state => state.Min(target => target.Share))!;
        var missed = states.Count(state => !state.All(target => target.IsMet));
        return Html.Of($"{Ratio(worst)} <small>{worst[0].Load}{(missed > 0 ? FormattableString.Invariant($"; misses in {missed} of {states.Length}") : "")}</small>");
    }

    private static Html Ratio(TargetMargin[] targets)
    {
        var number = VerdictWords.Ratio(targets[0].Ratio, targets.Select(target => target.Limit));
        return targets.All(target => target.IsMet) ? Html.Of($"<span class=\"pass\">{number} ✓</span>") : Html.Of($"<b class=\"miss\">{number} ✗</b>");
    }

    private static Html QuantityRow(Verdict verdict, DecidingQuantity quantity)
    {
        string Cell(LayoutVerdict layout)
        {
            var values = verdict.States.Select(state => (Value: quantity.In(state, layout.Index), Interval: quantity.Interval(state, layout.Index))).ToArray();
            var numbers = values.Select(at => at.Value is not { } value ? "–" : (value == quantity.Beyond ? SettlingWords.Beyond(value) : PlotText.Number(value, quantity.Decimals)) + (at.Interval is { } interval ? $" ± {PlotText.Number(interval.HalfWidth, quantity.Decimals)}" : "")).ToArray();
            if (numbers.Length <= MostInACell)
                return string.Join(" · ", numbers);
            var known = values.Select(at => at.Value).OfType<double>().ToArray();
            return known.Length == 0 ? "–" : $"{PlotText.Number(known.Min(), quantity.Decimals)} to {PlotText.Number(known.Max(), quantity.Decimals)}";
        }

        if (verdict.Layouts.All(layout => verdict.States.All(state => quantity.In(state, layout.Index) is null)))
            return default;
        return Row($"{char.ToUpperInvariant(quantity.Name[0])}{quantity.Name[1..]}{(quantity.Unit.Symbol.Length == 0 ? "" : $", {quantity.Unit.Symbol}")}", "", verdict.Layouts, layout => Html.Of($"{Cell(layout)}"));
    }

    private static Html Place(LayoutVerdict layout)
    {
        var contact = layout.Obstacles.FirstOrDefault(obstacle => obstacle.Kind == ObstacleKind.InTheWay)?.Place?.InTheWay[0];
        return contact is not null ? Html.Of($"<b class=\"miss\">✗</b> <small>{contact.Text}</small>")
            : layout.IsPlaceChecked ? Html.Of($"<span class=\"pass\">✓</span>")
            : Html.Of($"<small>not checked</small>");
    }

    private static Html Outcome(LayoutVerdict layout)
    {
        string[] against =
        [
            .. VerdictWords.Obstacles(layout) is { } obstacles ? new[] { obstacles } : [],
            .. Missed([.. layout.Missed.Where(target => !target.IsOnVehicle).Select(target => ModeNames.Key(DampingTargets.ModeOf(target.Target))).Distinct()], layout.Missed.Any(target => target.IsOnVehicle)),
        ];
        return against.Length > 0 ? Html.Of($"<b class=\"miss\">{string.Join("; ", against)}</b>")
            : layout.Targets.IsEmpty ? Html.Of($"–")
            : Html.Of($"<b class=\"pass\">meets all targets</b>, {VerdictWords.Reserve(layout.Closest!)}");
    }

    /// <summary>The damping ratios that miss their targets, of the axle and of the whole vehicle.</summary>
    private static string[] Missed(string[] modes, bool missesOnVehicle) => modes.Length switch
    {
        0 => missesOnVehicle ? ["misses roll damping ratio of the whole vehicle"] : [],
        1 => [$"misses {modes[0]} damping ratio{(missesOnVehicle ? OnVehicleToo : "")}"],
        _ => [$"misses {string.Join(", ", modes.SkipLast(1))} and {modes[^1]} damping ratios{(missesOnVehicle ? OnVehicleToo : "")}"],
    };

    private static Html Row(string label, string target, IEnumerable<LayoutVerdict> layouts, Func<LayoutVerdict, Html> cell, bool isText = false) => Html.Of(
        $"<tr{(isText ? Html.Of($" class=\"text\"") : default)}><th scope=\"row\">{label}</th><td class=\"unit\">{target}</td>{Html.Join(layouts.Select(layout => Html.Of($"<td data-layout=\"{layout.Name}\">{cell(layout)}</td>")))}</tr>\n");

    private static Html Listed(IEnumerable<Html> states) => Html.Join(states.SelectMany((state, i) => i == 0 ? [state] : new[] { Html.Of($" · "), state }));
}
