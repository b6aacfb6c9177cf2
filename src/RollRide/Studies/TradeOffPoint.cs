using RollRide.Damping;

namespace RollRide.Studies;

/// <summary>A valving and what it does in the manoeuvre.</summary>
/// <param name="Valving">The valving.</param>
/// <param name="WeightedAcceleration">Weighted vertical acceleration of the body over the bump (ISO 2631-1, Wk), RMS, m/s²; with load states the largest over them.</param>
/// <param name="Overshoot">Roll overshoot in the corner over the steady angle, as a ratio; 0 where there is none; with load states the largest over them.</param>
public sealed record TradeOffPoint(Valving Valving, double WeightedAcceleration, double Overshoot)
{
    /// <summary>Name of the load state with this acceleration; null for the vehicle as written.</summary>
    public string? RideLoad { get; init; }

    /// <summary>Name of the load state with this overshoot; null for the vehicle as written.</summary>
    public string? RollLoad { get; init; }
}
