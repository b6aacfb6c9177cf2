using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Sweeps;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>How far dampers may stray from their drawing, how many vehicles miss, and what robustness costs, in words.</summary>
public static class RobustConclusions
{
    // So small a change of the ride is none: nobody feels it; common practice, no source.
    private const double SameRide = 0.005;

    // Ratios are told to a thousandth: rounded up, so that the one told does what is said.
    private const double HalfAThousandth = 0.0005;

    // What a workshop can measure of one order, and what is to be shown by it; common practice, no source.
    private const int MeasuredDampers = 10;
    private const double Coverage = 0.95, Confidence = 0.95;

    // The share of misses for which the number of vehicles is told that would show it.
    private const double FewMisses = 0.01;

    /// <summary>Draws the conclusions.</summary>
    /// <param name="result">The valvings.</param>
    /// <returns>One sentence per item, layout by layout.</returns>
    public static IReadOnlyList<string> Of(RobustResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return
        [
            .. result.Layouts.SelectMany(layout => OnMargins(result, layout).Concat([.. OnMisses(result, layout), .. OnCost(result, layout)]).Select((sentence, i) => i == 0 ? sentence : $"  {sentence}")),
            .. OnMeasuring(result),
        ];
    }

    /// <summary>How far the dampers may stray.</summary>
    /// <param name="result">The valvings.</param>
    public static IEnumerable<string> Margins(RobustResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return result.Layouts.SelectMany(layout => OnMargins(result, layout)).Concat(OnMeasuring(result));
    }

    /// <summary>How many vehicles miss, and what robustness costs.</summary>
    /// <param name="result">The valvings.</param>
    public static IEnumerable<string> MissesAndCost(RobustResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return result.Layouts.SelectMany(layout => OnMisses(result, layout).Concat(OnCost(result, layout)).Select(sentence => $"“{layout.Name}”: {sentence}"));
    }

    private static IEnumerable<string> OnMargins(RobustResult result, RobustLayout layout)
    {
        var valving = layout.Robust;
        TargetWindow[] windows = [valving.Heave, valving.Roll];
        TargetWindow[] closed = [.. windows.Where(window => !window.IsOpen)];
        foreach (var window in closed)
            yield return OnClosed(layout.Name, window);
        if (closed.Length > 0)
            yield break;
        var (soft, hard) = (windows.MinBy(window => window.Softer)!, windows.MinBy(window => window.Harder)!);
        string[] outside =
        [
            .. valving.Softer < 0 ? [Invariant($"{-100 * valving.Softer:F1} % of its force too soft for {Name(soft)}{In(soft.Lower.State)}")] : Array.Empty<string>(),
            .. valving.Harder < 0 ? [Invariant($"{-100 * valving.Harder:F1} % too hard for {Name(hard)}{In(hard.Upper.State)}")] : Array.Empty<string>(),
        ];
        var limits = Invariant($"Below, {Name(soft)}{In(soft.Lower.State)} limits it, once a damper has lost {100 * valving.Softer:F1} % of its force; above, {Name(hard)}{In(hard.Upper.State)} limits it, at {100 * valving.Harder:F1} % more force.");
        if (outside.Length > 0)
        {
            yield return $"“{layout.Name}”: no tolerance can be given: the valving itself is {string.Join(" and ", outside)}.";
            yield break;
        }

        if (valving.Tolerance == 0)
        {
            yield return $"“{layout.Name}”: no tolerance can be given: the window leaves less than 1 % of force. {limits}";
            yield break;
        }

        var everywhere = valving.Heave.InStates.Length > 1 ? " in every state of load and damper" : "";
        var others = result.Task is null ? "" : ", with everything else as written";
        yield return Invariant($"“{layout.Name}”: every damper within ±{100 * valving.Tolerance:F0} % of the drawing's force keeps both targets{everywhere}{others}; write ±{100 * valving.Tolerance:F0} % on the drawing. {limits}");
    }

    /// <summary>What a few dampers must measure for the drawing's tolerance to hold for all.</summary>
    private static IEnumerable<string> OnMeasuring(RobustResult result)
    {
        if (result.Layouts.Any(layout => layout.Robust.Tolerance > 0))
            yield return Invariant($"Measure {MeasuredDampers} dampers of an order: if their mean deviation from the drawing plus {ToleranceFactor.TwoSided(MeasuredDampers, Coverage, Confidence):F1} standard deviations stays within the tolerance, so do at least {100 * Coverage:F0} % of the order, with {100 * Confidence:F0} % confidence.");
    }

