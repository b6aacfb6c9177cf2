using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Metrics;

/// <summary>
/// Gathers the figures of a long ride from samples of the continuous solution at a fixed rate; memory does not grow with the
/// length of the run. It measures <see cref="MeasuredSpan"/>. One per run; not thread-safe.
/// </summary>
public sealed class RideRecorder : IStepObserver
{
    /// <summary>
    /// Sampling rate, Hz: the weightings hold the standard's tolerance, and the body hardly moves above 50 Hz. Fixed, so that
    /// the figures do not depend on the rate of the output.
    /// </summary>
    public const double Rate = 640;

    // Some cycles of body heave and roll.
    private const double Settling = 3;

    private const double VelocityBin = 0.02;
    private const double TravelBin = 0.002;
    private const double LoadBinOverStatic = 0.01;

    // Six and a half seconds resolve a sixth of a hertz, well below the body's modes.
    private const int SegmentLength = 4096;

    private readonly HalfCarEquations _equations;
    private readonly double _speed;
    private readonly double _start;
    private readonly double _end;
    private readonly double _staticLoad;
    private readonly double[] _state;
    private readonly double[] _channels = new double[ChannelTable.Count];
    private readonly SeatMeters[] _seats;
    private readonly HistogramAccumulator[] _loads;
    private readonly double[] _loadSquares = new double[2];
    private readonly long[] _lifted = new long[2];
    private readonly HistogramAccumulator _travel = new(TravelBin);
    private readonly HistogramAccumulator _velocityTime = new(VelocityBin);
    private readonly HistogramAccumulator _velocityEnergy = new(VelocityBin);
    private readonly double[] _damperEnergy = new double[2];
    private readonly SpectralAccumulator _bodyDensity = new(Rate, SegmentLength);
    private readonly SpectralAccumulator _loadDensity = new(Rate, SegmentLength);
    private readonly bool[] _touching = new bool[4];
    private readonly long[] _contacts = new long[4];
    private long _next;
    private long _count;
    private double _bodySquares;
    private double _rollSquares;
    private double _velocitySquares;
    private double _travelSum;
    private double _travelSquares;

