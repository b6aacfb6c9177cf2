using RollRide.Numerics;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>Remedies for a closed setting window in the few words of a table's cell.</summary>
public static class RemedyCells
{
    /// <summary>What a remedy changes.</summary>
    /// <param name="kind">The remedy.</param>
    public static string Name(RemedyKind kind) => kind switch
    {
        RemedyKind.DamperPosition => "Damper position from the centre, mm",
        RemedyKind.SpringPosition => "Springs apart, mm",
        RemedyKind.AntiRollBar => "Anti-roll bar, N·m/deg",
        RemedyKind.Track => "Track, mm",
        _ => "Compression's share of the mean force, if the heave maximum holds in compression alone",
    };

    /// <summary>What opens the window, against what there is.</summary>
    /// <param name="remedy">The remedy.</param>
    public static string Cell(WindowRemedy remedy)
    {
        ArgumentNullException.ThrowIfNull(remedy);
        if (remedy.Needed is not { } needed)
            return "no value does";
        var present = remedy.Present!.Value;
        return remedy.Kind switch
        {
            RemedyKind.SpringPosition => Change(2 * needed, 2 * present, Unit.Millimetre),
            RemedyKind.AntiRollBar => Change(needed, present, Unit.NewtonMetrePerDegree),
            RemedyKind.DamperPosition or RemedyKind.Track => Change(needed, present, Unit.Millimetre),
            _ => Invariant($"at most {needed * 100:F0} % (now {present * 100:F0} %)"),
        };
    }

    /// <summary>The settings that a layout's damper may take.</summary>
    /// <param name="verdict">Its window, of several load states the one that they share.</param>
    public static string Setting(WindowVerdict verdict)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        if (verdict.Standing == WindowStanding.Closed)
            return "no setting does";
        var standing = verdict.Standing switch
        {
            WindowStanding.TooSoft => "too soft now",
            WindowStanding.TooHard => "too hard now",
            _ => "as it is",
        };
        return Invariant($"{standing}; {verdict.LowerScale:F2} to {verdict.UpperScale:F2}{(verdict.Window.HasLaterInterval ? " (harder settings past a gap are left out)" : "")}");
    }

    private static string Change(double needed, double present, Unit unit) =>
        Invariant($"{RemedyWords.Beyond(unit.Of(needed), unit.Of(present)):F0} (now {unit.Of(present):F0})");
}
