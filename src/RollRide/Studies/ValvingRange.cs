using RollRide.Damping;

namespace RollRide.Studies;

/// <summary>
/// The valvings that the limits allow, told apart by bleed slope, knee velocity and the high-speed slope's share of the bleed
/// slope. The three describe the mean of compression and rebound, on which alone the damping ratio depends; rebound
/// over compression is fixed.
/// </summary>
internal sealed class ValvingRange
{
    private readonly TuningLimits _limits;
    private readonly double _compressionShare, _reboundShare;

    /// <summary>Fixes rebound over compression, as near to a wanted ratio as the limits allow.</summary>
    public ValvingRange(TuningLimits limits, double reboundToCompression)
    {
        _limits = limits;
        ReboundToCompression = limits.ReboundToCompression.Nearest(reboundToCompression);
        _compressionShare = 2 / (1 + ReboundToCompression);
        _reboundShare = ReboundToCompression * _compressionShare;
    }

    public double ReboundToCompression { get; }

    /// <summary>Bleed slopes that keep the limits on force, for one knee velocity and share; null if none does.</summary>
    public ValueRange? BleedSlopes(double kneeVelocity, double highSpeedShare)
    {
        double larger = Math.Max(_compressionShare, _reboundShare), smaller = Math.Min(_compressionShare, _reboundShare);
        double reach = new ValveCharacteristic(1, kneeVelocity, highSpeedShare).Force(_limits.ForceVelocity);
        double highest = Math.Min(_limits.Force / (larger * reach), _limits.KneeForce.Highest / (larger * kneeVelocity));
        double lowest = _limits.KneeForce.Lowest / (smaller * kneeVelocity);
        return lowest <= highest ? new ValueRange(lowest, highest) : null;
    }

    /// <summary>The valving with these terms.</summary>
    public Valving Valving(double bleedSlope, double kneeVelocity, double highSpeedShare)
    {
        var mean = new ValveCharacteristic(bleedSlope, kneeVelocity, highSpeedShare * bleedSlope);
        return new Valving(mean.Scaled(_compressionShare), mean.Scaled(_reboundShare));
    }

    /// <summary>
    /// The valving at a place of the unit cube: knee velocity (evenly in its logarithm), share, and bleed slope (evenly in its logarithm, between the limits that the first
    /// two leave); null where the limits leave none.
    /// </summary>
    public Valving? At(double knee, double share, double bleed)
    {
        double kneeVelocity = _limits.KneeVelocity.AtLog(knee), highSpeedShare = _limits.HighSpeedShare.At(share);
        return BleedSlopes(kneeVelocity, highSpeedShare) is { } slopes ? Valving(slopes.AtLog(bleed), kneeVelocity, highSpeedShare) : null;
    }
}
