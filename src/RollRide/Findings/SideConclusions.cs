using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What unlike sides, or a load beside the centre plane, do: heave and roll become one motion, and left is not right.</summary>
public static class SideConclusions
{
    // A mode with less of the other motion in its kinetic energy is pure for any purpose; from half on its name means little. Common practice, no source.
    private const double Coupled = 0.05, Mixed = 0.3;

    // Figures that differ by less are the same in any test drive; common practice, no source.
    private const double Alike = 0.05;

    /// <summary>Says how far heave and roll are coupled; nothing where they are not.</summary>
    /// <param name="name">Name of the layout.</param>
    /// <param name="modes">Its modes.</param>
    public static IEnumerable<string> OnCoupling(string name, ModeSet modes)
    {
        ArgumentNullException.ThrowIfNull(modes);
        var (rollInHeave, heaveInRoll) = (modes.Heave.RollShare, modes.Roll.HeaveShare);
        if (Math.Max(rollInHeave, heaveInRoll) > Coupled)
            yield return Invariant($"“{name}”: heave and roll are coupled; {100 * rollInHeave:F0} % of the heave mode's kinetic energy is in roll, {100 * heaveInRoll:F0} % of the roll mode's in heave.{(Math.Max(rollInHeave, heaveInRoll) > Mixed ? " Neither is a pure motion any more: a target for one of them is a target for both." : "")}");
    }

    /// <summary>Says where the mirrored manoeuvre is worse than the one driven; nothing where it is not.</summary>
    /// <param name="layout">What a layout did.</param>
    public static IEnumerable<string> OnMirrored(LayoutResult layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        if (layout.Mirrored is not { } mirrored)
            yield break;
        var driven = layout.Metrics;
        var worse = new List<string>();
        if (driven.RollResponse?.PeakAngle is { } angle && mirrored.RollResponse?.PeakAngle is { } other && Math.Abs(other) > (1 + Alike) * Math.Abs(angle))
            worse.Add(Invariant($"the body rolls to {Unit.Degree.Show(Math.Abs(other)):F1} in the corner instead of {Unit.Degree.Of(Math.Abs(angle)):F1}"));
        var load = layout.Car.StaticSideLoad(Mounting.Side.Left) + layout.Car.StaticSideLoad(Mounting.Side.Right);
        if (driven.Whole.TyreLoadMinimum - mirrored.Whole.TyreLoadMinimum > Alike * load / 2)
            worse.Add(Invariant($"the least tyre load is {mirrored.Whole.TyreLoadMinimum:F0} N instead of {driven.Whole.TyreLoadMinimum:F0}"));
        if (worse.Count > 0)
            yield return $"With the manoeuvre mirrored, left and right exchanged, “{layout.Name}” does worse: {string.Join(", and ", worse)}.";
    }
}
