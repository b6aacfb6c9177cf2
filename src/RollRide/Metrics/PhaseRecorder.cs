using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Mounting;

namespace RollRide.Metrics;

/// <summary>Gathers the figures of one phase.</summary>
internal sealed class PhaseRecorder
{
    // Fine enough to tell bleed from valve velocities apart.
    private const double VelocityBin = 0.05;

    private readonly Phase _phase;
    private readonly double _staticSideLoad;
    private readonly List<IAccumulator> _accumulators = [];
    private readonly ComfortAccumulator _bodyComfort = new();
    private readonly ComfortAccumulator _seatComfort = new();
    private readonly Integral _bodySquares;
    private readonly Integral _rollSquares;
    private readonly Integral _seatSquares;
    private readonly Integral _suspensionHeave;
    private readonly Integral[] _loadSquares;
    private readonly Integral _damperPower;
    private readonly Maximum _bodyPeak;
    private readonly Maximum _rollAccelerationPeak;
    private readonly Maximum _seatPeak;
    private readonly Maximum _rollLeft;
    private readonly Maximum _rollRight;
    private readonly Maximum _bumpTravel;
    private readonly Maximum _reboundTravel;
    private readonly Maximum _unloading;
    private readonly Maximum _transfer;
    private readonly Maximum _compressionVelocity;
    private readonly Maximum _reboundVelocity;
    private readonly Maximum _damperCompression;
    private readonly Maximum _damperExtension;
    private readonly PositiveSpells[] _bumpContacts;
    private readonly PositiveSpells[] _reboundContacts;
    private readonly PositiveSpells[] _sideLifts;
    private readonly PositiveSpells[] _tyreLifts;
    private readonly VelocityHistogramAccumulator _velocities;

    public PhaseRecorder(AssembledHalfCar car, Phase phase)
    {
        _phase = phase;
        var vehicle = car.Vehicle;
        _staticSideLoad = vehicle.StaticTyreLoad * vehicle.ContactPositions.Count / 2;

        _bodySquares = Square(Channel.BodyAcceleration);
        _rollSquares = Square(Channel.BodyRollAcceleration);
        _seatSquares = Square(Channel.SeatAcceleration);
        _suspensionHeave = Keep(new Integral(c => c[(int)Channel.SuspensionHeave]));
        _loadSquares = [LoadSquare(Channel.TyreLoadLeft), LoadSquare(Channel.TyreLoadRight)];
        _damperPower = Keep(new Integral(c =>
            (c[(int)Channel.DamperForceLeft] * c[(int)Channel.DamperVelocityLeft])
            + (c[(int)Channel.DamperForceRight] * c[(int)Channel.DamperVelocityRight])));
        _bodyPeak = Peak(Channel.BodyAcceleration);
        _rollAccelerationPeak = Peak(Channel.BodyRollAcceleration);
        _seatPeak = Peak(Channel.SeatAcceleration);
        _rollLeft = Keep(new Maximum(c => c[(int)Channel.BodyRoll]));
        _rollRight = Keep(new Maximum(c => -c[(int)Channel.BodyRoll]));
        _bumpTravel = Largest(Channel.WheelTravelLeft, Channel.WheelTravelRight);
        _reboundTravel = LargestNegative(Channel.WheelTravelLeft, Channel.WheelTravelRight);
        _unloading = LargestNegative(Channel.TyreLoadLeft, Channel.TyreLoadRight);
        _transfer = Keep(new Maximum(c => Math.Abs(c[(int)Channel.TyreLoadRight] - c[(int)Channel.TyreLoadLeft]) / 2));
        _compressionVelocity = Largest(Channel.DamperVelocityLeft, Channel.DamperVelocityRight);
        _reboundVelocity = LargestNegative(Channel.DamperVelocityLeft, Channel.DamperVelocityRight);
        _damperCompression = Largest(Channel.DamperTravelLeft, Channel.DamperTravelRight);
        _damperExtension = LargestNegative(Channel.DamperTravelLeft, Channel.DamperTravelRight);
        _bumpContacts = [Spells(c => c[(int)Channel.BumpStopForceLeft]), Spells(c => c[(int)Channel.BumpStopForceRight])];
        _reboundContacts = [Spells(c => -c[(int)Channel.ReboundStopForceLeft]), Spells(c => -c[(int)Channel.ReboundStopForceRight])];
        _sideLifts = [Spells(c => -c[(int)Channel.TyreContactLeft]), Spells(c => -c[(int)Channel.TyreContactRight])];
        _tyreLifts = vehicle.Tyre.DualSpacing is null
            ? _sideLifts
            :
            [
                Spells(c => -c[(int)Channel.TyreContactLeftOuter]), Spells(c => -c[(int)Channel.TyreContactLeftInner]),
                Spells(c => -c[(int)Channel.TyreContactRightInner]), Spells(c => -c[(int)Channel.TyreContactRightOuter]),
            ];
        _velocities = Keep(new VelocityHistogramAccumulator(
            VelocityBin,
            (c => c[(int)Channel.DamperVelocityLeft], c => c[(int)Channel.DamperForceLeft]),
            (c => c[(int)Channel.DamperVelocityRight], c => c[(int)Channel.DamperForceRight])));
    }

