using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Metrics.Lanes;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// Gathers the figures of the time between two neighbouring ends of phases. Those of a phase, or of the whole run, are merged from the
/// intervals that it is made of.
/// </summary>
internal sealed class IntervalRecorder
{
    // Fine enough to tell bleed from valve velocities apart.
    private const double VelocityBin = 0.05;

    private readonly bool _hasDuals;
    private readonly double _staticSideLoad;
    private readonly double _seatOffset;
    private bool _wasQuiet;
    private ComfortAccumulator _bodyComfort = new(MotionSamples.Rate);
    private ComfortAccumulator _seatComfort = new(MotionSamples.Rate);
    private Integral _bodySquares;
    private Integral _rollSquares;
    private Integral _seatSquares;
    private Integral _suspensionHeave;
    private Integral _leftLoadSquares;
    private Integral _rightLoadSquares;
    private Integral _damperPower;
    private Peak<Magnitude> _bodyPeak = new(new(Channel.BodyAcceleration));
    private Peak<Magnitude> _rollAccelerationPeak = new(new(Channel.BodyRollAcceleration));
    private Peak<Magnitude> _seatPeak = new(new(Channel.SeatAcceleration));
    private Peak<Scaled> _rollLeft = new(new(Channel.BodyRoll, 1));
    private Peak<Scaled> _rollRight = new(new(Channel.BodyRoll, -1));
    private LargerPeak _bumpTravel = new(Channel.WheelTravelLeft, 1);
    private LargerPeak _reboundTravel = new(Channel.WheelTravelLeft, -1);
    private LargerPeak _unloading = new(Channel.TyreLoadLeft, -1);
    private Peak<LoadTransfer> _transfer = new(default);
    private LargerPeak _compressionVelocity = new(Channel.DamperVelocityLeft, 1);
    private LargerPeak _reboundVelocity = new(Channel.DamperVelocityLeft, -1);
    private LargerPeak _damperCompression = new(Channel.DamperTravelLeft, 1);
    private LargerPeak _damperExtension = new(Channel.DamperTravelLeft, -1);
    private Spells<Scaled> _leftBumpContacts = new(new(Channel.BumpStopForceLeft, 1));
    private Spells<Scaled> _rightBumpContacts = new(new(Channel.BumpStopForceRight, 1));
    private Spells<Scaled> _leftReboundContacts = new(new(Channel.ReboundStopForceLeft, -1));
    private Spells<Scaled> _rightReboundContacts = new(new(Channel.ReboundStopForceRight, -1));
    private Spells<Scaled> _leftLifts = new(new(Channel.TyreContactLeft, -1), keepsSpans: true);
    private Spells<Scaled> _rightLifts = new(new(Channel.TyreContactRight, -1), keepsSpans: true);
    private Spells<Scaled> _leftOuterLifts = new(new(Channel.TyreContactLeftOuter, -1));
    private Spells<Scaled> _leftInnerLifts = new(new(Channel.TyreContactLeftInner, -1));
    private Spells<Scaled> _rightInnerLifts = new(new(Channel.TyreContactRightInner, -1));
    private Spells<Scaled> _rightOuterLifts = new(new(Channel.TyreContactRightOuter, -1));

    public IntervalRecorder(AssembledHalfCar car, double end, bool withDistributions)
    {
        End = end;
        Velocities = withDistributions ? new(VelocityBin) : null;
        var vehicle = car.Vehicle;
        _hasDuals = vehicle.Tyre.DualSpacing is not null;
        _staticSideLoad = vehicle.StaticTyreLoad * car.ContactPositions.Length / 2;
        _seatOffset = vehicle.SeatOffset;
    }

    /// <summary>The figures of a phase.</summary>
    public static IntervalRecorder Merge(AssembledHalfCar car, Phase phase, IEnumerable<IntervalRecorder> intervals, bool withDistributions)
    {
        var whole = new IntervalRecorder(car, phase.End, withDistributions);
        foreach (var interval in intervals)
            whole.Merge(interval);
        return whole;
    }

    /// <summary>End of the interval, s.</summary>
    public double End { get; }

