using RollRide.Damping;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What a practitioner concludes from a dynamometer's record, in words, from its numbers.</summary>
public static class DamperConclusions
{
    // Bleed slope over high-speed slope beyond which a curve counts as digressive, or below the inverse as progressive; common practice, no source.
    private const double Bent = 1.15;

    /// <summary>Draws the conclusions.</summary>
    /// <param name="reduction">The reduced record.</param>
    /// <param name="fit">The valving fitted to it.</param>
    public static IReadOnlyList<string> Of(DynoReduction reduction, ValvingFit fit)
    {
        ArgumentNullException.ThrowIfNull(reduction);
        ArgumentNullException.ThrowIfNull(fit);
        var sentences = new List<string> { OnShape("compression", fit.Valving.Compression), OnShape("rebound", fit.Valving.Rebound) };
        double slow = Ratio(fit.Valving, 0.05), fast = Ratio(fit.Valving, 0.5);
        sentences.Add(Invariant($"Rebound is {slow:F1} times compression at 0.05 m/s and {fast:F1} times at 0.5 m/s."));
        if (reduction.Friction is { } friction)
        {
            double share = friction / fit.Valving.ForcesAt([0.05])[0].Compression;
            sentences.Add(Invariant($"Friction of {friction:F0} N is {100 * share:F0} % of the valves' compression force at 0.05 m/s, which matters in small motions."));
        }

        if (reduction.Speeds.LastOrDefault(speed => speed.Hysteresis is not null) is { Hysteresis: { } width, Compression: { } c, Rebound: { } r })
            sentences.Add(Invariant($"At {c.Velocity:F2} m/s the loop is up to {width:F0} N wide, {100 * width / Math.Max(Math.Abs(c.Force), Math.Abs(r.Force)):F0} % of its largest force; a simulation with the curve leaves that out."));
        double largest = reduction.Curve.LargestForce;
        sentences.Add(Invariant($"The valving model follows the points within {fit.RmsResidual:F1} N (RMS), {100 * fit.RmsResidual / largest:F1} % of the largest force; at worst it is {Math.Abs(fit.LargestResidual.Force):F0} N off, at {fit.LargestResidual.Velocity:F3} m/s."));
        if (reduction.Outliers.Length > 0)
        {
            sentences.Add(Invariant($"{reduction.Outliers.Length} outlier{(reduction.Outliers.Length == 1 ? "" : "s")}, listed above: {(reduction.OutliersExcluded ? "left out" : "included; --exclude-outliers leaves them out")}."));
        }

        return sentences;
    }

    private static string OnShape(string direction, ValveCharacteristic valve)
    {
        double bend = valve.BleedSlope / Math.Max(valve.HighSpeedSlope, 1e-9);
        string shape = bend > Bent ? "digressive" : bend < 1 / Bent ? "progressive" : "close to linear";
        return Invariant($"In {direction} it is {shape}: {valve.BleedSlope:F0} N·s/m up to {valve.KneeForce:F0} N at {valve.KneeVelocity:F3} m/s, then {valve.HighSpeedSlope:F0} N·s/m.");
    }

    private static double Ratio(Valving valving, double velocity) => valving.ForcesAt([velocity])[0].ReboundToCompression;
}
