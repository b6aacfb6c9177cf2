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
            : Invariant($"“{layout.Name}” at {speed:0.###} m/s: heave damping ratio {Conclusions.Ratio(heave)}, roll damping ratio {Conclusions.Ratio(roll)}{(heave > 0 ? Invariant($", {100 * roll / heave:F0} % of that in heave") : "")}.");
        if (layout.Car.Layout.Damper.TopMountStiffness is not null && (IsOutside(ModeName.Heave) || IsOutside(ModeName.Roll)))
            yield return $"“{layout.Name}”: the ratio for both directions together does not lie between those for compression alone and rebound alone: the top mount yields under the harder direction and takes damping from it. For the same reason frequencies move with the setting.";
        foreach (var sentence in SideConclusions.OnCoupling(layout.Name, layout.Reference))
            yield return sentence;
        var swept = layout.Sweep[DampingDirection.Both];
        var (slow, fast) = (swept[0], swept[^1]);
        if (Differ(fast.Modes.Roll.DampingRatio, slow.Modes.Roll.DampingRatio))
            yield return Invariant($"“{layout.Name}”: over damper velocity the roll damping ratio goes from {Conclusions.Ratio(slow.Modes.Roll.DampingRatio)} at {slow.Velocity:0.##} m/s to {Conclusions.Ratio(fast.Modes.Roll.DampingRatio)} at {fast.Velocity:0.##} m/s.");
        foreach (var decay in layout.Decays.Where(decay => decay.Mode is ModeName.Heave or ModeName.Roll))
        {
            if (decay.DecrementRatio is { } measured && Differ(measured, decay.Linear.DampingRatio))
                yield return Invariant($"“{layout.Name}”: a free-decay test in {ModeNames.Key(decay.Mode)}, released at {decay.ReleaseVelocity:0.###} m/s, would measure a damping ratio of {measured:F3}, not the linear {decay.Linear.DampingRatio:F3}{Reason(layout, decay, measured, study)}.");
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
            reasons.Add(Invariant($"the mean damper velocity is {decay.MeanVelocity:0.###} m/s, where the linear ratio is {atMean:F3}"));
        else if (decay.Mode == ModeName.Heave && IsUnequal(layout))
            reasons.Add(Invariant($"compression and rebound differ, with linear ratios of {layout.ReferenceCompression.Heave.DampingRatio:F3} and {layout.ReferenceRebound.Heave.DampingRatio:F3}, and do not average out over a cycle"));
        if (decay.LeftLinearRange)
            reasons.Add("a stop or a lifting tyre took part");
        if (measured > Math.Max(linear, decay.LinearRatioAtMeanVelocity ?? 0) && layout.Car.Layout.Damper.Friction > 0 && !study.Analysis.IncludeFriction)
            reasons.Add("friction adds damping");
        if (layout.Car.HasSpringFriction)
            reasons.Add("spring friction, which the linear ratio leaves out, adds damping and stiffness");
        return reasons.Count == 0 ? "" : $": {string.Join("; ", reasons)}";
    }

    private static bool IsUnequal(LayoutModes layout) =>
        Math.Abs(layout.ReferenceCompression.Coefficient - layout.ReferenceRebound.Coefficient) > Alike * layout.Reference.Coefficient;

    private static bool Differ(double ratio, double reference) => Math.Abs(ratio - reference) > Math.Max(Visible, Alike * reference);
}
