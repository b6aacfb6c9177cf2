using System.Collections.Immutable;
using RollRide.Mounting;

namespace RollRide.Metrics;

/// <summary>Figures of one phase of a run, in SI units. Of both sides, the worse one counts unless a metric says otherwise.</summary>
public sealed record PhaseMetrics
{
    private readonly ImmutableArray<double?> _values;
    private readonly ImmutableArray<DamperPeaks> _dampers;

    internal PhaseMetrics(Dynamics.Phase phase, PhaseTallies tallies)
    {
        (Name, Start, End) = (phase.Name, phase.Start, phase.End);
        _values = [.. PhaseMetric.All.Select(metric => metric.Of(tallies))];
        TyreLiftOffTimes = tallies.TyreLiftOffTimes;
        SuspensionRollPeak = tallies[PhaseMetric.SuspensionRoll].Value;
        _dampers = PhaseMetric.PeaksOfDampers(tallies);
    }

    private PhaseMetrics(PhaseMetrics original, ImmutableArray<double?> values)
        : this(original) => _values = values;

    /// <summary>Name of the phase.</summary>
    public string Name { get; }

    /// <summary>Start, s.</summary>
    public double Start { get; }

    /// <summary>End, s.</summary>
    public double End { get; }

    /// <summary>Time for which each tyre was in the air, left to right, s: two, or four with dual tyres.</summary>
    public IReadOnlyList<double> TyreLiftOffTimes { get; }

    /// <summary>Largest roll of the body against the axle, either way, rad: what the suspension's roll travel must hold.</summary>
    public double SuspensionRollPeak { get; }

    /// <summary>The largest movements of the damper of one side.</summary>
    /// <param name="side">The side of the vehicle.</param>
    public DamperPeaks DamperOn(Side side) => _dampers[side == Side.Left ? 0 : 1];

    /// <summary>How long the dampers ran at each velocity and what they took up there; null if the run was made for its single figures alone.</summary>
    public VelocityHistogram? DamperVelocities { get; init; }

    /// <inheritdoc cref="PhaseMetric.BodyAccelerationRms"/>
    public double BodyAccelerationRms => this[PhaseMetric.BodyAccelerationRms]!.Value;

    /// <inheritdoc cref="PhaseMetric.BodyAccelerationPeak"/>
    public double BodyAccelerationPeak => this[PhaseMetric.BodyAccelerationPeak]!.Value;

    /// <inheritdoc cref="PhaseMetric.RollAccelerationRms"/>
    public double RollAccelerationRms => this[PhaseMetric.RollAccelerationRms]!.Value;

    /// <inheritdoc cref="PhaseMetric.RollAccelerationPeak"/>
    public double RollAccelerationPeak => this[PhaseMetric.RollAccelerationPeak]!.Value;

    /// <inheritdoc cref="PhaseMetric.SeatAccelerationRms"/>
    public double SeatAccelerationRms => this[PhaseMetric.SeatAccelerationRms]!.Value;

    /// <inheritdoc cref="PhaseMetric.SeatAccelerationPeak"/>
    public double SeatAccelerationPeak => this[PhaseMetric.SeatAccelerationPeak]!.Value;

    /// <inheritdoc cref="PhaseMetric.BodyWeightedRms"/>
    public double BodyWeightedRms => this[PhaseMetric.BodyWeightedRms]!.Value;

    /// <inheritdoc cref="PhaseMetric.SeatWeightedRms"/>
    public double SeatWeightedRms => this[PhaseMetric.SeatWeightedRms]!.Value;

    /// <inheritdoc cref="PhaseMetric.RollAngleLargest"/>
    public double RollAnglePeak => this[PhaseMetric.RollAngleLargest]!.Value;

    /// <inheritdoc cref="PhaseMetric.BumpTravelPeak"/>
    public double BumpTravelPeak => this[PhaseMetric.BumpTravelPeak]!.Value;

    /// <inheritdoc cref="PhaseMetric.ReboundTravelPeak"/>
    public double ReboundTravelPeak => this[PhaseMetric.ReboundTravelPeak]!.Value;

    /// <inheritdoc cref="PhaseMetric.BumpStopContacts"/>
    public double BumpStopContacts => this[PhaseMetric.BumpStopContacts]!.Value;

    /// <inheritdoc cref="PhaseMetric.ReboundStopContacts"/>
    public double ReboundStopContacts => this[PhaseMetric.ReboundStopContacts]!.Value;

    /// <inheritdoc cref="PhaseMetric.TyreLoadMinimum"/>
    public double TyreLoadMinimum => this[PhaseMetric.TyreLoadMinimum]!.Value;

    /// <inheritdoc cref="PhaseMetric.DynamicLoadCoefficient"/>
    public double DynamicLoadCoefficient => this[PhaseMetric.DynamicLoadCoefficient]!.Value;

    /// <inheritdoc cref="PhaseMetric.LoadTransferPeak"/>
    public double LoadTransferPeak => this[PhaseMetric.LoadTransferPeak]!.Value;

    /// <inheritdoc cref="PhaseMetric.LiftOffTime"/>
    public double LiftOffTime => this[PhaseMetric.LiftOffTime]!.Value;

    /// <inheritdoc cref="PhaseMetric.LiftOffTimeLeft"/>
    public double LiftOffTimeLeft => this[PhaseMetric.LiftOffTimeLeft]!.Value;

    /// <inheritdoc cref="PhaseMetric.LiftOffTimeRight"/>
    public double LiftOffTimeRight => this[PhaseMetric.LiftOffTimeRight]!.Value;

    /// <inheritdoc cref="PhaseMetric.DamperCompressionVelocityPeak"/>
    public double DamperCompressionVelocityPeak => this[PhaseMetric.DamperCompressionVelocityPeak]!.Value;

    /// <inheritdoc cref="PhaseMetric.DamperReboundVelocityPeak"/>
    public double DamperReboundVelocityPeak => this[PhaseMetric.DamperReboundVelocityPeak]!.Value;

    /// <inheritdoc cref="PhaseMetric.SpringFrictionEnergy"/>
    public double SpringFrictionEnergy => this[PhaseMetric.SpringFrictionEnergy]!.Value;

    /// <inheritdoc cref="PhaseMetric.DamperEnergy"/>
    public double DamperEnergy => this[PhaseMetric.DamperEnergy]!.Value;

    /// <inheritdoc cref="PhaseMetric.RideHeightShift"/>
    public double RideHeightShift => this[PhaseMetric.RideHeightShift]!.Value;

    /// <inheritdoc cref="PhaseMetric.DamperTravelCompression"/>
    public double DamperCompressionPeak => this[PhaseMetric.DamperTravelCompression]!.Value;

    /// <inheritdoc cref="PhaseMetric.DamperTravelRebound"/>
    public double DamperExtensionPeak => this[PhaseMetric.DamperTravelRebound]!.Value;

    /// <summary>A metric, SI; null where it is not defined.</summary>
    /// <param name="metric">The metric.</param>
    public double? this[PhaseMetric metric] => _values[metric.Index];

    /// <summary>The same figures but for one of them.</summary>
    /// <param name="metric">The metric.</param>
    /// <param name="value">Its value, SI.</param>
    internal PhaseMetrics With(PhaseMetric metric, double? value) => new(this, _values.SetItem(metric.Index, value));
}
