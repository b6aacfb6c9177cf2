using RollRide.Modes;
using RollRide.Numerics;

namespace RollRide.Studies;

/// <summary>
/// The least damping ratio of each mode with which a valving is worth trying: a search for a soft ride would otherwise end at dampers that hold nothing. The defaults are
/// common practice, no source.
/// </summary>
public sealed record DampingFloors
{
    /// <summary>Of heave, at the velocity of the heave target; 0 or more.</summary>
    public double Heave { get; init => field = Require.NotNegative(value, "", nameof(Heave)); } = 0.1;

    /// <summary>Of roll, at the velocity of the roll target; 0 or more.</summary>
    public double Roll { get; init => field = Require.NotNegative(value, "", nameof(Roll)); } = 0.1;

    /// <summary>Of hop, at the reference velocity of the analysis; 0 or more.</summary>
    public double Hop { get; init => field = Require.NotNegative(value, "", nameof(Hop)); } = 0.05;

    /// <summary>Of tramp, at the reference velocity of the analysis; 0 or more.</summary>
    public double Tramp { get; init => field = Require.NotNegative(value, "", nameof(Tramp)); } = 0.05;

    /// <summary>The floor of a mode.</summary>
    public double this[ModeName mode] => mode switch
    {
        ModeName.Heave => Heave,
        ModeName.Roll => Roll,
        ModeName.Hop => Hop,
        _ => Tramp,
    };
}
