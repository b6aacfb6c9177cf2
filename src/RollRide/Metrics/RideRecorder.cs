using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Metrics;

/// <summary>
/// Gathers the figures of a long ride from the continuous solution: means and distributions over time from the nodes of every step,
/// comfort and spectra from samples at a fixed rate; memory does not grow with the length of the run. It measures
/// <see cref="MeasuredSpan"/>; a step counts if its middle lies in it. One per run; not thread-safe.
/// </summary>
public sealed class RideRecorder
{
    /// <summary>Rate of the samples that comfort and spectra are taken from, Hz.</summary>
    public const double Rate = WeightedMotion.Rate;

    // s: some cycles of body heave and roll, in which the start dies away.
    private const double Settling = 3;

    // Widths of the bins: m/s, m, and as a share of the static load.
    private const double VelocityBin = 0.02;
    private const double TravelBin = 0.002;
    private const double LoadBinOverStatic = 0.01;

    // 6.4 s resolve 0.16 Hz, well below the body's modes.
    private const int SegmentLength = 4096;

    /// <summary>A ride shorter than this has no spectrum, s.</summary>
    public const double ShortestSpectrum = SegmentLength / Rate;

    private readonly double _speed;
    private readonly double _start;
    private readonly double _end;
    private readonly double _leftStatic;
    private readonly double _rightStatic;
    private readonly SeatMeters[] _seats;
    private readonly VibrationAccumulator _rollMeter = new(Rate);
    private readonly HistogramAccumulator _leftLoads;
    private readonly HistogramAccumulator _rightLoads;
    private readonly HistogramAccumulator _travel = new(TravelBin);
    private readonly HistogramAccumulator _velocities = new(VelocityBin);
    private readonly SpectralAccumulator _bodyAndLoad = new(Rate, SegmentLength, withSecond: true);
    private double _duration;
    private double _bodySquares;
    private double _rollSquares;
    private double _leftLoadSquares;
    private double _rightLoadSquares;
    private double _leftLift;
    private double _rightLift;
    private double _travelSum;
    private double _travelSquares;
    private double _velocitySquares;
    private double _leftPower;
    private double _rightPower;

    /// <summary>Prepares the figures of a run.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="manoeuvre">The manoeuvre being run; it leaves a <see cref="MeasuredSpan"/>.</param>
    /// <param name="seats">The seats; if null the middle and the vehicle's seat, both at the height of the centre of gravity.</param>
    internal RideRecorder(AssembledHalfCar car, Manoeuvre manoeuvre, IReadOnlyList<SeatPosition>? seats = null)
    {
        var vehicle = car.Vehicle;
        _speed = manoeuvre.Road.Speed;
        (_, _start, _end) = MeasuredSpan(manoeuvre)
            ?? throw new ArgumentException("The manoeuvre leaves no ride to measure: it corners or ends before the ride has settled on the full height of a random road.", nameof(manoeuvre));
        (_leftStatic, _rightStatic) = (car.StaticSideLoad(Side.Left), car.StaticSideLoad(Side.Right));
        _seats = seats is not null ? [.. seats.Select(seat => new SeatMeters(seat, false))]
            : vehicle is { SeatOffset: 0, SeatTowardsSecondAxle: 0 } ? [new SeatMeters(new SeatPosition("middle", 0, vehicle.RollArm), false)]
            : [new SeatMeters(new SeatPosition("middle", 0, vehicle.RollArm), false), new SeatMeters(new SeatPosition("seat", vehicle.SeatOffset, vehicle.RollArm), true)];
        (_leftLoads, _rightLoads) = (new(LoadBinOverStatic * _leftStatic), new(LoadBinOverStatic * _rightStatic));
    }

    /// <summary>
    /// Time from which a ride is measured, s: when the random road has grown to its full height, and the start has died away
    /// after that or a quarter of a short run has passed.
    /// </summary>
    /// <param name="road">The road.</param>
    /// <param name="duration">Length of the run, s.</param>
    public static double StartTime(Road road, double duration)
    {
        ArgumentNullException.ThrowIfNull(road);
        return ((road.Unevenness?.LeadIn ?? 0) / road.Speed) + Math.Min(Settling, duration / 4);
    }

    /// <summary>
    /// The part of a run in which the ride is measured: from <see cref="StartTime"/> to the corner or the end, for load transfer
    /// is no unevenness. Null where there is no random road or nothing is left of it.
    /// </summary>
    /// <param name="manoeuvre">The manoeuvre.</param>
    public static Phase? MeasuredSpan(Manoeuvre manoeuvre)
    {
        ArgumentNullException.ThrowIfNull(manoeuvre);
        var start = StartTime(manoeuvre.Road, manoeuvre.Duration);
        var end = Math.Min(manoeuvre.Cornering.StartTime, manoeuvre.Duration);
        return manoeuvre.Road.Unevenness is not null && end > start ? new Phase("ride", start, end) : null;
    }

