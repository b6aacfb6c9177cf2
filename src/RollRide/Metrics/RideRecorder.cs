using System.Numerics;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Metrics;

/// <summary>
/// Gathers the figures of a long ride from the continuous solution: means and distributions over time from the nodes of every step,
/// comfort and spectra from samples at a fixed rate; memory does not grow with the length of the run. It measures
/// <see cref="MeasuredSpan"/>; a step counts if its middle lies in it. One per run; not thread-safe.
/// </summary>
public sealed class RideRecorder : IStepObserver, IStepConsumer
{
    /// <summary>Rate of the samples that comfort and spectra are taken from, Hz.</summary>
    public const double Rate = MotionSamples.Rate;

    // Some cycles of body heave and roll.
    private const double Settling = 3;

    private const double VelocityBin = 0.02;
    private const double TravelBin = 0.002;
    private const double LoadBinOverStatic = 0.01;

    // Six and a half seconds resolve a sixth of a hertz, well below the body's modes.
    private const int SegmentLength = 4096;

    /// <summary>A ride shorter than this has no spectrum, s.</summary>
    public const double ShortestSpectrum = SegmentLength / Rate;

    private readonly StepSampler _sampler;
    private readonly double _speed;
    private readonly double _start;
    private readonly double _end;
    private readonly double _staticLoad;
    private readonly SeatMeters[] _seats;
    private readonly VibrationAccumulator _rollMeter = new(Rate);
    private readonly HistogramAccumulator _leftLoads;
    private readonly HistogramAccumulator _rightLoads;
    private readonly HistogramAccumulator _travel = new(TravelBin);
    private readonly VelocityHistogramAccumulator _velocities = new(VelocityBin);
    private readonly SpectralAccumulator _bodyAndLoad = new(Rate, SegmentLength, withSecond: true);
    private double _duration;
    private Integral _bodySquares;
    private Integral _rollSquares;
    private Integral _leftLoadSquares;
    private Integral _rightLoadSquares;
    private Integral _leftLift;
    private Integral _rightLift;
    private Integral _travelSum;
    private Integral _travelSquares;
    private Integral _velocitySquares;
    private Integral _leftPower;
    private Integral _rightPower;
    private Contacts _leftBump = new(Channel.BumpStopForceLeft);
    private Contacts _rightBump = new(Channel.BumpStopForceRight);
    private Contacts _leftRebound = new(Channel.ReboundStopForceLeft);
    private Contacts _rightRebound = new(Channel.ReboundStopForceRight);

