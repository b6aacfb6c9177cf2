using RollRide.Studies;

namespace RollRide.Findings;

/// <summary>What to do after a comparison, in words.</summary>
public static class NextSteps
{
    /// <summary>The steps, the first one first.</summary>
    /// <param name="verdict">What the comparison decides.</param>
    /// <param name="tuning">What the dampers were tuned for; null where they were not.</param>
    public static IReadOnlyList<string> Of(Verdict verdict, TuningResult? tuning = null)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        return [.. OnRemedy(verdict), .. OnTuning(verdict, tuning), .. OnPlace(verdict), .. OnMargin(verdict), .. OnWhatWasRun(verdict, tuning is not null),
            $"Confirm on the vehicle, on instrumented tests: {(verdict.States[0].Study.Manoeuvre.HasCorner ? "roll angle in the corner, " : "")}acceleration at the seat, damper travel."];
    }

    private static IEnumerable<string> OnRemedy(Verdict verdict)
    {
        if (verdict.Nearest is not { } nearest)
            yield break;
        yield return verdict.Remedy is null
            ? $"Change more than one thing about “{nearest.Name}”, or ask which target can give way: no single change is enough."
            : $"Enter the change to “{nearest.Name}” in the scenario and run it again, for its tables and figures.";
        if (nearest.Missed.Any(target => target.IsOnVehicle))
            yield return $"Look at the {VehicleConclusions.OtherAxle(verdict.States[0].Study.Vehicle)} as well: on the whole vehicle the roll damping ratio with “{nearest.Name}” misses the target.";
    }

    /// <summary>What to do with the tuned valving: that of the layout decided for, or else of the first that meets what was tuned for.</summary>
    private static IEnumerable<string> OnTuning(Verdict verdict, TuningResult? tuning)
    {
        if (tuning is null)
            yield break;
        var met = tuning.Layouts.Where(layout => layout.Tuned.MeetsBoth).OrderByDescending(layout => layout.Name == verdict.Named?.Name).FirstOrDefault();
        yield return met is null
            ? "Ask which damping ratio tuned for can give way: no layout meets both."
            : $"Enter the tuned valving of “{met.Name}” (valving sheet below) in the scenario and run it again before you order it.";
    }

    private static IEnumerable<string> OnPlace(Verdict verdict)
    {
        if (verdict.Named is { IsPlaceChecked: false } layout)
            yield return $"Check that the dampers of “{layout.Name}” fit: {(verdict.States[0].Study.Placement is null ? "the scenario describes no room around them" : "its mounts are not given")}.";
    }

    private static IEnumerable<string> OnMargin(Verdict verdict)
    {
        if (verdict.Choice is { LostByScatter: { } miss } choice)
            yield return $"Vary the dampers' and the springs' tolerances (rollride sweep): within the dampers' tolerance the {VerdictWords.Quantity(miss.Target)} with “{choice.Name}” misses its target.";
    }

    private static IEnumerable<string> OnWhatWasRun(Verdict verdict, bool isTuned)
    {
        if (!isTuned && verdict is { Targets: null, Layouts.Length: > 1 })
            yield return $"Give the damping ratios wanted as targets{(verdict.States[0].Study.Manoeuvre.HasCorner ? "" : ", and drive a corner as well")}: {(verdict.Choice is null ? "this test alone does not decide" : "this decision rests on one test alone")}.";
        if (verdict.States.Count == 1)
            yield return "Run the load states from kerb to full: only one load was checked.";
        if (verdict.States[0].Study.Manoeuvre.Road.Unevenness is not null && verdict.States.All(state => state.Seeds.Count == 0))
            yield return "Run several random roads (--seeds): one was driven, and another one of its class gives other numbers.";
    }
}
