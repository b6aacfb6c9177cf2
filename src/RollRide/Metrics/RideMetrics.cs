using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// Comfort and road holding over a stretch of road, as figures of a stationary random process: from samples at a fixed rate,
/// after the start of the run has died away.
/// </summary>
public sealed record RideMetrics
{
    /// <summary>Time from which it was measured, s.</summary>
    public required double Start { get; init; }

    /// <summary>Time measured, s.</summary>
    public required double Duration { get; init; }

    /// <summary>Distance measured, m.</summary>
    public required double Distance { get; init; }

    /// <summary>Comfort at each seat position.</summary>
    public required ImmutableArray<SeatComfort> Seats { get; init; }

    /// <summary>Root mean square of the body's vertical acceleration at its centre of gravity, m/s², unweighted.</summary>
    public required double BodyAccelerationRms { get; init; }

    /// <summary>Root mean square of the body's roll acceleration, rad/s², unweighted.</summary>
    public required double RollAccelerationRms { get; init; }

    /// <summary>Load of the left and of the right side's tyres on the road.</summary>
    public required ImmutableArray<LoadDistribution> Loads { get; init; }

    /// <summary>Root mean square of the travel about its mean of both wheels, m.</summary>
    public required double WheelTravelRms { get; init; }

    /// <summary>Travel of both wheels, m, positive in compression.</summary>
    public required Histogram WheelTravel { get; init; }

    /// <summary>Bump stop contacts a metre, both sides together.</summary>
    public required double BumpStopContactsPerMetre { get; init; }

    /// <summary>Rebound stop contacts a metre, both sides together.</summary>
    public required double ReboundStopContactsPerMetre { get; init; }

    /// <summary>Root mean square velocity of both dampers, m/s.</summary>
    public required double DamperVelocityRms { get; init; }

    /// <summary>Time and energy of both dampers at each velocity: what to valve for.</summary>
    public required VelocityHistogram DamperVelocities { get; init; }

    /// <summary>Mean power that the left and that the right damper turn into heat, W.</summary>
    public required ImmutableArray<double> DamperPower { get; init; }

    /// <summary>Density of the body's vertical acceleration, (m/s²)²/Hz; null if the run was shorter than a segment.</summary>
    public required SpectralDensity? BodyAccelerationDensity { get; init; }

    /// <summary>Density of the mean load change of the two sides over the static load, 1/Hz; null if the run was too short.</summary>
    public required SpectralDensity? LoadDensity { get; init; }

    /// <summary>The worse of the two sides' dynamic load coefficients.</summary>
    public double DynamicLoadCoefficient => Loads.Max(load => load.DynamicLoadCoefficient);

    /// <summary>The seat with the most vibration.</summary>
    public SeatComfort WorstSeat => Seats.MaxBy(seat => seat.Total)!;
}
