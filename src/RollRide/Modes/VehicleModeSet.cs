using System.Collections.Immutable;

namespace RollRide.Modes;

/// <summary>The modes of a vehicle with two axles at one damper coefficient of the axle that the layouts are for.</summary>
/// <param name="Coefficient">Mean coefficient of that axle's dampers, N·s/m.</param>
/// <param name="All">The modes, in the order of <see cref="VehicleModeName"/>; no twist where the frame does not twist.</param>
public sealed record VehicleModeSet(double Coefficient, ImmutableArray<VehicleMode> All)
{
    /// <summary>A mode by its name; null for the twist of a frame that does not twist.</summary>
    /// <param name="name">The name.</param>
    public VehicleMode? this[VehicleModeName name] => All.FirstOrDefault(mode => mode.Name == name);

    /// <summary>Roll of the body as a whole.</summary>
    public VehicleMode Roll => this[VehicleModeName.Roll]!;

    /// <summary>Bounce or pitch, whichever is damped more: neither may be damped too much.</summary>
    public VehicleMode MoreDampedHeave => this[VehicleModeName.Bounce]!.DampingRatio >= this[VehicleModeName.Pitch]!.DampingRatio ? this[VehicleModeName.Bounce]! : this[VehicleModeName.Pitch]!;

    /// <summary>
    /// Whether the twist of the frame lies so near the roll mode (below 1.5 times its natural frequency) that the ends roll nearly independently, and the roll mode alone says little.
    /// </summary>
    public bool RollsInParts => this[VehicleModeName.Twist] is { } twist && twist.NaturalFrequency < 1.5 * Roll.NaturalFrequency;
}
