namespace RollRide.Metrics;

/// <summary>Figures of one phase of a run, in SI units. Of both sides, the worse one counts unless a member says otherwise.</summary>
public sealed record PhaseMetrics
{
    /// <summary>Name of the phase.</summary>
    public required string Name { get; init; }

    /// <summary>Start, s.</summary>
    public required double Start { get; init; }

    /// <summary>End, s.</summary>
    public required double End { get; init; }

    /// <summary>Root mean square of the body's vertical acceleration at the centre of gravity, m/s².</summary>
    public required double BodyAccelerationRms { get; init; }

    /// <summary>Largest absolute vertical acceleration of the body at the centre of gravity, m/s².</summary>
    public required double BodyAccelerationPeak { get; init; }

    /// <summary>Root mean square of the body's roll acceleration, rad/s².</summary>
    public required double RollAccelerationRms { get; init; }

    /// <summary>Largest absolute roll acceleration of the body, rad/s².</summary>
    public required double RollAccelerationPeak { get; init; }

    /// <summary>Root mean square of the vertical acceleration at the seat, m/s².</summary>
    public required double SeatAccelerationRms { get; init; }

    /// <summary>Largest absolute vertical acceleration at the seat, m/s².</summary>
    public required double SeatAccelerationPeak { get; init; }

    /// <summary>Vertical vibration at the centre of gravity after ISO 2631-1.</summary>
    public required Comfort BodyComfort { get; init; }

    /// <summary>Vertical vibration at the seat after ISO 2631-1.</summary>
    public required Comfort SeatComfort { get; init; }

    /// <summary>The body roll angle of largest size, with its sign, rad.</summary>
    public required double RollAnglePeak { get; init; }

    /// <summary>Largest bump travel of either wheel, m.</summary>
    public required double BumpTravelPeak { get; init; }

    /// <summary>Largest rebound travel of either wheel, m, as a positive number.</summary>
    public required double ReboundTravelPeak { get; init; }

    /// <summary>Times a bump stop was struck, both sides added; a contact that lasts from before the phase counts once.</summary>
    public required int BumpStopContacts { get; init; }

    /// <summary>Times a rebound stop was struck, both sides added; counted as <see cref="BumpStopContacts"/>.</summary>
    public required int ReboundStopContacts { get; init; }

    /// <summary>Smallest load of either side on the road, N.</summary>
    public required double TyreLoadMinimum { get; init; }

    /// <summary>
    /// Dynamic load coefficient of the worse side: root mean square of the side's load less its static load, over the static load.
    /// In a corner the steady load transfer is part of it.
    /// </summary>
    public required double DynamicLoadCoefficient { get; init; }

    /// <summary>Largest load transfer <c>|FR − FL|/2</c>, N.</summary>
    public required double LoadTransferPeak { get; init; }

    /// <summary>Time for which all tyres of the left side were in the air, s.</summary>
    public required double LiftOffTimeLeft { get; init; }

    /// <summary>Time for which all tyres of the right side were in the air, s.</summary>
    public required double LiftOffTimeRight { get; init; }

    /// <summary>Time for which each tyre was in the air, left to right, s: two, or four with dual tyres.</summary>
    public required IReadOnlyList<double> TyreLiftOffTimes { get; init; }

    /// <summary>Largest damper velocity in compression, m/s.</summary>
    public required double DamperCompressionVelocityPeak { get; init; }

    /// <summary>Largest damper velocity in rebound, m/s, as a positive number.</summary>
    public required double DamperReboundVelocityPeak { get; init; }

    /// <summary>Energy that valves and friction of both dampers turned into heat, J: the integral of force × velocity of each damper's own stroke.</summary>
    public required double DamperEnergy { get; init; }

    /// <summary>
    /// Mean change of ride height over the phase, m, positive upwards: the mean of <c>zs − zu</c>. Over whole periods of a steady
    /// vibration, or from rest to rest, it is zero where springs and dampers are linear; asymmetric valving pumps the body up or down.
    /// </summary>
    public required double RideHeightShift { get; init; }

    /// <summary>Largest travel of either damper in compression, m.</summary>
    public required double DamperCompressionPeak { get; init; }

    /// <summary>Largest travel of either damper in rebound, m, as a positive number.</summary>
    public required double DamperExtensionPeak { get; init; }

    /// <summary>How long the dampers ran at each velocity and what they took up there; null if the run was made for its single figures alone.</summary>
    public required VelocityHistogram? DamperVelocities { get; init; }

    /// <summary>The longer of <see cref="LiftOffTimeLeft"/> and <see cref="LiftOffTimeRight"/>, s.</summary>
    public double LiftOffTime => Math.Max(LiftOffTimeLeft, LiftOffTimeRight);
}
