using RollRide.Dynamics;
using RollRide.Mounting;

namespace RollRide.Metrics;

/// <summary>What the gauges hold over a phase, with what metrics ask of the phase and the vehicle.</summary>
/// <param name="tallies">What the gauges hold.</param>
/// <param name="car">Vehicle and layout.</param>
/// <param name="duration">Length of the phase, s.</param>
internal sealed class PhaseTallies(Tallies tallies, AssembledHalfCar car, double duration)
{
    /// <summary>Vertical vibration at the centre of gravity after ISO 2631-1.</summary>
    public Comfort BodyComfort { get; } = tallies.AtBody.ToComfort(WeightedMotion.Rate);

    /// <summary>Vertical vibration at the seat after ISO 2631-1.</summary>
    public Comfort SeatComfort { get; } = tallies.AtSeat.ToComfort(WeightedMotion.Rate);

    /// <summary>Length of the phase, s.</summary>
    public double Duration { get; } = duration;

    /// <summary>Whether two tyres stand on each side.</summary>
    public bool HasDuals { get; } = car.Vehicle.Tyre.DualSpacing is not null;

    /// <summary>Whether there is another axle.</summary>
    public bool HasSecondAxle { get; } = car.Second is not null;

    /// <summary>Static load of one side, N.</summary>
    /// <param name="side">The side.</param>
    public double StaticSideLoad(Side side) => car.StaticSideLoad(side);

    /// <summary>Time for which each tyre was in the air, left to right, s.</summary>
    public IReadOnlyList<double> TyreLiftOffTimes => [.. PhaseMetric.LiftsOfTyres(HasDuals).Select(lifts => Spells.Duration(this[lifts]))];

    /// <summary>What a gauge holds.</summary>
    public Tally this[Gauge gauge] => tallies[gauge];
}
