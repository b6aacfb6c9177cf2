using System.Collections.Immutable;
using RollRide.Modes;

namespace RollRide.Studies;

/// <summary>Whether one damper setting can serve a layout in every load state: the settings that lie in the window of each.</summary>
/// <param name="Name">Name of the layout.</param>
/// <param name="Verdict">The common window, from the highest of the lower edges to the lowest of the upper ones, in coefficients of the dampers' first state, and where the present setting stands.</param>
/// <param name="LowerLoad">Name of the load state that sets the lower edge.</param>
/// <param name="UpperLoad">Name of the load state that sets the upper edge.</param>
public sealed record CommonWindow(string Name, WindowVerdict Verdict, string LowerLoad, string UpperLoad)
{
    /// <summary>By how much a closed window is short, N·s/m: the lower edge less the upper one, infinite where no setting reaches the minima; null where it is open.</summary>
    public double? Missing => Verdict.Window is { IsOpen: false } closed ? closed.Lower.Coefficient - closed.Upper.Coefficient : null;

    /// <summary>The common windows of all layouts.</summary>
    /// <param name="states">The windows in each load state, at least two, all of the same layouts.</param>
    public static ImmutableArray<CommonWindow> Of(IReadOnlyList<SettingWindowResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        return [.. Enumerable.Range(0, states[0].Layouts.Length).Select(i => OfLayout([.. states.Select(state => (Load: state.Study.Load!.Name, Window: state.Layouts[i]))]))];
    }

    /// <summary>
    /// The common windows of vertical dampers from the centre to the tyre, for the layouts that share a mount in every state. The effect of a
    /// mount and where the common window closes are not given: each state has its own. They are those of the dampers' first state.
    /// </summary>
    /// <param name="states">The windows in each load state, at least two, all of the same layouts.</param>
    public static IEnumerable<UprightWindows> OfUpright(IReadOnlyList<SettingWindowResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        SettingWindowResult[] loads = [.. states.Where(state => state.Study.Load?.DamperState == states[0].Study.Load?.DamperState)];
        return
            from upright in states[0].Upright
            let all = loads.Select(state => state.Upright.FirstOrDefault(other => other.Layouts.SequenceEqual(upright.Layouts))).ToArray()
            where all.All(other => other is not null)
            select upright with
            {
                MountStiffness = null,
                ClosingPosition = null,
                ByPosition = [.. upright.ByPosition.Select((at, i) => at with { Window = SettingWindow.Common([.. all.Select(other => other!.ByPosition[i].Window)]) })],
            };
    }

    /// <summary>The windows that all load states share, as those of one state: each layout's verdict is the common one, and where it stands is that of the first state.</summary>
    /// <param name="states">The windows in each load state, at least two, all of the same layouts.</param>
    public static SettingWindowResult AsOne(IReadOnlyList<SettingWindowResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        var common = Of(states);
        return states[0] with
        {
            Study = states[0].Study with { Load = null },
            Layouts = [.. states[0].Layouts.Select((layout, i) => layout with { Verdict = common[i].Verdict })],
            Upright = [.. OfUpright(states)],
        };
    }

    private static CommonWindow OfLayout(ImmutableArray<(string Load, LayoutWindow Layout)> states)
    {
        // Dampers that are softer when hot have another coefficient in each state: all count by that of the first.
        var windows = states.Select(state => state.Layout.Verdict.WindowIn(states[0].Layout.Verdict)).ToArray();
        var window = SettingWindow.Common(windows);
        string LoadOf(Func<SettingWindow, WindowEdge> edge) => states[Array.FindIndex(windows, of => edge(of) == edge(window))].Load;
        return new CommonWindow(states[0].Layout.Name, states[0].Layout.Verdict with { Window = window }, LoadOf(at => at.Lower), LoadOf(at => at.Upper));
    }
}