    /// <summary>The figures gathered.</summary>
    /// <param name="span">What a run gathers of any phase, over the <see cref="MeasuredSpan"/>: stop contacts are counted there.</param>
    /// <exception cref="InvalidOperationException">The run ended before anything was measured.</exception>
    internal RideMetrics ToMetrics(PhaseMetrics span)
    {
        if (_duration == 0) throw new InvalidOperationException("The run ended before the ride was measured.");
        var distance = _duration * _speed;
        var densities = _bodyAndLoad.ToDensities();
        var meanTravel = _travelSum / (2 * _duration);
        return new RideMetrics
        {
            Start = _start,
            Duration = _duration,
            Distance = distance,
            Seats = [.. _seats.Select(seat => seat.ToComfort(_rollMeter))],
            BodyAccelerationRms = Math.Sqrt(_bodySquares / _duration),
            RollAccelerationRms = Math.Sqrt(_rollSquares / _duration),
            Loads = [Load(_leftStatic, _leftLoadSquares, _leftLift, _leftLoads), Load(_rightStatic, _rightLoadSquares, _rightLift, _rightLoads)],
            WheelTravelRms = Math.Sqrt(Math.Max(0, (_travelSquares / (2 * _duration)) - (meanTravel * meanTravel))),
            WheelTravel = _travel.ToHistogram(),
            BumpStopContactsPerMetre = span.BumpStopContacts / distance,
            ReboundStopContactsPerMetre = span.ReboundStopContacts / distance,
            DamperVelocityRms = Math.Sqrt(_velocitySquares / (2 * _duration)),
            DamperVelocities = _velocities.ToVelocityHistogram(),
            DamperPower = [_leftPower / _duration, _rightPower / _duration],
            BodyAccelerationDensity = densities?.First,
            LoadDensity = densities?.Second,
        };
    }

    /// <summary>Adds a step.</summary>
    internal void Add(StepView step)
    {
        var middle = 0.5 * (step.Start + step.End);
        if (middle < _start || middle > _end)
            return;

        _duration += step.Length;
        for (var node = 0; node < GaussLobatto.Count; node++)
        {
            var seconds = step.Length * GaussLobatto.Weights[node];
            var (body, roll) = (step[node, Channel.BodyAcceleration], step[node, Channel.BodyRollAcceleration]);
            _bodySquares += seconds * body * body;
            _rollSquares += seconds * roll * roll;
            AddLoad(seconds, step[node, Channel.TyreLoadLeft], _leftStatic, ref _leftLoadSquares, ref _leftLift, _leftLoads);
            AddLoad(seconds, step[node, Channel.TyreLoadRight], _rightStatic, ref _rightLoadSquares, ref _rightLift, _rightLoads);
            AddTravel(seconds, step[node, Channel.WheelTravelLeft]);
            AddTravel(seconds, step[node, Channel.WheelTravelRight]);
            AddDamper(seconds, step[node, Channel.DamperVelocityLeft], step[node, Channel.DamperForceLeft], ref _leftPower);
            AddDamper(seconds, step[node, Channel.DamperVelocityRight], step[node, Channel.DamperForceRight], ref _rightPower);
        }
    }

    /// <summary>Adds a sample of the weighted motion.</summary>
    /// <param name="motion">The motion, standing at the sample.</param>
    internal void Add(WeightedMotion motion)
    {
        if (motion.Time < _start || motion.Time > _end)
            return;
        foreach (var seat in _seats)
            seat.Add(motion);
        _rollMeter.Add(motion[MotionSignal.RollRotational]);
        _bodyAndLoad.Add(motion[MotionSignal.BodyAcceleration], (motion[MotionSignal.Load] / (_leftStatic + _rightStatic)) - 1);
    }

    private static void AddLoad(double seconds, double load, double atRest, ref double squares, ref double lift, HistogramAccumulator loads)
    {
        var change = load - atRest;
        squares += seconds * change * change;
        lift += load == 0 ? seconds : 0;
        loads.Add(load, seconds);
    }

    private void AddTravel(double seconds, double travel)
    {
        _travelSum += seconds * travel;
        _travelSquares += seconds * travel * travel;
        _travel.Add(travel, seconds);
    }

    private void AddDamper(double seconds, double velocity, double force, ref double energy)
    {
        _velocitySquares += seconds * velocity * velocity;
        energy += seconds * velocity * force;
        _velocities.Add(velocity, seconds, seconds * velocity * force);
    }

    private LoadDistribution Load(double atRest, double squares, double lift, HistogramAccumulator loads) =>
        new(atRest, Math.Sqrt(squares / _duration) / atRest, lift / _duration, loads.ToHistogram());

    private sealed class SeatMeters(SeatPosition seat, bool isOfVehicle)
    {
        private readonly VibrationAccumulator _vertical = new(Rate);
        private readonly VibrationAccumulator _lateral = new(Rate);

        public void Add(WeightedMotion motion)
        {
            _vertical.Add(isOfVehicle ? motion[MotionSignal.Seat] : motion[MotionSignal.Body] + (seat.Offset * motion[MotionSignal.RollVertical]));

            // Above the roll axis a body that rolls left side up moves to the right.
            _lateral.Add(motion[MotionSignal.Lateral] - (seat.Height * motion[MotionSignal.RollLateral]));
        }

        public SeatComfort ToComfort(VibrationAccumulator roll) => new(seat, _vertical.ToMeasures(), _lateral.ToMeasures(), roll.ToMeasures());
    }
}
