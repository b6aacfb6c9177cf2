using System.Collections.Immutable;
using System.Globalization;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Sweeps;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>The verdict of a comparison in words.</summary>
public static class VerdictWords
{
    private const int MostNamed = 4;
    private const string AsTheyAre = " for the dampers as they are";
    private const string NotTuned = $"{AsTheyAre}, and the tuning that the scenario asks for is not part of a comparison";
    private const string NothingWorse = "nothing compared gets noticeably worse";

    /// <summary>Which differences count: for the decision, its price and what tables mark.</summary>
    public static string Rule { get; } = Invariant(
        $"A difference counts from {Unit.Percent.Of(Noticeable.Share):F0} %: tyre loads relative to a side's load at rest, overshoots in points, all else relative to the larger value.");

    /// <summary>The decision, with what it costs and where it was checked.</summary>
    /// <param name="verdict">The verdict.</param>
    /// <param name="asksForTuning">Whether the scenario also asks for a tuning of its dampers, which a comparison does not run.</param>
    /// <returns>Null where there is nothing to decide: one layout and nothing asked of it.</returns>
    public static string? Decision(Verdict verdict, bool asksForTuning = false) =>
        Headline(verdict) is { } headline ? $"{headline} {Basis(verdict, asksForTuning ? NotTuned : "", "")}" : null;