    /// <summary>Prepares the figures of a run.</summary>
    /// <param name="equations">The equations being integrated.</param>
    /// <param name="manoeuvre">The manoeuvre being run; it leaves a <see cref="MeasuredSpan"/>.</param>
    /// <param name="seats">The seats; if null the middle and the vehicle's seat, both at the height of the centre of gravity.</param>
    public RideRecorder(HalfCarEquations equations, Manoeuvre manoeuvre, IReadOnlyList<SeatPosition>? seats = null)
    {
        ArgumentNullException.ThrowIfNull(equations);
        ArgumentNullException.ThrowIfNull(manoeuvre);
        var vehicle = equations.Car.Vehicle;
        _equations = equations;
        _speed = manoeuvre.Road.Speed;
        (_, _start, _end) = MeasuredSpan(manoeuvre)
            ?? throw new ArgumentException("The manoeuvre leaves no ride to measure: it corners or ends before the ride has settled on the full height of a random road.", nameof(manoeuvre));
        _staticLoad = vehicle.StaticTyreLoad * vehicle.ContactPositions.Count / 2;
        _state = new double[equations.Dimension];
        seats ??= vehicle.SeatOffset == 0
            ? [new SeatPosition("middle", 0, vehicle.RollArm)]
            : [new SeatPosition("middle", 0, vehicle.RollArm), new SeatPosition("seat", vehicle.SeatOffset, vehicle.RollArm)];
        _seats = [.. seats.Select(seat => new SeatMeters(seat))];
        _loads = [new(LoadBinOverStatic * _staticLoad), new(LoadBinOverStatic * _staticLoad)];
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
    public void Observe(IDenseStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        for (; _next / Rate <= step.End; _next++)
        {
            var time = Math.Max(_next / Rate, step.Start);
            step.StateAt(time, _state);
            _equations.WriteChannels(time, _state, _channels);
            Add(time >= _start && time <= _end);
        }
    }

    /// <summary>The figures gathered.</summary>
    /// <exception cref="InvalidOperationException">The run ended before anything was measured.</exception>
    public RideMetrics ToMetrics()
    {
        if (_count == 0) throw new InvalidOperationException("The run ended before the ride was measured.");
        var duration = _count / Rate;
        var kilometres = duration * _speed / 1000;
        var (firstBin, seconds) = _velocityTime.ToSums();
        var (firstEnergyBin, energy) = _velocityEnergy.ToSums();
        var meanTravel = _travelSum / (2 * _count);
        return new RideMetrics
        {
            Start = _start,
            Duration = duration,
            Distance = duration * _speed,
            Seats = [.. _seats.Select(seat => seat.ToComfort())],
            BodyAccelerationRms = Math.Sqrt(_bodySquares / _count),
            RollAccelerationRms = Math.Sqrt(_rollSquares / _count),
            Loads = [.. Enumerable.Range(0, 2).Select(side => new LoadDistribution(
                _staticLoad,
                Math.Sqrt(_loadSquares[side] / _count) / _staticLoad,
                (double)_lifted[side] / _count,
                _loads[side].ToHistogram()))],
            WheelTravelRms = Math.Sqrt(Math.Max(0, (_travelSquares / (2 * _count)) - (meanTravel * meanTravel))),
            WheelTravel = _travel.ToHistogram(),
            BumpStopContactsPerKm = (_contacts[0] + _contacts[1]) / kilometres,
            ReboundStopContactsPerKm = (_contacts[2] + _contacts[3]) / kilometres,
            DamperVelocityRms = Math.Sqrt(_velocitySquares / (2 * _count)),
            DamperVelocities = new VelocityHistogram(
                VelocityBin, firstBin, [.. seconds], [.. seconds.Select((_, i) => i + firstBin - firstEnergyBin is var e && e >= 0 && e < energy.Length ? energy[e] : 0)]),
            DamperPower = [.. _damperEnergy.Select(e => e / duration)],
            BodyAccelerationDensity = _bodyDensity.ToDensity(),
            LoadDensity = _loadDensity.ToDensity(),
        };
    }

    private void Add(bool counts)
    {
        var body = _channels[(int)Channel.BodyAcceleration];
        var roll = _channels[(int)Channel.BodyRollAcceleration];
        var lateral = _channels[(int)Channel.LateralAcceleration];
        foreach (var seat in _seats) seat.Add(body, roll, lateral, counts);
        for (var i = 0; i < _touching.Length; i++)
        {
            var touches = _channels[(int)Channel.BumpStopForceLeft + i] != 0;
            if (counts && touches && !_touching[i]) _contacts[i]++;
            _touching[i] = touches;
        }

        if (!counts) return;
        _count++;
        _bodySquares += body * body;
        _rollSquares += roll * roll;
        _bodyDensity.Add(body);
        double meanChange = 0;
        for (var side = 0; side < 2; side++)
        {
            var load = _channels[(int)Channel.TyreLoadLeft + side];
            var change = load - _staticLoad;
            meanChange += 0.5 * change / _staticLoad;
            _loadSquares[side] += change * change;
            _loads[side].Add(load, 1);
            if (load == 0) _lifted[side]++;

            var travel = _channels[(int)Channel.WheelTravelLeft + side];
            _travelSum += travel;
            _travelSquares += travel * travel;
            _travel.Add(travel, 1);

            var velocity = _channels[(int)Channel.DamperVelocityLeft + side];
            var energy = velocity * _channels[(int)Channel.DamperForceLeft + side] / Rate;
            _velocitySquares += velocity * velocity;
            _damperEnergy[side] += energy;
            _velocityTime.Add(velocity, 1 / Rate);
            _velocityEnergy.Add(velocity, energy);
        }

        _loadDensity.Add(meanChange);
    }

    private sealed class SeatMeters(SeatPosition seat)
    {
        private readonly VibrationMeter _vertical = new(FrequencyWeighting.Wk, Rate);
        private readonly VibrationMeter _lateral = new(FrequencyWeighting.Wd, Rate);
        private readonly VibrationMeter _roll = new(FrequencyWeighting.We, Rate);

        public void Add(double body, double roll, double lateral, bool counts)
        {
            _vertical.Add(body + (seat.Offset * roll), counts);

            // Above the roll axis a body that rolls left side up moves to the right.
            _lateral.Add(lateral - (seat.Height * roll), counts);
            _roll.Add(roll, counts);
        }

        public SeatComfort ToComfort() => new(seat, _vertical.ToMeasures(), _lateral.ToMeasures(), _roll.ToMeasures());
    }
}