    /// <summary>Adds one step, if it lies in the phase.</summary>
    public void Add(StepSamples step)
    {
        var middle = 0.5 * (step.Start + step.End);
        if (middle < _phase.Start || middle > _phase.End)
            return;
        foreach (var accumulator in _accumulators)
            accumulator.Add(step);
    }

    /// <summary>Adds one sample of the weighted accelerations, m/s², if it lies in the phase.</summary>
    public void AddWeighted(double time, double span, double body, double seat)
    {
        if (time < _phase.Start || time > _phase.End)
            return;
        _bodyComfort.Add(body, span);
        _seatComfort.Add(seat, span);
    }

    /// <summary>The lifts of both sides, in the order of time.</summary>
    public ImmutableArray<WheelLift> WheelLifts(Manoeuvre manoeuvre) =>
        [.. WheelLift.Of(Side.Left, _sideLifts[0].Spans, manoeuvre).Concat(WheelLift.Of(Side.Right, _sideLifts[1].Spans, manoeuvre)).OrderBy(lift => lift.Start)];

    public PhaseMetrics ToMetrics()
    {
        var duration = _phase.End - _phase.Start;
        return new PhaseMetrics
        {
            Name = _phase.Name,
            Start = _phase.Start,
            End = _phase.End,
            BodyAccelerationRms = Math.Sqrt(_bodySquares.Value / duration),
            BodyAccelerationPeak = _bodyPeak.Value,
            RollAccelerationRms = Math.Sqrt(_rollSquares.Value / duration),
            RollAccelerationPeak = _rollAccelerationPeak.Value,
            SeatAccelerationRms = Math.Sqrt(_seatSquares.Value / duration),
            SeatAccelerationPeak = _seatPeak.Value,
            BodyComfort = _bodyComfort.ToComfort(),
            SeatComfort = _seatComfort.ToComfort(),
            RollAnglePeak = _rollLeft.Value >= _rollRight.Value ? _rollLeft.Value : -_rollRight.Value,
            BumpTravelPeak = Math.Max(0, _bumpTravel.Value),
            ReboundTravelPeak = Math.Max(0, _reboundTravel.Value),
            BumpStopContacts = _bumpContacts.Sum(c => c.Count),
            ReboundStopContacts = _reboundContacts.Sum(c => c.Count),
            TyreLoadMinimum = -_unloading.Value,
            DynamicLoadCoefficient = Math.Sqrt(_loadSquares.Max(s => s.Value) / duration) / _staticSideLoad,
            LoadTransferPeak = _transfer.Value,
            LiftOffTimeLeft = _sideLifts[0].Duration,
            LiftOffTimeRight = _sideLifts[1].Duration,
            TyreLiftOffTimes = [.. _tyreLifts.Select(lift => lift.Duration)],
            DamperCompressionVelocityPeak = Math.Max(0, _compressionVelocity.Value),
            DamperReboundVelocityPeak = Math.Max(0, _reboundVelocity.Value),
            DamperEnergy = _damperPower.Value,
            RideHeightShift = -_suspensionHeave.Value / duration,
            DamperCompressionPeak = Math.Max(0, _damperCompression.Value),
            DamperExtensionPeak = Math.Max(0, _damperExtension.Value),
            DamperVelocities = _velocities.ToHistogram(),
        };
    }

    private T Keep<T>(T accumulator)
        where T : IAccumulator
    {
        _accumulators.Add(accumulator);
        return accumulator;
    }

    private Integral Square(Channel channel) => Keep(new Integral(c => c[(int)channel] * c[(int)channel]));

    private Integral LoadSquare(Channel channel) => Keep(new Integral(c =>
    {
        var change = c[(int)channel] - _staticSideLoad;
        return change * change;
    }));

    private Maximum Peak(Channel channel) => Keep(new Maximum(c => Math.Abs(c[(int)channel])));

    private Maximum Largest(Channel left, Channel right) => Keep(new Maximum(c => Math.Max(c[(int)left], c[(int)right])));

    private Maximum LargestNegative(Channel left, Channel right) => Keep(new Maximum(c => Math.Max(-c[(int)left], -c[(int)right])));

    private PositiveSpells Spells(Quantity quantity) => Keep(new PositiveSpells(quantity));
}
