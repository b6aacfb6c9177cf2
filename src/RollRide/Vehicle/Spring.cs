using RollRide.Mounting;

namespace RollRide.Vehicle;

/// <summary>The suspension spring of one side; the other side mirrors it.</summary>
/// <param name="Characteristic">Force against compression.</param>
/// <param name="Fitting">Where it sits: its own motion ratios.</param>
public sealed record Spring(SpringCharacteristic Characteristic, IFitting Fitting);
