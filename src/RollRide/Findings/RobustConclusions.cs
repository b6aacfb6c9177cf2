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

    /// <summary>Draws the conclusions.</summary>
    /// <param name="result">The valvings.</param>
    /// <returns>One sentence per item, layout by layout.</returns>
    public static IReadOnlyList<string> Of(RobustResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return
        [
            .. from layout in result.Layouts
               from sentence in OnMargins(layout).Concat(OnMisses(result, layout)).Concat(OnCost(result, layout))
               select sentence,
        ];
    }

    private static IEnumerable<string> OnMargins(RobustLayout layout)
    {
        var valving = layout.Robust;
        var everywhere = valving.Heave.InStates.Length > 1 ? " in every state of load and damper" : "";
        TargetWindow[] closed = [.. new[] { valving.Heave, valving.Roll }.Where(window => !window.IsOpen)];
        foreach (var window in closed)
            yield return OnClosed(layout.Name, window);
        if (closed.Length > 0)
            yield break;
        var (soft, hard) = (new[] { valving.Heave, valving.Roll }.MinBy(window => window.Softer)!, new[] { valving.Heave, valving.Roll }.MinBy(window => window.Harder)!);
        if (valving.Softer < 0 || valving.Harder < 0)
        {
            var (window, isSoft) = valving.Softer < valving.Harder ? (soft, true) : (hard, false);
            yield return Invariant($"“{layout.Name}”: no tolerance can be given: the valving itself is {Math.Ceiling(-100 * Math.Min(valving.Softer, valving.Harder)):F0} % of its force too {(isSoft ? "soft" : "hard")} for {window.Mode.ToString().ToLowerInvariant()}{In((isSoft ? window.Lower : window.Upper).State)}.");
            yield break;
        }

        yield return Invariant($"“{layout.Name}”: every damper within ±{100 * valving.Tolerance:F0} % of the drawing's force keeps both targets{everywhere}; write ±{100 * valving.Tolerance:F0} % on the drawing. Below, {soft.Mode.ToString().ToLowerInvariant()}{In(soft.Lower.State)} limits it: a damper leaves the window once it has lost {Math.Floor(100 * valving.Softer):F0} % of its force. Above, {hard.Mode.ToString().ToLowerInvariant()}{In(hard.Upper.State)} does, at {Math.Floor(100 * valving.Harder):F0} % more.");
    }

    private static string OnClosed(string name, TargetWindow window)
    {
        var mode = window.Mode.ToString().ToLowerInvariant();
        var (lower, upper) = (window.Lower, window.Upper);
        var remedy = window.OpeningTolerance is { } opening
            ? Invariant($" A tolerance of ±{Math.Round(opening + HalfAThousandth, 3):0.###} on the ratio would leave one damper for all of them.")
            : " No tolerance on the ratio opens it.";
        return double.IsInfinity(lower.Lowest)
            ? Invariant($"“{name}”: no damper brings {mode} to {window.Target.Ratio - window.Target.Tolerance:0.###}{In(lower.State)}, so that no tolerance can be given.{remedy}")
            : Invariant($"“{name}”: no damper keeps {mode} within ±{window.Target.Tolerance:0.###} in every state: at {window.Target.DamperVelocity:0.###} m/s “{lower.State}” asks for at least {Unit.KilonewtonSecondPerMetre.Show(lower.Lowest):F2} of the damper as drawn, “{upper.State}” for at most {Unit.KilonewtonSecondPerMetre.Show(upper.Highest):F2}, {100 * (1 - (upper.Highest / lower.Lowest)):F0} % less.{remedy}");
    }

    private static IEnumerable<string> OnMisses(RobustResult result, RobustLayout layout)
    {
        if (layout.Robust.Samples == 0)
            yield break;
        var (robust, nominal) = (layout.Robust, layout.Nominal);
        var interval = ShareInterval.Of(robust.Missing, robust.Samples);
        var goal = result.Task!.Goal == RobustGoal.MissShare ? "the fewest misses" : "the least worst case";
        yield return Invariant($"  Of {robust.Samples} vehicles built with the tolerances given, {robust.Missing} miss a target in some state with the valving for {goal} (with 95 % confidence {100 * interval.Low:F0} to {100 * interval.High:F0} % of all do); with the valving for perfect parts {nominal.Missing} do.");
    }

    private static IEnumerable<string> OnCost(RobustResult result, RobustLayout layout)
    {
        if (!result.IsOwn || layout.Robust.Ride is not { } robust || layout.Nominal.Ride is not ({ } nominal and > 0))
            yield break;
        var phase = result.Tuning.Task.TradeOff.RidePhase;
        var change = (robust / nominal) - 1;
        yield return Math.Abs(change) < SameRide
            ? Invariant($"  Holding for all of them costs no ride against the valving for perfect parts as written: {robust:F2} m/s² weighted body acceleration over the {phase} in the worst state.")
            : Invariant($"  Against the valving for perfect parts as written, holding for all of them {(change > 0 ? "costs" : "saves")} {100 * Math.Abs(change):F0} % weighted body acceleration over the {phase} in the worst state: {nominal:F2} → {robust:F2} m/s².");
    }

    private static string In(string? state) => state is null ? "" : $" in “{state}”";
}
