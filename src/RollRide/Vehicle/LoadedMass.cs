using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>A mass in or on the body, or one taken out: the share of it that this axle carries.</summary>
public sealed record LoadedMass
{
    /// <summary>Mass, kg; negative where it is taken out.</summary>
    public required double Mass { get; init => field = Require.Finite(value, "kg", nameof(Mass)); }

    /// <summary>Height of its centre above the road with the body at its design height, m: on a floor it keeps this height when the floor sinks.</summary>
    public required double Height { get; init => field = Require.Finite(value, "m", nameof(Height)); }

    /// <summary>Lateral position of its centre <c>y</c>, m, positive to the left of the centre plane. Default 0.</summary>
    public double Offset { get; init => field = Require.Finite(value, "m", nameof(Offset)); }

    /// <summary>Roll inertia about its own centre, kg·m²; of a mass taken out negative. Default 0, a point.</summary>
    public double RollInertia { get; init => field = Require.Finite(value, "kg·m²", nameof(RollInertia)); }
}
