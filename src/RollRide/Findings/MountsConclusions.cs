using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Findings;

/// <summary>What a practitioner concludes from the mounts, in words, from their numbers.</summary>
public static class MountsConclusions
{
    /// <summary>Draws the conclusions.</summary>
    /// <param name="result">What was found.</param>
    public static IReadOnlyList<string> Of(MountsResult result) => [.. OnStroke(result), OnRatio(result)];

    /// <summary>What is left of the dampers' strokes over the travel.</summary>
    /// <param name="result">What was found.</param>
    public static IReadOnlyList<string> OnStroke(MountsResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var sentences = new List<string>();
        void Say(FormattableString text) => sentences.Add(FormattableString.Invariant(text));
        foreach (var mounts in result.Layouts)
        {
            var name = mounts.Name;
            if (mounts.OverCentre is { } heave)
                Say($"“{name}”: the damper goes over centre at {Unit.Millimetre.Show(heave):F1} of heave and works backwards beyond.");
            if (mounts.ClosedReserve < -FitCheck.Tolerance)
                Say($"“{name}”: the damper closes metal to metal; {Unit.Millimetre.Show(-mounts.ClosedReserve):F1} are missing at {Unit.Millimetre.Show(mounts.Shortest.Heave):F0} heave with {Unit.Degree.Show(mounts.Shortest.Roll):F1} roll.");
            if (mounts.ExtendedReserve < -FitCheck.Tolerance)
                Say($"“{name}”: the damper is too short when extended; {Unit.Millimetre.Show(-mounts.ExtendedReserve):F1} are missing at {Unit.Millimetre.Show(mounts.Longest.Heave):F0} heave with {Unit.Degree.Show(mounts.Longest.Roll):F1} roll.");
        }

        if (sentences.Count == 0)
            Say($"Over the travel looked at no damper whose lengths are known runs out of stroke, and none goes over centre.");
        if (BeyondTravel(result.Study) is { } beyond)
            sentences.Add(beyond);
        if (result.Layouts[0].Travel.Range.Combinations != TravelCombinations.All && result.Layouts.Any(mounts => mounts.ClosedReserve is not null || mounts.ExtendedReserve is not null))
            Say($"Travel is counted to stop contact; stop compression uses up part of this reserve.");
        return sentences;
    }

    /// <summary>What becomes of the strokes where the stops allow more than the travel given; null where they do not.</summary>
    private static string? BeyondTravel(StudyCase study)
    {
        if (StrokeToStops.Of(study) is not { } untilStops)
            return null;
        string[] missing =
        [
            .. from damper in untilStops.Layouts
               from end in new[] { (Word: "closes metal to metal", Reserve: damper.ClosedReserve), (Word: "is pulled to its end", Reserve: damper.ExtendedReserve) }
               where end.Reserve < -FitCheck.Tolerance
               select FormattableString.Invariant($"with “{damper.Name}” the damper {end.Word}, {Unit.Millimetre.Show(-end.Reserve!.Value):F1} short"),
        ];
        return FormattableString.Invariant($"The travel given is {Of(study.Vehicle.Travel!)}; the stops touch later, at {Of(untilStops.Layouts[0].Travel.Range)}. Between the two {(missing.Length == 0 ? "no damper whose lengths are known runs out of stroke" : string.Join("; ", missing))}.");
    }

    private static string Of(TravelRange travel) => FormattableString.Invariant($"{Unit.Millimetre.Of(travel.Bump):0.#} mm in bump and {Unit.Millimetre.Of(travel.Rebound):0.#} mm in rebound");

    private static string OnRatio(MountsResult result)
    {
        var ranked = Candidates.Of(result.Layouts, mounts => mounts.Layout);
        var (most, least) = (ranked.MaxBy(RollRatio)!, ranked.MinBy(RollRatio)!);
        var both = result.Study.Vehicle.Suspension.GuidesEachWheel;
        return FormattableString.Invariant($"{(both ? "In heave and in roll" : "In roll")} the dampers see {RollRatio(most):F2} of the wheel travel with “{most.Name}”{(most == least ? "" : FormattableString.Invariant($", {RollRatio(least):F2} with “{least.Name}”"))}; {(both ? "damping of both" : "roll damping")} scales with the square.");

        static double RollRatio(LayoutMounts mounts) => mounts.Fitting.RollRatio;
    }
}
