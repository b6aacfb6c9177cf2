using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>How a layout's setting stands to its window, as every command says it.</summary>
public static class WindowWords
{
    /// <summary>The verdict in words.</summary>
    /// <param name="verdict">The verdict.</param>
    public static string Of(WindowVerdict verdict)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        var (lower, upper) = (verdict.Window.Lower, verdict.Window.Upper);
        var range = Invariant($"{Unit.KilonewtonSecondPerMetre.Of(lower.Coefficient):F2} to {Unit.KilonewtonSecondPerMetre.Show(upper.Coefficient):F2}");
        return verdict.Standing switch
        {
            WindowStanding.Inside => $"open, setting inside: {range}",
            WindowStanding.TooSoft => Invariant($"open, setting too soft for the {Binding(lower)}: {range}, now {Unit.KilonewtonSecondPerMetre.Of(verdict.Coefficient):F2}"),
            WindowStanding.TooHard => Invariant($"open, setting too hard for the {Binding(upper)}: {range}, now {Unit.KilonewtonSecondPerMetre.Of(verdict.Coefficient):F2}"),
            _ when double.IsInfinity(lower.Coefficient) => $"closed: no setting short of locking the suspension reaches the {Binding(lower)}",
            _ => Invariant($"closed: {Binding(lower)} needs {Unit.KilonewtonSecondPerMetre.Show(lower.Coefficient):F2}, {Binding(upper)} allows {Unit.KilonewtonSecondPerMetre.Of(upper.Coefficient):F2}"),
        };
    }

    /// <summary>The factors on the present curve that meet all targets, rounded so that those told do.</summary>
    /// <param name="verdict">The verdict, its window open.</param>
    public static string Scales(WindowVerdict verdict) => Invariant($"{LeastScale(verdict):F2} to {GreatestScale(verdict):F2}");

    /// <summary>The least factor on the present curve that meets every minimum, to two decimals; infinite where none does.</summary>
    /// <param name="verdict">The verdict.</param>
    public static double LeastScale(WindowVerdict verdict)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        return Math.Ceiling(100 * verdict.LowerScale) / 100;
    }

    /// <summary>The greatest factor on the present curve that the targets allow, to two decimals.</summary>
    /// <param name="verdict">The verdict.</param>
    public static double GreatestScale(WindowVerdict verdict)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        return Math.Floor(100 * verdict.UpperScale) / 100;
    }

    /// <summary>The window that several load states share, in words.</summary>
    /// <param name="common">The window.</param>
    public static string Of(CommonWindow common)
    {
        ArgumentNullException.ThrowIfNull(common);
        return $"“{common.Name}”: {(common.Missing is { } missing ? $"no damper setting serves every load state: {Contradiction(common, missing)}" : Range(common))}.";
    }

    private static string Range(CommonWindow common)
    {
        var verdict = common.Verdict;
        var (lower, upper) = (verdict.Window.Lower, verdict.Window.Upper);
        var standing = verdict.Standing switch
        {
            WindowStanding.Inside => "the present setting lies within",
            WindowStanding.TooSoft => "the present setting is too soft",
            _ => "the present setting is too hard",
        };
        return Invariant($"one damper setting serves every load state, {Unit.KilonewtonSecondPerMetre.Show(lower.Coefficient):F2} (least in “{common.LowerLoad}”) to {Unit.KilonewtonSecondPerMetre.Show(upper.Coefficient):F2} (greatest in “{common.UpperLoad}”). {char.ToUpperInvariant(standing[0])}{standing[1..]}: scale factors from {Scales(verdict)} meet all targets");
    }

    private static string Contradiction(CommonWindow common, double missing)
    {
        var (lower, upper) = (common.Verdict.Window.Lower, common.Verdict.Window.Upper);
        var isOfOneLoad = common.LowerLoad == common.UpperLoad;
        return double.IsInfinity(missing)
            ? $"in “{common.LowerLoad}” none short of locking the suspension reaches the {Binding(lower)}"
            : Invariant($"{(isOfOneLoad ? $"“{common.LowerLoad}” has none of its own:" : $"in “{common.LowerLoad}”")} the {Binding(lower)} needs {Unit.KilonewtonSecondPerMetre.Show(lower.Coefficient):F2},{(isOfOneLoad ? "" : $" in “{common.UpperLoad}”")} the {Binding(upper)} allows {Unit.KilonewtonSecondPerMetre.Of(upper.Coefficient):F2}; {Unit.KilonewtonSecondPerMetre.Show(missing):F2} are missing");
    }

    private static string Binding(WindowEdge edge) => edge.Binding is { } target ? DampingTargetNames.Words(target) : "locked suspension";
}
