using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>
/// A bump or rebound stop of one side: once its clearance is used up it pushes back with <c>k δⁿ</c>, δ being the
/// travel past the contact.
/// </summary>
public sealed record TravelStop
{
    /// <summary>Free travel from rest to contact, measured at the stop, m; negative where the stop touches at rest, by its compression there.</summary>
    public required double Clearance { get; init => field = Require.Finite(value, "m", nameof(Clearance)); }

    /// <summary>Stiffness <c>k</c>, N/mⁿ; greater than 0.</summary>
    public required double Stiffness { get; init => field = Require.Positive(value, "N/mⁿ", nameof(Stiffness)); }

    /// <summary>Exponent <c>n</c>; 1 or more.</summary>
    public double Exponent { get; init => field = Require.AtLeast(1, value, "", nameof(Exponent)); } = 1;

    /// <summary>Where the stop sits: its own motion ratios.</summary>
    public required IFitting Fitting { get; init; }

    /// <summary>The stop's force at a penetration, N. Allocates nothing.</summary>
    /// <param name="penetration">Travel past the contact, m; negative or zero: not touching, no force.</param>
    public double Force(double penetration) =>
        penetration <= 0 ? 0
        : Exponent == 1 ? Stiffness * penetration
        : Exponent == 2 ? Stiffness * penetration * penetration
        : Stiffness * Math.Pow(penetration, Exponent);

    /// <summary>The slope of <see cref="Force"/>, N/m; at the contact itself that of the free side, 0.</summary>
    /// <param name="penetration">Travel past the contact, m.</param>
    public double Slope(double penetration) =>
        penetration <= 0 ? 0 : Stiffness * Exponent * Math.Pow(penetration, Exponent - 1);

    /// <summary>Which stops it can stand beside.</summary>
    internal StopForm Form => Exponent == 1 ? StopForm.Linear : Exponent == 2 ? StopForm.Quadratic : StopForm.OtherPower;
}
