using RollRide.Modes;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>How a layout's setting stands to its window, as every command says it.</summary>
public static class WindowWords
{
    private const double Kilo = 1e-3;

    /// <summary>The verdict in words.</summary>
    /// <param name="verdict">The verdict.</param>
    public static string Of(WindowVerdict verdict)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        var (lower, upper) = (verdict.Window.Lower, verdict.Window.Upper);
        var range = Invariant($"{lower.Coefficient * Kilo:F2} to {upper.Coefficient * Kilo:F2} kN·s/m");
        return verdict.Standing switch
        {
            WindowStanding.Inside => $"open, setting inside: {range}",
            WindowStanding.TooSoft => Invariant($"open, setting too soft for the {Binding(lower)}: {range}, now {verdict.Coefficient * Kilo:F2}"),
            WindowStanding.TooHard => Invariant($"open, setting too hard for the {Binding(upper)}: {range}, now {verdict.Coefficient * Kilo:F2}"),
            _ when double.IsInfinity(lower.Coefficient) => $"closed: no setting short of locking the suspension reaches the {Binding(lower)}",
            _ => Invariant($"closed: {Binding(lower)} needs {lower.Coefficient * Kilo:F2} kN·s/m, {Binding(upper)} allows {upper.Coefficient * Kilo:F2}"),
        };
    }

    /// <summary>The window that several load states share, in one sentence.</summary>
    /// <param name="common">The window.</param>
    public static string Of(CommonWindow common)
    {
        ArgumentNullException.ThrowIfNull(common);
        return $"'{common.Name}': {(common.Missing is { } missing ? $"no damper setting serves every load state: {Contradiction(common, missing)}" : Range(common))}.";
    }

    private static string Range(CommonWindow common)
    {
        var verdict = common.Verdict;
        var (lower, upper) = (verdict.Window.Lower, verdict.Window.Upper);
        var standing = verdict.Standing switch
        {
            WindowStanding.Inside => "the present setting lies in it",
            WindowStanding.TooSoft => "the present setting is too soft",
            _ => "the present setting is too hard",
        };
        return Invariant($"one damper setting serves every load state, {lower.Coefficient * Kilo:F2} kN·s/m (least in '{common.LowerLoad}') to {upper.Coefficient * Kilo:F2} kN·s/m (greatest in '{common.UpperLoad}'); {standing}, and the curve may be scaled by {verdict.LowerScale:F2} to {verdict.UpperScale:F2}");
    }

    private static string Contradiction(CommonWindow common, double missing)
    {
        var (lower, upper) = (common.Verdict.Window.Lower, common.Verdict.Window.Upper);
        var isOfOneLoad = common.LowerLoad == common.UpperLoad;
        return double.IsInfinity(missing)
            ? $"in '{common.LowerLoad}' none short of locking the suspension reaches the {Binding(lower)}"
            : Invariant($"{(isOfOneLoad ? $"'{common.LowerLoad}' has none of its own:" : $"in '{common.LowerLoad}'")} the {Binding(lower)} needs {lower.Coefficient * Kilo:F2} kN·s/m,{(isOfOneLoad ? "" : $" in '{common.UpperLoad}'")} the {Binding(upper)} allows {upper.Coefficient * Kilo:F2}; {missing * Kilo:F2} kN·s/m are missing");
    }

    private static string Binding(WindowEdge edge) => edge.Binding is { } target ? DampingTargetNames.Words(target) : "locked suspension";
}
