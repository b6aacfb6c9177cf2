using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Modes;

namespace RollRide.Studies;

/// <summary>The setting windows of a case.</summary>
public sealed record SettingWindowResult
{
    /// <summary>The case.</summary>
    public required StudyCase Study { get; init; }

    /// <summary>What is asked for.</summary>
    public required DampingTargets Targets { get; init; }

    /// <summary>One per layout, in the order of the case.</summary>
    public required ImmutableArray<LayoutWindow> Layouts { get; init; }

    /// <summary>
    /// The windows of vertical dampers, from the centre to the tyre: one for each stiffness of the top mounts, since a soft mount moves
    /// the place where the window closes. Empty where the position makes no difference (independent suspension).
    /// </summary>
    public required ImmutableArray<UprightWindows> Upright { get; init; }

    /// <summary>The same layouts judged by the windows that serve the whole vehicle too, where a verdict judges them there.</summary>
    /// <param name="verdict">The verdict on the same layouts.</param>
    public SettingWindowResult JudgedAs(Verdict verdict)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        return this with { Layouts = [.. Layouts.Select((layout, i) => verdict.Layouts[i].IsJudgedOnVehicle ? layout with { Verdict = layout.Verdict.And(layout.OnVehicle!) } : layout)] };
    }
}

/// <summary>The windows of a vertical damper from the centre to the tyre, and the layouts that it stands for.</summary>
/// <param name="MountStiffness">Stiffness of its top mount, N/m; null for a rigid one.</param>
/// <param name="ByPosition">The window at each position, from the centre outward.</param>
/// <param name="ClosingPosition">The position nearest to the tyre at which the window closes, m; null if none.</param>
/// <param name="Layouts">Places of the layouts that are as good as vertical dampers in such mounts.</param>
public sealed record UprightWindows(
    double? MountStiffness, ImmutableArray<PositionWindow> ByPosition, double? ClosingPosition, ImmutableArray<int> Layouts);

/// <summary>The window of a vertical damper at one position.</summary>
/// <param name="Position">Distance from the centre, m.</param>
/// <param name="Window">The settings that meet the targets there.</param>
public sealed record PositionWindow(double Position, SettingWindow Window);

/// <summary>The window of one layout.</summary>
public sealed record LayoutWindow
{
    /// <summary>Vehicle and layout.</summary>
    public required AssembledHalfCar Car { get; init; }

    /// <summary>The window and where the present setting stands.</summary>
    public required WindowVerdict Verdict { get; init; }

    /// <summary>
    /// Where a vertical damper of the same effect would stand, m from the centre: <c>T Rr/Rh</c>; null on independent suspension,
    /// where that is no place of its own.
    /// </summary>
    public required double? Position { get; init; }

    /// <summary>
    /// The position, counted like <see cref="Position"/>, at which the window closes when this layout is moved sideways, m; null if
    /// it closes nowhere or nothing can be moved. Within two millimetres it is that of a vertical damper.
    /// </summary>
    public required double? ClosingPosition { get; init; }

    /// <summary>The window on the whole vehicle; null where the axle is looked at by itself.</summary>
    public WindowVerdict? OnVehicle { get; init; }

    /// <summary>Whether the ends of the vehicle's body roll nearly independently, so that its window says little, see <see cref="VehicleModeSet.RollsInParts"/>.</summary>
    public bool RollsInParts { get; init; }

    /// <summary>The position at which the window on the whole vehicle closes, counted and found like <see cref="ClosingPosition"/>, m.</summary>
    public double? ClosingPositionOnVehicle { get; init; }

    /// <summary>What would open the window; with several load states, the one that they share. Empty if it is open.</summary>
    public required ImmutableArray<WindowRemedy> Remedies { get; init; }

    /// <summary>Name of the layout.</summary>
    public string Name => Car.Layout.Name;
}
