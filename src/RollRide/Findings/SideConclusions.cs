using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Mounting;
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
        return [.. result.Layouts.SelectMany(layout => OnCoupling(layout.Name, layout.ReferenceModes)), .. OnOtherTurn(result.Layouts), .. OnMirrored(result.Layouts)];
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

    /// <summary>Where the corner from rest the other way than written is clearly the worse one in a figure.</summary>
    private static IEnumerable<string> OnOtherTurn(IEnumerable<LayoutResult> layouts)
    {
        string[] worse =
        [
            .. from metric in RollMetric.OfEachTurn
               from layout in layouts
               where layout.Metrics.BothTurns is not null
               let shown = (Written: metric.Shown(layout.Metrics.OfTurn(mirrored: false)), Mirrored: metric.Shown(layout.Metrics.OfTurn(mirrored: true)))
               where Math.Abs(shown.Mirrored ?? 0) > (1 + Alike) * Math.Abs(shown.Written ?? double.PositiveInfinity)
               select $"{char.ToLowerInvariant(metric.Label[0])}{metric.Label[1..]} {Number(metric, shown.Mirrored!.Value)} instead of {Number(metric, shown.Written!.Value)} {metric.Unit.Symbol} with “{layout.Name}”",
        ];
        if (worse.Length > 0)
            yield return $"Driven the other way than written, the corner from rest is worse: {string.Join("; ", worse)}. Of both turns the worse counts, for each figure by itself.";

        static string Number(RollMetric metric, double value) => Math.Abs(value).ToString($"F{metric.Decimals}", System.Globalization.CultureInfo.InvariantCulture);
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