    /// <summary>Adds one step.</summary>
    public void Add(StepSamples step)
    {
        AddIntegrals(step);
        AddPeaks(step);
        AddSpells(step);
    }

    /// <summary>Adds samples of the weighted accelerations.</summary>
    public void Add(MotionSamples samples)
    {
        // Copies, so that they stay in registers.
        var (atBody, atSeat) = (_bodyComfort, _seatComfort);
        foreach (var weighted in samples.Weighted)
        {
            var body = weighted[MotionSignal.Body];
            atBody.Add(body);
            atSeat.Add(body + (_seatOffset * weighted[MotionSignal.Roll]));
        }

        (_bodyComfort, _seatComfort) = (atBody, atSeat);
    }

    /// <summary>Takes over what was gathered side by side.</summary>
    /// <param name="integrals">The integrals, in the order of <see cref="LaneIntegral"/>.</param>
    /// <param name="peaks">The peaks of each <see cref="LaneSignal"/>, upwards and downwards.</param>
    /// <param name="body">The weighted acceleration of the body.</param>
    /// <param name="seat">The weighted acceleration at the seat.</param>
    public void Take(ReadOnlySpan<double> integrals, ReadOnlySpan<double> peaks, in ComfortAccumulator body, in ComfortAccumulator seat)
    {
        _bodySquares.Add(integrals[LaneIntegral.BodySquares]);
        _rollSquares.Add(integrals[LaneIntegral.RollSquares]);
        _seatSquares.Add(integrals[LaneIntegral.SeatSquares]);
        _suspensionHeave.Add(integrals[LaneIntegral.SuspensionHeave]);
        _leftLoadSquares.Add(integrals[LaneIntegral.LoadSquares]);
        _rightLoadSquares.Add(integrals[LaneIntegral.LoadSquares + 1]);
        _damperPower.Add(integrals[LaneIntegral.DamperPower]);
        Take(ref _bodyPeak, Size(peaks, LaneSignal.Body));
        Take(ref _rollAccelerationPeak, Size(peaks, LaneSignal.RollAcceleration));
        Take(ref _seatPeak, Size(peaks, LaneSignal.Seat));
        Take(ref _transfer, Size(peaks, LaneSignal.Transfer));
        Take(ref _rollLeft, peaks[LaneSignal.Up(LaneSignal.Roll)]);
        Take(ref _rollRight, peaks[LaneSignal.Down(LaneSignal.Roll)]);
        _bumpTravel.Take(LargerUp(peaks, LaneSignal.Travel));
        _reboundTravel.Take(LargerDown(peaks, LaneSignal.Travel));
        _unloading.Take(LargerDown(peaks, LaneSignal.Load));
        _compressionVelocity.Take(LargerUp(peaks, LaneSignal.DamperVelocity));
        _reboundVelocity.Take(LargerDown(peaks, LaneSignal.DamperVelocity));
        _damperCompression.Take(LargerUp(peaks, LaneSignal.DamperTravel));
        _damperExtension.Take(LargerDown(peaks, LaneSignal.DamperTravel));
        _bodyComfort.Merge(body);
        _seatComfort.Merge(seat);

        // No figure of an interval asks when.
        static void Take<TQuantity>(ref Peak<TQuantity> peak, double value)
            where TQuantity : struct, IQuantity => peak.Take(double.NaN, value);

        static double Size(ReadOnlySpan<double> peaks, int signal) => Math.Max(peaks[LaneSignal.Up(signal)], peaks[LaneSignal.Down(signal)]);
        static double LargerUp(ReadOnlySpan<double> peaks, int left) => Math.Max(peaks[LaneSignal.Up(left)], peaks[LaneSignal.Up(left + 1)]);
        static double LargerDown(ReadOnlySpan<double> peaks, int left) => Math.Max(peaks[LaneSignal.Down(left)], peaks[LaneSignal.Down(left + 1)]);
    }

