using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>By how much the forces of a layout's dampers may differ from their curves, as a share, either way, at one velocity.</summary>
/// <param name="Share">The share.</param>
/// <param name="IsStated">Whether the scenario states it, of the damper or as the scatter of its sweep; otherwise it is the usual one.</param>
public readonly record struct DamperTolerance(double Share, bool IsStated)
{
    /// <summary>The share that counts where none is stated; common practice, no source: production dampers scatter by as much.</summary>
    public const double Usual = 0.1;

    /// <summary>The tolerance of a layout's dampers, of unlike ones the wider.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout.</param>
    /// <param name="velocity">Damper velocity at which it counts, m/s.</param>
    public static DamperTolerance Of(StudyCase study, DamperLayout layout, double velocity)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(layout);
        ForceTolerance?[] stated = [.. new[] { Side.Left, Side.Right }.Select(side => study.ToleranceOf(layout.On(side).Damper))];
        return stated.OfType<ForceTolerance>().ToArray() is { Length: > 0 } known
            ? new(known.Max(tolerance => tolerance.At(velocity)), true)
            : new(Usual, false);
    }
}
