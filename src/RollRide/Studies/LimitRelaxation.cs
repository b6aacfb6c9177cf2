using RollRide.Damping;

namespace RollRide.Studies;

/// <summary>A limit that a valving lies on, and the limits with that one moved out of the way.</summary>
internal sealed record LimitRelaxation(string Key, bool IsHighest, double Value, double Relaxed, TuningLimits Limits)
{
    // Far enough to show whether the limit matters, near enough to be a damper still.
    private const double Room = 4;

    // The search comes to a limit within this share.
    private const double Touch = 5e-3;

    /// <summary>One relaxation for each limit that a valving lies on.</summary>
    public static IEnumerable<LimitRelaxation> Of(Valving valving, TuningLimits limits)
    {
        ValveCharacteristic[] valves = [valving.Compression, valving.Rebound];
        double share = valving.Compression.HighSpeedSlope / valving.Compression.BleedSlope;
        return
        [
            .. Ends("highSpeedShare", limits.HighSpeedShare, share, share, range => limits with { HighSpeedShare = range }),
            .. Ends("kneeVelocity_m_per_s", limits.KneeVelocity, valving.Compression.KneeVelocity, valving.Compression.KneeVelocity, range => limits with { KneeVelocity = range }),
            .. Ends("kneeForce_N", limits.KneeForce, valves.Min(valve => valve.KneeForce), valves.Max(valve => valve.KneeForce), range => limits with { KneeForce = range }),
            .. Highest("force_N", limits.Force, valves.Max(valve => valve.Force(limits.ForceVelocity)), force => limits with { Force = force }),
        ];
    }

    private static IEnumerable<LimitRelaxation> Ends(string key, ValueRange range, double least, double most, Func<ValueRange, TuningLimits> with)
    {
        double lower = range.Lowest / Room;
        if (least <= range.Lowest * (1 + Touch))
            yield return new LimitRelaxation(key, false, range.Lowest, lower, with(new ValueRange(lower, range.Highest)));
        foreach (var relaxation in Highest(key, range.Highest, most, highest => with(new ValueRange(range.Lowest, highest))))
            yield return relaxation;
    }

    private static IEnumerable<LimitRelaxation> Highest(string key, double limit, double most, Func<double, TuningLimits> with)
    {
        if (most >= limit * (1 - Touch))
            yield return new LimitRelaxation(key, true, limit, limit * Room, with(limit * Room));
    }
}