    /// <summary>Adds a step throughout which each stop stays closed or open and each tyre on the road or in the air.</summary>
    /// <param name="lane">The lane, with what is closed and lifted in the step.</param>
    /// <param name="start">Start of the step, s.</param>
    /// <param name="end">End of the step, s.</param>
    public void AddContacts(SeriesLane lane, double start, double end)
    {
        _leftBumpContacts.Add(lane.Closed[0], start, end);
        _rightBumpContacts.Add(lane.Closed[1], start, end);
        _leftReboundContacts.Add(lane.Closed[2], start, end);
        _rightReboundContacts.Add(lane.Closed[3], start, end);
        _leftLifts.Add(IsUp(0) && IsUp(1), start, end);
        _rightLifts.Add(IsUp(2) && IsUp(3), start, end);
        if (!_hasDuals)
            return;
        _leftOuterLifts.Add(lane.Lifted[0], start, end);
        _leftInnerLifts.Add(lane.Lifted[1], start, end);
        _rightInnerLifts.Add(lane.Lifted[2], start, end);
        _rightOuterLifts.Add(lane.Lifted[3], start, end);

        bool IsUp(int slot) => lane.Lifted[slot] || lane.Car!.Contacts[slot] is null;
    }

    /// <summary>Time and energy at each velocity of the dampers; null if not wanted.</summary>
    public VelocityHistogramAccumulator? Velocities { get; }

    /// <summary>The lifts of both sides, in the order of time.</summary>
    public ImmutableArray<WheelLift> WheelLifts(Manoeuvre manoeuvre) => WheelLift.Of(manoeuvre, _leftLifts.Spans, _rightLifts.Spans);

    public PhaseMetrics ToMetrics(Phase phase)
    {
        var duration = phase.End - phase.Start;
        return new PhaseMetrics
        {
            Name = phase.Name,
            Start = phase.Start,
            End = phase.End,
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
            BumpStopContacts = _leftBumpContacts.Count + _rightBumpContacts.Count,
            ReboundStopContacts = _leftReboundContacts.Count + _rightReboundContacts.Count,
            TyreLoadMinimum = -_unloading.Value,
            DynamicLoadCoefficient = Math.Sqrt(Math.Max(_leftLoadSquares.Value, _rightLoadSquares.Value) / duration) / _staticSideLoad,
            LoadTransferPeak = _transfer.Value,
            LiftOffTimeLeft = _leftLifts.Duration,
            LiftOffTimeRight = _rightLifts.Duration,
            TyreLiftOffTimes = _hasDuals
                ? [_leftOuterLifts.Duration, _leftInnerLifts.Duration, _rightInnerLifts.Duration, _rightOuterLifts.Duration]
                : [_leftLifts.Duration, _rightLifts.Duration],
            DamperCompressionVelocityPeak = Math.Max(0, _compressionVelocity.Value),
            DamperReboundVelocityPeak = Math.Max(0, _reboundVelocity.Value),
            DamperEnergy = _damperPower.Value,
            RideHeightShift = -_suspensionHeave.Value / duration,
            DamperCompressionPeak = Math.Max(0, _damperCompression.Value),
            DamperExtensionPeak = Math.Max(0, _damperExtension.Value),
            DamperVelocities = Velocities?.ToHistogram(),
        };
    }

    private void AddIntegrals(StepSamples step)
    {
        var (at, weights) = (step.Nodes, step.Weights);
        var (body, roll, seat) = (at[Channel.BodyAcceleration], at[Channel.BodyRollAcceleration], at[Channel.SeatAcceleration]);
        _bodySquares.Add(weights, body * body);
        _rollSquares.Add(weights, roll * roll);
        _seatSquares.Add(weights, seat * seat);
        _suspensionHeave.Add(weights, at[Channel.SuspensionHeave]);
        var stand = Octet.All(_staticSideLoad);
        var (left, right) = (at[Channel.TyreLoadLeft] - stand, at[Channel.TyreLoadRight] - stand);
        _leftLoadSquares.Add(weights, left * left);
        _rightLoadSquares.Add(weights, right * right);
        var (leftVelocity, rightVelocity) = (at[Channel.DamperVelocityLeft], at[Channel.DamperVelocityRight]);
        var (leftPower, rightPower) = (at[Channel.DamperForceLeft] * leftVelocity, at[Channel.DamperForceRight] * rightVelocity);
        _damperPower.Add(weights, leftPower + rightPower);
        Velocities?.Add(step, leftVelocity, leftPower);
        Velocities?.Add(step, rightVelocity, rightPower);
    }