    private static string OnClosed(string name, TargetWindow window)
    {
        var mode = Name(window);
        var (lower, upper) = (window.Lower, window.Upper);
        var remedy = window.OpeningTolerance is { } opening
            ? Invariant($" A tolerance of ±{RoundedUp(opening)} on the {mode} damping ratio would leave one damper{(window.InStates.Length > 1 ? " for all of them" : "")}.")
            : $" No tolerance on the {mode} damping ratio opens it.";
        if (double.IsInfinity(lower.Lowest))
            return Invariant($"“{name}”: no damper brings {mode} to {window.Target.Ratio - window.Target.Tolerance:0.###}{In(lower.State)}, so that no tolerance can be given.{remedy}");
        var limit = upper.Locks ? $"in “{upper.State}” the suspension locks" : $"“{upper.State}” allows at most";
        return Invariant($"“{name}”: no damper keeps {mode} within ±{window.Target.Tolerance:0.###} in every state: at {window.Target.DamperVelocity:0.###} m/s “{lower.State}” asks for at least {Unit.KilonewtonSecondPerMetre.Show(lower.Lowest):F2} of the damper as drawn, {limit}{(upper.Locks ? " from" : "")} {Unit.KilonewtonSecondPerMetre.Show(upper.Highest):F2}{(upper.Locks ? " on" : "")}, {100 * (1 - (upper.Highest / lower.Lowest)):F0} % less.{remedy}");
    }

    private static IEnumerable<string> OnMisses(RobustResult result, RobustLayout layout)
    {
        if (layout.Robust.Samples == 0)
            yield break;
        var (robust, nominal) = (layout.Robust, layout.Nominal);
        var interval = ShareInterval.Of(robust.Missing, robust.Samples);
        var goal = result.Task!.Goal == RobustGoal.MissShare ? "the fewest misses" : "the least worst case";
        var others = $"Of {robust.Samples} vehicles with the tolerances given, drawn anew after the search,";
        var (misses, share) = robust.Missing == 0
            ? ("none misses a target in any state", Invariant($"at most {100 * interval.High:F1} % of all do{MoreVehicles(robust.Samples)}"))
            : robust.Missing == robust.Samples
                ? ("all miss a target in some state", Invariant($"{100 * interval.Low:F1} % of all or more do"))
                : (Invariant($"{robust.Missing} miss{(robust.Missing == 1 ? "es" : "")} a target in some state"), Invariant($"{100 * interval.Low:F1} to {100 * interval.High:F1} % of all do"));
        yield return $"{others} {misses} with the valving for {goal} (with 95 % confidence {share}); with the valving for perfect parts {nominal.Missing} {(nominal.Missing == 1 ? "does" : "do")}.{OnAll(result, robust)}";
    }

    /// <summary>How many vehicles without a miss would show more.</summary>
    private static string MoreVehicles(int samples) => ShareInterval.Fewest(0, FewMisses, Confidence) is var needed && samples < needed
        ? Invariant($"; {needed} without a miss would show at most {100 * FewMisses:F0} %")
        : "";

    /// <summary>With what tolerances of the ratios none of the vehicles looked at would miss.</summary>
    private static string OnAll(RobustResult result, RobustValving valving)
    {
        var task = result.Tuning.Task;
        string[] wider =
        [
            .. from target in new[] { (Name: "heave", Target: task.Heave, Needed: valving.ToleranceForAll.Heave), (Name: "roll", Target: task.Roll, Needed: valving.ToleranceForAll.Roll) }
               where valving.Missing > 0 && target.Needed > target.Target.Tolerance
               select Invariant($"±{RoundedUp(target.Needed)} on the {target.Name} damping ratio, now ±{target.Target.Tolerance:0.###}"),
        ];
        return wider.Length == 0 ? "" : $" With {string.Join(", and ", wider)}, none of them would.";
    }

    private static IEnumerable<string> OnCost(RobustResult result, RobustLayout layout)
    {
        if (!result.IsOwn || layout.Robust.Ride is not { } robust || layout.Nominal.Ride is not ({ } nominal and > 0))
            yield break;
        var phase = result.Tuning.Task.TradeOff.RidePhase;
        var change = (robust / nominal) - 1;
        yield return Math.Abs(change) < SameRide
            ? Invariant($"Holding for all of them costs no ride against the valving for perfect parts as written: {robust:F2} m/s² weighted body acceleration over the {phase} in the worst state.")
            : Invariant($"Against the valving for perfect parts as written, holding for all of them {(change > 0 ? "costs" : "saves")} {100 * Math.Abs(change):F0} % weighted body acceleration over the {phase} in the worst state: {nominal:F2} → {robust:F2} m/s².");
    }

    private static string Name(TargetWindow window) => window.Mode.ToString().ToLowerInvariant();

    private static string RoundedUp(double tolerance) => Invariant($"{Math.Round(tolerance + HalfAThousandth, 3):0.###}");

    private static string In(string? state) => state is null ? "" : $" in “{state}”";
}
