using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>The suspension spring of one side.</summary>
/// <param name="Characteristic">Force against compression.</param>
/// <param name="Fitting">Where it sits: its own motion ratios.</param>
public sealed record Spring(SpringCharacteristic Characteristic, IFitting Fitting)
{
    /// <summary>Force at the design position beyond what holds the body level there, N: a spacer's, or negative that of a spring that has sagged.</summary>
    public double PreloadChange { get; init => field = Require.Finite(value, "N", nameof(PreloadChange)); }

    /// <summary>Friction of its leaves or bushes; null for none.</summary>
    public SpringFriction? Friction { get; init; }
}