    private void AddPeaks(StepSamples step)
    {
        _bodyPeak.Add(step);
        _rollAccelerationPeak.Add(step);
        _seatPeak.Add(step);
        _rollLeft.Add(step);
        _rollRight.Add(step);
        _bumpTravel.Add(step);
        _reboundTravel.Add(step);
        _unloading.Add(step);
        _transfer.Add(step);
        _compressionVelocity.Add(step);
        _reboundVelocity.Add(step);
        _damperCompression.Add(step);
        _damperExtension.Add(step);
    }

    private void AddSpells(StepSamples step)
    {
        // Most steps touch no stop and lift no tyre. A side's largest contact load is negative only if all its tyres' are.
        var at = step.Nodes;
        var zero = default(Octet);
        var any = Octet.Greater(at[Channel.BumpStopForceLeft], zero) | Octet.Greater(at[Channel.BumpStopForceRight], zero)
            | Octet.Greater(zero, at[Channel.ReboundStopForceLeft]) | Octet.Greater(zero, at[Channel.ReboundStopForceRight])
            | Octet.Greater(zero, at[Channel.TyreContactLeftOuter]) | Octet.Greater(zero, at[Channel.TyreContactLeftInner])
            | Octet.Greater(zero, at[Channel.TyreContactRightInner]) | Octet.Greater(zero, at[Channel.TyreContactRightOuter]);
        var isQuiet = any == 0;
        if (isQuiet && _wasQuiet)
            return;
        _wasQuiet = isQuiet;
        _leftBumpContacts.Add(step);
        _rightBumpContacts.Add(step);
        _leftReboundContacts.Add(step);
        _rightReboundContacts.Add(step);
        _leftLifts.Add(step);
        _rightLifts.Add(step);
        if (!_hasDuals)
            return;
        _leftOuterLifts.Add(step);
        _leftInnerLifts.Add(step);
        _rightInnerLifts.Add(step);
        _rightOuterLifts.Add(step);
    }

    private void Merge(IntervalRecorder later)
    {
        if (later.Velocities is { } velocities)
            Velocities!.Merge(velocities);
        _bodyComfort.Merge(later._bodyComfort);
        _seatComfort.Merge(later._seatComfort);
        _bodySquares.Merge(later._bodySquares);
        _rollSquares.Merge(later._rollSquares);
        _seatSquares.Merge(later._seatSquares);
        _suspensionHeave.Merge(later._suspensionHeave);
        _leftLoadSquares.Merge(later._leftLoadSquares);
        _rightLoadSquares.Merge(later._rightLoadSquares);
        _damperPower.Merge(later._damperPower);
        _bodyPeak.Merge(later._bodyPeak);
        _rollAccelerationPeak.Merge(later._rollAccelerationPeak);
        _seatPeak.Merge(later._seatPeak);
        _rollLeft.Merge(later._rollLeft);
        _rollRight.Merge(later._rollRight);
        _bumpTravel.Merge(later._bumpTravel);
        _reboundTravel.Merge(later._reboundTravel);
        _unloading.Merge(later._unloading);
        _transfer.Merge(later._transfer);
        _compressionVelocity.Merge(later._compressionVelocity);
        _reboundVelocity.Merge(later._reboundVelocity);
        _damperCompression.Merge(later._damperCompression);
        _damperExtension.Merge(later._damperExtension);
        _leftBumpContacts.Merge(later._leftBumpContacts);
        _rightBumpContacts.Merge(later._rightBumpContacts);
        _leftReboundContacts.Merge(later._leftReboundContacts);
        _rightReboundContacts.Merge(later._rightReboundContacts);
        _leftLifts.Merge(later._leftLifts);
        _rightLifts.Merge(later._rightLifts);
        _leftOuterLifts.Merge(later._leftOuterLifts);
        _leftInnerLifts.Merge(later._leftInnerLifts);
        _rightInnerLifts.Merge(later._rightInnerLifts);
        _rightOuterLifts.Merge(later._rightOuterLifts);
    }
}
