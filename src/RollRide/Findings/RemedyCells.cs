using System.Collections.Immutable;
using RollRide.Numerics;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>Remedies for missed targets in the few words of a table's cell.</summary>
public static class RemedyCells
{
    private const string NoRoom = ", no room for the dampers' tolerance";

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

    /// <summary>A change that was tried, against what there is, and what bars it.</summary>
    /// <param name="kind">What is changed.</param>
    /// <param name="layout">The layout that is changed.</param>
    /// <param name="changes">What was tried with it.</param>
    public static string Cell(RemedyKind kind, LayoutVerdict layout, ImmutableArray<TriedChange> changes)
    {
        ArgumentNullException.ThrowIfNull(layout);
        if (WithoutChange(layout, changes) is { } text)
            return text;
        var unit = kind == RemedyKind.AntiRollBar ? Unit.NewtonMetrePerDegree : Unit.Millimetre;
        var sides = kind == RemedyKind.SpringPosition ? 2 : 1;
        if (changes.FirstOrDefault(change => change.Kind == kind) is not { Found: { } remedy } change)
            return "no value does";
        var scale = remedy.CurveScale == 1 ? "" : Invariant($", curve × {remedy.CurveScale:0.00}");
        return Invariant($"{unit.Of(sides * remedy.Value):F0} (now {unit.Of(sides * remedy.Present):F0}){scale}{Room(remedy)}{Against(change)}");
    }

    private static string Room(TargetRemedy remedy) => remedy.HasRoom ? "" : remedy.HasSomeRoom ? $", room for ±{VerdictWords.Percent(remedy.Room)} % only" : NoRoom;

    /// <summary>The split of compression and rebound that would do, against what there is.</summary>
    /// <param name="remedy">The remedy; null where the window is open.</param>
    /// <param name="layout">The layout that is changed.</param>
    /// <param name="changes">What was tried with it.</param>
    public static string Split(WindowRemedy? remedy, LayoutVerdict layout, ImmutableArray<TriedChange> changes)
    {
        ArgumentNullException.ThrowIfNull(layout);
        return WithoutChange(layout, changes) is { } text ? text
            : remedy is null ? $"not needed: a setting meets {(layout.IsJudgedOnVehicle ? "the targets of this axle" : "all targets")}"
            : remedy is not { Needed: { } needed, Present: { } present } ? "no value does"
            : present <= needed ? Invariant($"the present {present * 100:F0} % does, with a harder curve{AxleAlone(layout)}")
            : Invariant($"at most {Math.Floor(needed * 100):F0} % (now {present * 100:F0} %){AxleAlone(layout)}");
    }

    /// <summary>That what opens a closed window was looked for on the axle alone, where the whole vehicle is judged too.</summary>
    private static string AxleAlone(LayoutVerdict layout) => layout.IsJudgedOnVehicle ? ", for the targets of this axle alone" : "";

    /// <summary>Why nothing but the damper's setting has to change; null where something has.</summary>
    private static string? WithoutChange(LayoutVerdict layout, ImmutableArray<TriedChange> changes) =>
        !layout.IsCandidate ? "cannot be built"
        : layout.MeetsTargets ? "not needed"
        : changes.Any(change => change is { Kind: null, WorksWithRoom: true }) ? "not needed: the curve alone is enough"
        : null;

    private static string Against(TriedChange change) => change.Against.IsEmpty ? "" : $": {string.Join(", ", change.Against.Select(VerdictWords.Reason))}";

    /// <summary>The settings that a layout's damper may take.</summary>
    /// <param name="verdict">Its window, of several load states the one that they share.</param>
    /// <param name="alone">The window of the axle alone; null where the vehicle has no other axle.</param>
    /// <param name="changes">What was tried with the layout.</param>
    public static string Setting(WindowVerdict verdict, WindowVerdict? alone, ImmutableArray<TriedChange> changes)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        if (verdict.Standing == WindowStanding.Closed)
            return $"no setting does{(alone is null ? "" : alone.Window.IsOpen ? " on the whole vehicle" : " on this axle alone")}";
        var tried = changes.FirstOrDefault(change => change.Kind is null) is { } setting
            ? setting.Found is null ? NoRoom : Room(setting.Found) + Against(setting)
            : "";
        var standing = verdict.Standing switch
        {
            WindowStanding.TooSoft => "too soft now",
            WindowStanding.TooHard => "too hard now",
            _ => "as it is",
        };
        return $"{standing}; {WindowWords.Scales(verdict)}{(verdict.Window.HasLaterInterval ? " (harder settings past a gap are left out)" : "")}{tried}";
    }
}