    /// <summary>What to choose, or what is missed and what would help, with price and risk.</summary>
    /// <param name="verdict">The verdict.</param>
    /// <returns>Null where there is nothing to decide: one layout and nothing asked of it.</returns>
    public static string? Headline(Verdict verdict)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        return verdict switch
        {
            { Targets: null, Layouts.Length: 1 } => null,
            { Choice: { } choice, Layouts.Length: 1 } => $"{Quoted(choice)} {MeetsAll(choice)}.{Risk(verdict)}",
            { Choice: { } choice } => $"Choose {Quoted(choice)}: {Reason(verdict, choice)}{Gain(verdict)}.{Cost(verdict)}{Risk(verdict)}",
            { Nearest: { } nearest } => $"{NoneMeets(verdict, nearest)} {string.Join("; ", nearest.Missed.Select(Beside))}.{Price(verdict, nearest)}{Risk(verdict)} {Remedy(verdict.Remedy, verdict.SettingWithoutRoom, verdict.Changes)}",
            _ when !verdict.Usable.Any() => $"No layout can be recommended: {string.Join("; ", verdict.Layouts.Take(MostNamed).Select(Against))}{(verdict.Layouts.Length > MostNamed ? "; and so on" : "")}.",
            _ => $"Nothing decides between the layouts: they are similar in {Listed([.. verdict.Quantities.Where(quantity => !quantity.IsToldOnly && quantity.Counts(verdict.States[0])).Select(quantity => quantity.Name)])}.{ToldOnly(verdict.Differences)}",
        };
    }

    /// <summary>What the decision rests on: which loads and roads, and what was not asked.</summary>
    /// <param name="verdict">The verdict.</param>
    /// <param name="tuning">What the dampers were tuned for, where a tuning stands beside the decision; null otherwise.</param>
    /// <param name="robust">How the tuned dampers hold; null where that is not known.</param>
    public static string Basis(Verdict verdict, TuningResult? tuning = null, RobustResult? robust = null)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        return tuning is null ? Basis(verdict, "", "") : Basis(verdict, AsTheyAre, $" {TuningConclusions.InShort(tuning, robust)}");
    }

    private static string Basis(Verdict verdict, string asked, string tuned) => $"Confidence: {Untold(verdict, asked)}{Where(verdict)}{OnVehicle(verdict)}{tuned}";

    /// <summary>Of a vehicle with two axles: what the targets are judged on, and what the whole vehicle does.</summary>
    private static string OnVehicle(Verdict verdict)
    {
        if (verdict.Targets is null || verdict.Named is not { } named)
            return "";
        VehicleModeSet[] modes = [.. verdict.States.Select(state => state.Result.Layouts[named.Index].OnVehicle?.Modes).OfType<VehicleModeSet>()];
        if (modes.Length == 0)
            return "";
        if (modes.Any(vehicle => vehicle.RollsInParts))
            return " Targets are judged on this axle alone: with so soft a frame each end of the body rolls nearly by itself, and no single damping ratio describes the whole vehicle.";
        return !named.IsJudgedOnVehicle ? " Targets are judged on this axle alone." : " Targets are those of this axle; for roll the whole vehicle is judged too" + (verdict.Changes.IsEmpty ? "." : ", and a change must also keep its bounce or pitch within the heave limits.");
    }

    /// <summary>How much of a target that is met is left in reserve.</summary>
    /// <param name="target">The target.</param>
    public static string Reserve(TargetMargin target)
    {
        ArgumentNullException.ThrowIfNull(target);
        return Invariant($"{(target.Share is > 0 and < 0.01 ? "less than 1" : Invariant($"{Unit.Percent.Of(target.Share):F0}"))} % in reserve");
    }

    /// <summary>Why a layout cannot be used, in a few words; null where nothing is against it.</summary>
    /// <param name="layout">The layout.</param>
    public static string? Obstacles(LayoutVerdict layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        string[] reasons =
        [
            .. layout.IsCandidate ? [] : new[] { "cannot be built" },
            .. layout.Obstacles.DistinctBy(obstacle => obstacle.Kind).Select(obstacle => Reason(obstacle.Kind) + In(obstacle.Load)),
        ];
        return reasons.Length == 0 ? null : Listed(reasons);
    }

    /// <summary>What a target is about, as the subject of a sentence.</summary>
    /// <param name="target">The target.</param>
    public static string Quantity(TargetMargin target)
    {
        ArgumentNullException.ThrowIfNull(target);
        return $"{ModeNames.Key(DampingTargets.ModeOf(target.Target))} damping ratio{(target.IsOnVehicle ? " of the whole vehicle" : "")}";
    }

    /// <summary>A damping ratio beside the one that is asked for: with a third decimal where two would hide on which side of it it lies.</summary>
    /// <param name="ratio">The damping ratio.</param>
    /// <param name="limits">What is asked for.</param>
    public static string Ratio(double ratio, params IEnumerable<double> limits)
    {
        var rounded = Math.Round(ratio, 2);
        return ratio is > 0 and < 0.005 ? "<0.01"
            : limits.Any(limit => limit >= Math.Min(ratio, rounded) && limit <= Math.Max(ratio, rounded) && ratio != limit) ? Invariant($"{ratio:F3}") : Invariant($"{ratio:F2}");
    }

    /// <summary>A damping ratio at the reference velocity, with the decimals that show whether it meets its targets.</summary>
    /// <param name="study">The case.</param>
    /// <param name="mode">The mode.</param>
    /// <param name="ratio">The damping ratio.</param>
    public static string Ratio(StudyCase study, ModeName mode, double ratio)
    {
        ArgumentNullException.ThrowIfNull(study);
        return Ratio(ratio, study.Targets is { } targets && targets.Velocity == study.Analysis.ReferenceVelocity
            ? targets.All.Where(target => DampingTargets.ModeOf(target) == mode).Select(target => targets.Limit(target)!.Value) : []);
    }

    /// <summary>A value of a quantity with its unit.</summary>
    private static string Value(DecidingQuantity quantity, double value) => $"{Number(quantity, value)} {quantity.Unit.Symbol}".TrimEnd();

    private static string Number(DecidingQuantity quantity, double value) =>
        (value == quantity.Beyond ? "more than " : "") + (Math.Round(value, quantity.Decimals) + 0.0).ToString($"F{quantity.Decimals}", CultureInfo.InvariantCulture); // + 0.0 drops the sign of −0

    private static string Reason(Verdict verdict, LayoutVerdict choice)
    {
        LayoutVerdict[] usable = [.. verdict.Usable];
        var of = usable.Length == verdict.Layouts.Length ? "" : $"of the layouts that can be {Usable(verdict)}, ";
        if (usable.Length == 1)
            return $"it is the only layout that can be {Usable(verdict)}{(verdict.Targets is null ? "" : $", and it {MeetsAll(choice)}")}";
        if (verdict.Targets is null)
            return $"{of}it has {Better(verdict.Ground!, choice)}";
        LayoutVerdict[] others = [.. usable.Where(layout => layout != choice && layout.MeetsTargets)];
        if (others.Length == 0)
            return $"{of}it alone {MeetsAll(choice)}";
        var like = others.Length <= MostNamed ? Listed([.. others.Select(Quoted)]) : Invariant($"{others.Length} others");
        return $"{of}it {MeetsAll(choice)}, as {(others.Length == 1 ? "does" : "do")} {like}, and has {(verdict.Ground is { } ground ? Better(ground, choice) : "the larger margin to its closest target")}";
    }

    /// <summary>That a layout meets all targets, and how safely.</summary>
    private static string MeetsAll(LayoutVerdict layout) =>
        layout.Closest is { } closest ? $"meets all targets, the closest one with {Reserve(closest)} ({Beside(closest, InFull(closest.Ratio))})" : "meets all targets";

    private static string Risk(Verdict verdict)
    {
        if (verdict.Named is not { } named)
            return "";
        string[] risks =
        [
            .. named.LostByScatter is { } miss ? [Scatter(miss)] : Array.Empty<string>(),
            .. verdict.PlaceRisks.Select(risk => Place(named, risk)),
            .. verdict.Lightest is { } side ? [Light(side)] : Array.Empty<string>(),
        ];
        return risks.Length == 0 ? "" : $" {(risks.Length == 1 ? "Risk" : "Risks")}: {string.Join("; ", risks)}.";
    }

    /// <summary>What a damper within its tolerance does to a target.</summary>
    private static string Scatter(ScatterMiss miss)
    {
        var (target, tolerance) = (miss.Target, miss.Tolerance);
        return $"dampers {Percent(tolerance.Share)} % {(miss.IsHarder ? "harder" : "softer")} ({(tolerance.IsStated ? "stated tolerance" : "usual scatter")}) give a {Quantity(target)} of {Ratio(target.Ratio, target.Limit)}{In(target.Load)}, target {Limit(target)}";
    }

    private static string Place(LayoutVerdict layout, PlaceRisk risk) => risk.Kind switch
    {
        PlaceRiskKind.EndOfRoom => Invariant($"{Quoted(layout)} sits within {Unit.Millimetre.Show(risk.Value):0.#} of the end of its room: a bracket that much off takes the clearance{In(risk.Load)} ({risk.Contact!.Text})"),
        PlaceRiskKind.OnBumpStop => Invariant($"the body stands on its bump stops at rest{In(risk.Load)}, compressed by {Unit.Millimetre.Show(risk.Value):F0}"),
        PlaceRiskKind.OnReboundStop => Invariant($"the rebound stops are compressed at rest{In(risk.Load)}, by {Unit.Millimetre.Show(risk.Value):F0}"),
        PlaceRiskKind.TooLong => Invariant($"over the whole travel the dampers of {Quoted(layout)} close metal to metal{In(risk.Load)}: {Unit.Millimetre.Show(risk.Value):F1} of stroke are missing"),
        PlaceRiskKind.TooShort => Invariant($"over the whole travel the dampers of {Quoted(layout)} are pulled to their end{In(risk.Load)}: {Unit.Millimetre.Show(risk.Value):F1} of stroke are missing"),
        PlaceRiskKind.ClosesBeforeStops => Invariant($"beyond the travel given, the dampers of {Quoted(layout)} close metal to metal before the stops touch{In(risk.Load)}: {Unit.Millimetre.Show(risk.Value):F1} of stroke are missing"),
        _ => Invariant($"beyond the travel given, the dampers of {Quoted(layout)} are pulled to their end before the stops touch{In(risk.Load)}: {Unit.Millimetre.Show(risk.Value):F1} of stroke are missing"),
    };

    private static string Light(LightestSide side)
    {
        var others = side.BestOfOthers is { } best ? Invariant($" (with the other layouts at most {best:F0} N)") : "";
        return Invariant($"a side keeps only {side.TyreLoad:F0} N, {Unit.Percent.Of(side.Share):F0} % of its load at rest{(side.Phase is { } phase ? $", in phase “{phase}”" : "")}{In(side.Load)}{others}, and has hardly any grip there");
    }

    /// <summary>A share in per cent, without its unit.</summary>
    internal static string Percent(double share) => Invariant($"{Unit.Percent.Of(share):0.#}");

    private static string Better(Advantage ground, LayoutVerdict choice)
    {
        var (quantity, state) = (ground.Quantity, ground.State);
        var word = quantity.Better == Metrics.Better.More ? "a greater" : "less";
        return $"{word} {quantity.Name} ({Value(quantity, quantity.In(state, choice.Index)!.Value)} against {Value(quantity, quantity.In(state, ground.Than.Index)!.Value)} with {Quoted(ground.Than)}{In(state.Study.Load?.Name)})";
    }

    private static string Cost(Verdict verdict)
    {
        if (verdict.Usable.Count() < 2)
            return "";
        return !verdict.Prices.IsEmpty ? Price(verdict, verdict.Choice!)
            : $" Price{(verdict.Usable.Count() > 2 ? $" against {NextBest(verdict)}" : "")}: {NothingWorse}.";
    }

    private static string Gain(Verdict verdict) => verdict.Gains.IsEmpty ? "" : $", and is best in {Listed([.. verdict.Gains.Select(quantity => quantity.Name)])}";

    /// <summary>What a layout costs against the one that would be taken in its place.</summary>
    private static string Price(Verdict verdict, LayoutVerdict layout) => verdict.Prices.IsEmpty ? ""
        : $" Price against {NextBest(verdict)}: {Listed([.. verdict.Prices.Select(price => Changed(price.Quantity, price.Quantity.In(price.State, layout.Index)!.Value, price.Quantity.In(price.State, price.Than.Index)!.Value) + In(price.State.Study.Load?.Name))])}.";

    private static string NextBest(Verdict verdict) => Quoted(verdict.NextBest!) + (verdict.Usable.Count() > 2 ? ", the next best" : "");

    /// <summary>What the scenario does not ask, and a decision therefore not tell.</summary>
    private static string Untold(Verdict verdict, string asked)
    {
        var targets = $"no targets were given{asked}";
        return verdict.Targets is not null ? ""
            : verdict.States[0].Study.Manoeuvre.HasCorner ? $"{targets}; "
            : $"{targets} and no corner was driven; ";
    }

    private static string ToldOnly(ImmutableArray<Difference> differences)
    {
        static string Of(Difference found)
        {
            string With(LayoutVerdict layout) => $"{Value(found.Quantity, found.Quantity.In(found.State, layout.Index)!.Value)} with {Quoted(layout)}";
            return $"{found.Quantity.Name} ({With(found.Better)}, {With(found.Worse)}{In(found.State.Study.Load?.Name)})";
        }

        return differences.IsEmpty ? "" : $" {Capital(Listed([.. differences.Select(Of)]))} {(differences.Length == 1 ? "differs" : "differ")}, but that alone is no reason to choose.";
    }

    private static string Changed(DecidingQuantity quantity, double value, double instead) => $"{quantity.Name} {Number(quantity, value)} instead of {Value(quantity, instead)}";

    /// <summary>Names of load states in a list; a name with a comma in it, as “full, hot”, is told apart from two.</summary>
    /// <param name="names">The names.</param>
    public static string LoadNames(IReadOnlyList<string> names)
    {
        ArgumentNullException.ThrowIfNull(names);
        return string.Join(names.Any(name => name.Contains(',', StringComparison.Ordinal)) ? "; " : ", ", names);
    }

    /// <summary>Over which loads and roads it was looked at.</summary>
    private static string Where(Verdict verdict)
    {
        var loads = verdict.States.Select(state => state.Study.Load?.Name).OfType<string>().ToArray();
        var load = loads.Length switch
        {
            > 1 => Invariant($"in {(loads.Length == 2 ? "both" : Invariant($"all {loads.Length}"))} load states ({LoadNames(loads)})"),
            1 => $"in load state “{loads[0]}” only",
            _ => "at one load only",
        };
        var seeds = verdict.States.FirstOrDefault(state => state.Seeds.Count > 0)?.Seeds;
        var road = verdict.States[0].Study.Manoeuvre.Road.Unevenness is null ? ""
            : seeds is null ? ", on one random road"
            : Invariant($", on {seeds[0].Runs.Length} random roads");
        return $"checked {load}{road}.";
    }

    private static string NoneMeets(Verdict verdict, LayoutVerdict nearest)
    {
        var usable = verdict.Usable.Count();
        return verdict.Layouts.Length == 1 ? $"{Quoted(nearest)} misses its targets:"
            : usable == 1 ? $"The only layout that can be {Usable(verdict)}, {Quoted(nearest)}, misses its targets:"
            : $"{(usable == verdict.Layouts.Length ? "No layout" : $"No layout that can be {Usable(verdict)}")} meets all targets. {Quoted(nearest)} comes nearest:";
    }

    /// <summary>What can be done with some layouts and not with the others.</summary>
    private static string Usable(Verdict verdict) => verdict.Layouts.All(layout => layout.CanBeUsed || !layout.IsCandidate) ? "built" : "used";

    /// <summary>A damping ratio beside its target.</summary>
    private static string Beside(TargetMargin target) => Beside(target, Ratio(target.Ratio, target.Limit));

    private static string Beside(TargetMargin target, string ratio) => $"{Quantity(target)} {ratio}{In(target.Load)}, target {Limit(target)}";

    /// <summary>A damping ratio with the decimals from which the reserve beside it can be worked out.</summary>
    private static string InFull(double ratio) => Invariant($"{ratio:0.00#}");

    private static string Limit(TargetMargin target) => Invariant($"at {(target.Target == DampingTarget.HeaveMaximum ? "most" : "least")} {target.Limit:0.00#}");

    /// <summary>That no single change does, and what came of those that meet the damping ratios.</summary>
    private static string NoRemedy(TargetRemedy? setting, ImmutableArray<TriedChange> changes)
    {
        static string Curve(TargetRemedy remedy) => remedy.CurveScale == 1 ? "" : Invariant($" (curve × {remedy.CurveScale:0.00})");
        static string Named(TriedChange change) => Changed(change.Found!) + Curve(change.Found!);
        string[] barred =
        [
            .. changes.Where(change => !change.Against.IsEmpty).GroupBy(change => string.Join(' ', change.Against)).Select(alike =>
                $"with {Listed([.. alike.Select(Named)], "or")} the vehicle {Listed([.. alike.First().Against.Select(kind => Reason(kind) + Amount(kind, alike))])}"),
        ];
        var tight = changes.Where(change => change is { MeetsTargets: true, Kind: not null }).ToArray();
        string[] reasons =
        [
            .. barred,
            .. tight.Length == 0 ? [] : new[] { $"with {Listed([.. tight.Select(Named)], "or")} the targets are met without room for {(setting is null ? Tolerance(tight[0].Found!.Tolerance) : "it")}" },
        ];
        return setting is null
            ? $"No single change of damper setting, damper position, springs, anti-roll bar or track serves: {(reasons.Length == 0 ? "none meets the damping ratios" : string.Join("; ", reasons))}."
            : $"{SettingAlone(setting)} No single change of damper position, springs, anti-roll bar or track leaves that room{(reasons.Length == 0 ? "" : $": {string.Join("; ", reasons)}")}.";
    }

    /// <summary>How far the worst of some changes leaves the travel.</summary>
    private static string Amount(ObstacleKind kind, IEnumerable<TriedChange> changes) =>
        kind != ObstacleKind.BeyondTravel || changes.Select(change => change.Overrun).OfType<TravelOverrun>().MaxBy(overrun => overrun.Value / overrun.Limit) is not { } worst ? ""
        : worst.Kind == TravelKind.Roll ? Invariant($" (body roll on the axle up to {Unit.Degree.Of(worst.Value):F1} of {Unit.Degree.Show(worst.Limit):0.0#})")
        : Invariant($" ({(worst.Kind == TravelKind.Bump ? "bump" : "rebound")} up to {Unit.Millimetre.Of(worst.Value):F0} of {Unit.Millimetre.Show(worst.Limit):F0})");

    /// <summary>A change as a thing.</summary>
    private static string Changed(TargetRemedy remedy) => remedy.Kind switch
    {
        null => "another setting",
        RemedyKind.DamperPosition => $"the dampers {Shift(remedy)}",
        _ => Change(remedy),
    };

    private static string Remedy(TargetRemedy? remedy, TargetRemedy? setting, ImmutableArray<TriedChange> changes)
    {
        if (remedy is null)
            return NoRemedy(setting, changes);
        var scale = remedy.CurveScale == 1 ? "the damper curve as it is" : Invariant($"the damper curve scaled by {remedy.CurveScale:0.00}");
        var does = setting is null
            ? $"{Capital(remedy.Kind is null ? scale : $"{Change(remedy)} with {scale}")} meets all targets{Room(remedy)}"
            : $"{SettingAlone(setting)} {Capital(Change(remedy))} with {Invariant($"the curve × {remedy.CurveScale:0.00}")} leaves {(remedy.HasRoom ? "that room" : $"±{Percent(remedy.Room)} %")}";
        return $"{does}. Its price: {Price(remedy)}.";
    }

    /// <summary>That the setting alone would do, were it not for the tolerance of the dampers.</summary>
    private static string SettingAlone(TargetRemedy setting) => Invariant(
        $"The damper curve × {setting.CurveScales.Least:0.00} to {setting.CurveScales.Greatest:0.00} alone meets all targets, {(setting.HasSomeRoom ? $"with room for ±{Percent(setting.Room)} % only, not for" : "without room for")} the {(setting.Tolerance.IsStated ? "stated" : "usual")} ±{Percent(setting.Tolerance.Share)} %.");

    /// <summary>What each remedy for a layout, and another setting alone, costs when driven: a line for each that costs something noticeable, and one for those that do not.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="changes">What was tried with it.</param>
    public static IEnumerable<string> Prices(LayoutVerdict layout, ImmutableArray<TriedChange> changes)
    {
        ArgumentNullException.ThrowIfNull(layout);
        var found = changes.Where(change => change.Works || change is { Kind: null, MeetsTargets: true }).Select(change => (change.Found!, Price: Price(change.Found!))).ToLookup(remedy => remedy.Price == NothingWorse);
        if (found[true].Any())
            yield return $"{Quoted(layout)}, without a noticeable price: {Listed([.. found[true].Select(remedy => InShort(remedy.Item1))])}.";
        foreach (var (remedy, price) in found[false])
            yield return $"{Quoted(layout)}, price of {InShort(remedy)}: {price}.";
    }

    /// <summary>A change as a thing, its present value left to the table beside it.</summary>
    private static string InShort(TargetRemedy remedy) => remedy.Kind switch
    {
        null => Invariant($"the damper curve × {remedy.CurveScale:0.00}"),
        RemedyKind.DamperPosition => $"the dampers {Shift(remedy)}",
        RemedyKind.SpringPosition => Invariant($"springs {Unit.Millimetre.Of(2 * remedy.Value):F0} mm apart"),
        RemedyKind.AntiRollBar => Invariant($"an anti-roll bar of {Unit.NewtonMetrePerDegree.Of(remedy.Value):F0} N·m/deg"),
        _ => Invariant($"a track of {Unit.Millimetre.Of(remedy.Value):F0} mm"),
    };

    /// <summary>How much of the dampers' tolerance a remedy leaves room for.</summary>
    private static string Room(TargetRemedy remedy) => remedy.HasRoom
        ? $" with room for {Tolerance(remedy.Tolerance)}"
        : $", but no change leaves room for {Tolerance(remedy.Tolerance)}: this one leaves ±{Percent(remedy.Room)} %";

    /// <summary>A tolerance of dampers, and whose it is.</summary>
    /// <param name="tolerance">The tolerance.</param>
    public static string Tolerance(DamperTolerance tolerance) =>
        $"{(tolerance.IsStated ? "the dampers' stated tolerance" : "the usual scatter of dampers")}, ±{Percent(tolerance.Share)} %";

    private static string Change(TargetRemedy remedy) => remedy.Kind switch
    {
        RemedyKind.DamperPosition => Invariant($"moving the dampers {Shift(remedy)} ({(remedy.Fits == true ? "they fit there" : "if they fit there")})"),
        RemedyKind.SpringPosition => Invariant($"springs {Unit.Millimetre.Of(2 * remedy.Value):0.#} mm apart instead of {Unit.Millimetre.Of(2 * remedy.Present):0.#} mm"),
        RemedyKind.AntiRollBar => Invariant($"an anti-roll bar of {Unit.NewtonMetrePerDegree.Of(remedy.Value):0.#} instead of {Unit.NewtonMetrePerDegree.Of(remedy.Present):0.#} N·m/deg"),
        _ => Invariant($"a track of {Unit.Millimetre.Of(remedy.Value):0.#} instead of {Unit.Millimetre.Of(remedy.Present):0.#} mm"),
    };

    private static string Shift(TargetRemedy remedy) =>
        Invariant($"{Unit.Millimetre.Of(Math.Abs(remedy.Value - remedy.Present)):F0} mm {(remedy.Value > remedy.Present ? "outboard" : "inboard")}");

    /// <summary>What a remedy costs when driven; the roll gradient only where no corner shows how far the body rolls.</summary>
    private static string Price(TargetRemedy remedy)
    {
        string[] costs =
        [
            .. remedy.CostsRollGradient
                ? [Invariant($"roll gradient {Unit.DegreePerG.Of(remedy.RollGradient.Then):F1} instead of {Unit.DegreePerG.Of(remedy.RollGradient.Present):F1} deg/g")] : Array.Empty<string>(),
            .. remedy.Prices.Select(price => Changed(price.Quantity, price.Then, price.Present) + In(price.Load)),
            .. remedy is { LosesHopDamping: true, HopDampingRatio: var (present, then) } ? [$"hop damping ratio {Ratio(then)} instead of {Ratio(present)}"] : Array.Empty<string>(),
        ];
        return costs.Length > 0 ? Listed(costs) : NothingWorse;
    }

    private static string Against(LayoutVerdict layout) => $"{Quoted(layout)} {Obstacles(layout)}";

    /// <summary>Why a layout or a change to it does not count, in a few words.</summary>
    /// <param name="kind">The reason.</param>
    public static string Reason(ObstacleKind kind) => kind switch
    {
        ObstacleKind.InTheWay => "does not fit its place",
        ObstacleKind.OutOfStroke => "runs out of damper stroke",
        ObstacleKind.WheelLift => "lifts a wheel in the corner: ROLLOVER RISK",
        ObstacleKind.NoStablePosition => "has no stable position in the corner: ROLLOVER RISK",
        ObstacleKind.BeyondTravel => "leaves the travel given",
        ObstacleKind.NotDriven => "cannot be driven through the manoeuvre",
        _ => "meets the targets only on a narrow balance of modes",
    };

    private static string In(string? load) => load is null ? "" : $" in load state “{load}”";

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Quoted(LayoutVerdict layout) => $"“{layout.Name}”";

    private static string Listed(string[] items, string last = "and") => items.Length < 2 ? string.Concat(items) : $"{string.Join(", ", items.SkipLast(1))} {last} {items[^1]}";
}