    /// <summary>Prepares the figures of a run.</summary>
    /// <param name="equations">The equations being integrated.</param>
    /// <param name="manoeuvre">The manoeuvre being run; it leaves a <see cref="MeasuredSpan"/>.</param>
    /// <param name="seats">The seats; if null the middle and the vehicle's seat, both at the height of the centre of gravity.</param>
    public RideRecorder(HalfCarEquations equations, Manoeuvre manoeuvre, IReadOnlyList<SeatPosition>? seats = null)
    {
        ArgumentNullException.ThrowIfNull(equations);
        ArgumentNullException.ThrowIfNull(manoeuvre);
        var vehicle = equations.Car.Vehicle;
        _sampler = new StepSampler(equations, this);
        _speed = manoeuvre.Road.Speed;
        (_, _start, _end) = MeasuredSpan(manoeuvre)
            ?? throw new ArgumentException("The manoeuvre leaves no ride to measure: it corners or ends before the ride has settled on the full height of a random road.", nameof(manoeuvre));
        _staticLoad = vehicle.StaticTyreLoad * vehicle.ContactPositions.Count / 2;
        seats ??= vehicle.SeatOffset == 0
            ? [new SeatPosition("middle", 0, vehicle.RollArm)]
            : [new SeatPosition("middle", 0, vehicle.RollArm), new SeatPosition("seat", vehicle.SeatOffset, vehicle.RollArm)];
        _seats = [.. seats.Select(seat => new SeatMeters(seat))];
        (_leftLoads, _rightLoads) = (new(LoadBinOverStatic * _staticLoad), new(LoadBinOverStatic * _staticLoad));
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

    /// <inheritdoc/>
    public void Observe(IDenseStep step) => _sampler.Observe(step);

    /// <summary>The figures gathered.</summary>
    /// <exception cref="InvalidOperationException">The run ended before anything was measured.</exception>
    public RideMetrics ToMetrics()
    {
        if (_duration == 0) throw new InvalidOperationException("The run ended before the ride was measured.");
        var kilometres = _duration * _speed / 1000;
        var densities = _bodyAndLoad.ToDensities();
        var meanTravel = _travelSum.Value / (2 * _duration);
        return new RideMetrics
        {
            Start = _start,
            Duration = _duration,
            Distance = _duration * _speed,
            Seats = [.. _seats.Select(seat => seat.ToComfort(_rollMeter))],
            BodyAccelerationRms = Math.Sqrt(_bodySquares.Value / _duration),
            RollAccelerationRms = Math.Sqrt(_rollSquares.Value / _duration),
            Loads = [Load(_leftLoadSquares, _leftLift, _leftLoads), Load(_rightLoadSquares, _rightLift, _rightLoads)],
            WheelTravelRms = Math.Sqrt(Math.Max(0, (_travelSquares.Value / (2 * _duration)) - (meanTravel * meanTravel))),
            WheelTravel = _travel.ToHistogram(),
            BumpStopContactsPerKm = (_leftBump.Count + _rightBump.Count) / kilometres,
            ReboundStopContactsPerKm = (_leftRebound.Count + _rightRebound.Count) / kilometres,
            DamperVelocityRms = Math.Sqrt(_velocitySquares.Value / (2 * _duration)),
            DamperVelocities = _velocities.ToHistogram(),
            DamperPower = [_leftPower.Value / _duration, _rightPower.Value / _duration],
            BodyAccelerationDensity = densities?.First,
            LoadDensity = densities?.Second,
        };
    }

    void IStepConsumer.Add(StepSamples step)
    {
        var middle = 0.5 * (step.Start + step.End);
        var counts = middle >= _start && middle <= _end;
        _leftBump.Add(step, counts);
        _rightBump.Add(step, counts);
        _leftRebound.Add(step, counts);
        _rightRebound.Add(step, counts);
        if (!counts)
            return;

        _duration += step.Length;
        var (at, weights) = (step.Nodes, step.Weights);
        var (body, roll) = (at[Channel.BodyAcceleration], at[Channel.BodyRollAcceleration]);
        _bodySquares.Add(weights, body * body);
        _rollSquares.Add(weights, roll * roll);
        var (leftLoad, rightLoad) = (at[Channel.TyreLoadLeft], at[Channel.TyreLoadRight]);
        AddLoad(step, leftLoad, ref _leftLoadSquares, ref _leftLift, _leftLoads);
        AddLoad(step, rightLoad, ref _rightLoadSquares, ref _rightLift, _rightLoads);
        var (leftTravel, rightTravel) = (at[Channel.WheelTravelLeft], at[Channel.WheelTravelRight]);
        _travelSum.Add(weights, leftTravel + rightTravel);
        _travelSquares.Add(weights, (leftTravel * leftTravel) + (rightTravel * rightTravel));
        _travel.Add(step, leftTravel);
        _travel.Add(step, rightTravel);
        var (leftVelocity, rightVelocity) = (at[Channel.DamperVelocityLeft], at[Channel.DamperVelocityRight]);
        var (leftPower, rightPower) = (leftVelocity * at[Channel.DamperForceLeft], rightVelocity * at[Channel.DamperForceRight]);
        _velocitySquares.Add(weights, (leftVelocity * leftVelocity) + (rightVelocity * rightVelocity));
        _leftPower.Add(weights, leftPower);
        _rightPower.Add(weights, rightPower);
        _velocities.Add(step, leftVelocity, leftPower);
        _velocities.Add(step, rightVelocity, rightPower);
    }

    void IStepConsumer.Add(MotionSamples samples)
    {
        var weighted = samples.Weighted;
        var body = samples.At(Channel.BodyAcceleration);
        var load = samples.At(Channel.TyreLoadLeft) + samples.At(Channel.TyreLoadRight);
        var loadChange = (load * Octet.All(0.5 / _staticLoad)) - Octet.All(1);
        for (var i = 0; i < weighted.Length; i++)
        {
            if (samples.Time(i) < _start || samples.Time(i) > _end)
                continue;
            foreach (var seat in _seats)
                seat.Add(weighted[i]);
            _rollMeter.Add(weighted[i][MotionSignal.RollItself]);
            _bodyAndLoad.Add(body[i], loadChange[i]);
        }
    }

    private void AddLoad(StepSamples step, in Octet load, ref Integral squares, ref Integral lift, HistogramAccumulator loads)
    {
        var change = load - Octet.All(_staticLoad);
        squares.Add(step.Weights, change * change);
        lift.Add(step.Weights, Octet.WhereSame(load, default, Octet.All(1), default));
        loads.Add(step, load);
    }

    private LoadDistribution Load(in Integral squares, in Integral lift, HistogramAccumulator loads) =>
        new(_staticLoad, Math.Sqrt(squares.Value / _duration) / _staticLoad, lift.Value / _duration, loads.ToHistogram());

    /// <summary>How often a stop was struck.</summary>
    private struct Contacts(Channel force)
    {
        private bool _touches;

        public long Count { get; private set; }

        public void Add(StepSamples step, bool counts)
        {
            var free = Octet.Same(step.Nodes[force], default);
            var touching = ~free & step.Rule.Mask;
            if (counts && touching != 0)
                Count += BitOperations.PopCount(touching & ~((touching << 1) | (_touches ? 1U : 0)));
            _touches = touching >> (step.Rule.Count - 1) != 0;
        }
    }

    private sealed class SeatMeters(SeatPosition seat)
    {
        private readonly VibrationAccumulator _vertical = new(Rate);
        private readonly VibrationAccumulator _lateral = new(Rate);

        public void Add(in KeptOctet weighted)
        {
            _vertical.Add(weighted[MotionSignal.Body] + (seat.Offset * weighted[MotionSignal.Roll]));

            // Above the roll axis a body that rolls left side up moves to the right.
            _lateral.Add(weighted[MotionSignal.Lateral] - (seat.Height * weighted[MotionSignal.RollSideways]));
        }

        public SeatComfort ToComfort(VibrationAccumulator roll) => new(seat, _vertical.ToMeasures(), _lateral.ToMeasures(), roll.ToMeasures());
    }
}
