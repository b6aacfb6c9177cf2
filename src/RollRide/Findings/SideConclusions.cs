using RollRide.Modes;
using RollRide.Mounting;
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

    /// <summary>All that is said of a comparison; nothing where both sides are the same.</summary>
    /// <param name="result">What the layouts did.</param>
    public static IEnumerable<string> Of(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return [.. result.Layouts.SelectMany(layout => OnCoupling(layout.Name, layout.ReferenceModes)), .. OnOtherWay(result.Layouts), .. OnMirrored(result.Layouts)];
    }

    /// <summary>Says how far heave and roll are coupled; nothing where they are not.</summary>
    /// <param name="name">Name of the layout.</param>
    /// <param name="modes">Its modes.</param>
    public static IEnumerable<string> OnCoupling(string name, ModeSet modes)
    {
        ArgumentNullException.ThrowIfNull(modes);
        var (rollInHeave, heaveInRoll) = (modes.Heave.RollShare, modes.Roll.HeaveShare);
        if (Math.Max(rollInHeave, heaveInRoll) > Coupled)
            yield return Invariant($"“{name}”: heave and roll are coupled; {100 * rollInHeave:F0} % of the heave mode's kinetic energy is in roll, {100 * heaveInRoll:F0} % of the roll mode's in heave.{(Math.Max(rollInHeave, heaveInRoll) > Mixed ? " A target for one of them is then a target for both." : "")}");
    }

    /// <summary>Where the body rolls further in the corner from rest the other way.</summary>
    private static IEnumerable<string> OnOtherWay(IEnumerable<LayoutResult> layouts)
    {
        string[] further =
        [
            .. from layout in layouts
               where layout.Metrics.RollResponse is { IsMirrored: true }
               let angles = (Decides: layout.Metrics.RollResponse!.PeakAngle, Other: layout.Metrics.OtherWay?.PeakAngle)
               where Math.Abs(angles.Decides ?? 0) > (1 + Alike) * Math.Abs(angles.Other ?? double.PositiveInfinity)
               select Invariant($"{Unit.Degree.Of(Math.Abs(angles.Decides!.Value)):F1} instead of {Unit.Degree.Of(Math.Abs(angles.Other!.Value)):F1} deg with “{layout.Name}”"),
        ];
        if (further.Length > 0)
            yield return $"In the corner from rest the body rolls further when turning the other way, {string.Join(", ", further)}: results from rest are of that way.";
    }

    /// <summary>Where the mirrored manoeuvre leaves less tyre load than the one driven.</summary>
    private static IEnumerable<string> OnMirrored(IEnumerable<LayoutResult> layouts)
    {
        string[] less =
        [
            .. from layout in layouts
               where layout.Mirrored is not null
               let loads = (Driven: layout.Metrics.Whole.TyreLoadMinimum, Mirrored: layout.Mirrored!.Whole.TyreLoadMinimum)
               where loads.Driven - loads.Mirrored > Alike * (layout.Car.StaticSideLoad(Side.Left) + layout.Car.StaticSideLoad(Side.Right)) / 2
               select Invariant($"{loads.Mirrored:F0} instead of {loads.Driven:F0} N with “{layout.Name}”"),
        ];
        if (less.Length > 0)
            yield return $"With the manoeuvre mirrored, left and right exchanged, the least tyre load is {string.Join(", ", less)}.";
    }
}
