using RollRide.Damping;
using RollRide.Modes;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What a practitioner concludes from the modes, in words, from the numbers.</summary>
public static class ModesConclusions
{
    // A measured ratio that differs by less is the linear one for any purpose; common practice, no source.
    private const double Alike = 0.1;

    // In two digits, as ratios are compared, a smaller difference would read as none.
    private const double Visible = 0.01;

    /// <summary>Draws the conclusions.</summary>
    /// <param name="result">The modes.</param>
    public static IReadOnlyList<string> Of(ModesResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var sentences = new List<string>(VehicleConclusions.Of(result));
        foreach (var layout in result.Layouts)
            sentences.AddRange(OnLayout(layout, result.Study));
        return sentences;
    }

    private static IEnumerable<string> OnLayout(LayoutModes layout, StudyCase study)
    {
        var (heave, roll) = (layout.Reference.Heave.DampingRatio, layout.Reference.Roll.DampingRatio);
        var speed = study.Analysis.ReferenceVelocity;
        yield return heave == 0 && roll == 0
            ? Invariant($"“{layout.Name}”: the dampers give no damping at {speed:0.###} m/s.")
            : Invariant($"“{layout.Name}” at {speed:0.###} m/s: the heave damping ratio is {Conclusions.Ratio(heave)}, the roll damping ratio {Conclusions.Ratio(roll)}{(heave > 0 ? Invariant($", {100 * roll / heave:F0} % of it") : "")}.");
        if (layout.Car.Layout.Damper.TopMountStiffness is not null && (IsOutside(ModeName.Heave) || IsOutside(ModeName.Roll)))
            yield return $"“{layout.Name}”: compression alone and rebound alone do not lie on both sides of the two together, because the top mount gives way under the harder of them and takes damping from it; frequencies move with the setting for the same reason.";
        foreach (var sentence in SideConclusions.OnCoupling(layout.Name, layout.Reference))
            yield return sentence;
        var swept = layout.Sweep[DampingDirection.Both];
        var (slow, fast) = (swept[0], swept[^1]);
        if (Differ(fast.Modes.Roll.DampingRatio, slow.Modes.Roll.DampingRatio))
            yield return Invariant($"“{layout.Name}”: the roll damping ratio goes from {Conclusions.Ratio(slow.Modes.Roll.DampingRatio)} at {slow.Velocity:0.##} m/s to {Conclusions.Ratio(fast.Modes.Roll.DampingRatio)} at {fast.Velocity:0.##} m/s, as the damper's coefficient does.");
        foreach (var decay in layout.Decays.Where(decay => decay.Mode is ModeName.Heave or ModeName.Roll))
        {
            if (decay.DecrementRatio is { } measured && Differ(measured, decay.Linear.DampingRatio))
                yield return Invariant($"“{layout.Name}”: a {ModeNames.Key(decay.Mode)} decay released at {decay.ReleaseVelocity:0.###} m/s shows a damping ratio of {measured:F3} where the linear one is {decay.Linear.DampingRatio:F3}{Reason(layout, decay, measured, study)}.");
        }

        bool IsOutside(ModeName mode)
        {
            var (both, one, other) = (layout.Reference[mode].DampingRatio, layout.ReferenceCompression[mode].DampingRatio, layout.ReferenceRebound[mode].DampingRatio);
            return both > Math.Max(one, other) + Visible || both < Math.Min(one, other) - Visible;
        }
    }

    /// <summary>What makes a measured ratio differ from the linear one, or nothing where no known cause points that way.</summary>
    private static string Reason(LayoutModes layout, FreeDecay decay, double measured, StudyCase study)
    {
        var linear = decay.Linear.DampingRatio;
        var reasons = new List<string>();
        if (decay.LinearRatioAtMeanVelocity is { } atMean && (measured - linear) * (atMean - linear) > 0)
            reasons.Add(Invariant($"it runs through smaller velocities, {decay.MeanVelocity:0.###} m/s on the whole, where the linear ratio is {atMean:F3}"));
        else if (decay.Mode == ModeName.Heave && IsUnequal(layout))
            reasons.Add(Invariant($"compression and rebound damp it unequally, with linear ratios of {layout.ReferenceCompression.Heave.DampingRatio:F3} and {layout.ReferenceRebound.Heave.DampingRatio:F3}, and the two swings of a cycle do not average out"));
        if (decay.LeftLinearRange)
            reasons.Add("a stop or a lifting tyre took part");
        if (measured > Math.Max(linear, decay.LinearRatioAtMeanVelocity ?? 0) && layout.Car.Layout.Damper.Friction > 0 && !study.Analysis.IncludeFriction)
            reasons.Add("friction brakes it as well");
        if (layout.Car.HasSpringFriction)
            reasons.Add("the friction of the springs, which no linear ratio has, brakes and stiffens it");
        return reasons.Count == 0 ? "" : $": {string.Join("; ", reasons)}";
    }

    private static bool IsUnequal(LayoutModes layout) =>
        Math.Abs(layout.ReferenceCompression.Coefficient - layout.ReferenceRebound.Coefficient) > Alike * layout.Reference.Coefficient;

    private static bool Differ(double ratio, double reference) => Math.Abs(ratio - reference) > Math.Max(Visible, Alike * reference);
}
