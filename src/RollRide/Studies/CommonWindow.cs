using System.Collections.Immutable;
using RollRide.Modes;
using static System.FormattableString;

namespace RollRide.Studies;

/// <summary>Whether one damper setting can serve a layout in every load state: the settings that lie in the window of each.</summary>
/// <param name="Name">Name of the layout.</param>
/// <param name="Verdict">The common window, from the highest of the lower edges to the lowest of the upper ones, and where the present setting stands.</param>
/// <param name="LowerLoad">Name of the load state that sets the lower edge.</param>
/// <param name="UpperLoad">Name of the load state that sets the upper edge.</param>
public sealed record CommonWindow(string Name, WindowVerdict Verdict, string LowerLoad, string UpperLoad)
{
    private const double Kilo = 1e-3;

    /// <summary>By how much a closed window is short, N·s/m: the lower edge less the upper one, infinite where no setting reaches the minima; null where it is open.</summary>
    public double? Missing => Verdict.Window is { IsOpen: false } closed ? closed.Lower.Coefficient - closed.Upper.Coefficient : null;

    /// <summary>The finding in one sentence.</summary>
    public string Sentence => $"'{Name}': {(Missing is { } missing ? $"no damper setting serves every load state: {Contradiction(missing)}" : Range())}.";

    /// <summary>The common windows of all layouts.</summary>
    /// <param name="states">The windows in each load state, at least two, all of the same layouts.</param>
    public static ImmutableArray<CommonWindow> Of(IReadOnlyList<SettingWindowResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        return [.. Enumerable.Range(0, states[0].Layouts.Length).Select(i => OfLayout([.. states.Select(state => (Load: state.Study.Load!.Name, Window: state.Layouts[i]))]))];
    }

    /// <summary>
    /// The common windows of vertical dampers from the centre to the tyre, for the layouts that share a mount in every state. The effect of a
    /// mount and where the common window closes are not given: each state has its own.
    /// </summary>
    /// <param name="states">The windows in each load state, at least two, all of the same layouts.</param>
    public static IEnumerable<UprightWindows> OfUpright(IReadOnlyList<SettingWindowResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        return
            from upright in states[0].Upright
            let all = states.Select(state => state.Upright.FirstOrDefault(other => other.Layouts.SequenceEqual(upright.Layouts))).ToArray()
            where all.All(other => other is not null)
            select upright with
            {
                MountStiffness = null,
                ClosingPosition = null,
                ByPosition = [.. upright.ByPosition.Select((at, i) => at with { Window = SettingWindow.Common([.. all.Select(other => other!.ByPosition[i].Window)]) })],
            };
    }

    private static CommonWindow OfLayout(ImmutableArray<(string Load, LayoutWindow Layout)> states)
    {
        var window = SettingWindow.Common([.. states.Select(state => state.Layout.Verdict.Window)]);
        string LoadOf(Func<SettingWindow, WindowEdge> edge) => states.First(state => edge(state.Layout.Verdict.Window) == edge(window)).Load;
        return new CommonWindow(states[0].Layout.Name, states[0].Layout.Verdict with { Window = window }, LoadOf(at => at.Lower), LoadOf(at => at.Upper));
    }

    private string Range()
    {
        var (lower, upper) = (Verdict.Window.Lower, Verdict.Window.Upper);
        var standing = Verdict.Standing switch
        {
            WindowStanding.Inside => "the present setting lies in it",
            WindowStanding.TooSoft => "the present setting is too soft",
            _ => "the present setting is too hard",
        };
        return Invariant($"one damper setting serves every load state, {lower.Coefficient * Kilo:F2} kN·s/m (least in '{LowerLoad}') to {upper.Coefficient * Kilo:F2} kN·s/m (greatest in '{UpperLoad}'); {standing}, and the curve may be scaled by {Verdict.LowerScale:F2} to {Verdict.UpperScale:F2}");
    }

    private string Contradiction(double missing)
    {
        var (lower, upper) = (Verdict.Window.Lower, Verdict.Window.Upper);
        return double.IsInfinity(missing)
            ? $"in '{LowerLoad}' none short of locking the suspension reaches the {WindowVerdict.Binding(lower)}"
            : Invariant($"{(LowerLoad == UpperLoad ? $"'{LowerLoad}' has none of its own:" : $"in '{LowerLoad}'")} the {WindowVerdict.Binding(lower)} needs {lower.Coefficient * Kilo:F2} kN·s/m,{(LowerLoad == UpperLoad ? "" : $" in '{UpperLoad}'")} the {WindowVerdict.Binding(upper)} allows {upper.Coefficient * Kilo:F2}; {missing * Kilo:F2} kN·s/m are missing");
    }
}
