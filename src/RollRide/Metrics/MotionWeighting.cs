using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Metrics;

/// <summary>
/// The body's accelerations in each lane, sampled at a constant rate from the polynomials through their nodes, and frequency-weighted. Samples wait until a lane has
/// many of them: lanes' steps hold different numbers of samples, and so all lanes are weighted side by side. Not thread-safe.
/// </summary>
/// <remarks>The filters are linear, so the weighted vibration at any place on the body is a sum of these.</remarks>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class MotionWeighting<T>
    where T : struct, ILanes<T>
{
    // More balance the lanes better; these still stay in the processor's cache.
    private const int Rows = 64;

    private const int NextSample = 0, Waiting = 1, SeatOffset = 2;

    private readonly MotionSignal[] _sampled;
    private readonly (MotionSignal From, MotionSignal To, WeightingFilter<T> Filter)[] _filters;
    private readonly bool _hasSeatOfItsOwn;
    private readonly LaneBuffer<T> _numbers = new(3);
    private readonly LaneBuffer<T> _nodes = new(GaussLobatto.Count);
    private readonly LaneBuffer<T> _polynomials;
    private readonly LaneBuffer<T> _rows = new(Rows * WeightedMotion.Signals);
    private readonly ComfortSums<T> _body = new();
    private readonly ComfortSums<T> _seat = new();
    private readonly double[] _places = new double[Rows];
    private readonly OneLane[] _polynomial = new OneLane[GaussLobatto.Count];
    private readonly double[] _taken = new double[T.Count];
    private readonly WeightedMotion[]? _rides;

    // A bit for each lane in which nothing has moved yet: its samples are zero, and so is what the filters make of them.
    private int _resting;

    /// <summary>Prepares the sampling.</summary>
    /// <param name="hasSecondAxle">Whether the vehicles have a second axle, whose end of the body moves the seat too.</param>
    /// <param name="ofRide">Whether lateral and roll vibration are weighted too, and each sample is shown to the run.</param>
    public MotionWeighting(bool hasSecondAxle, bool ofRide)
    {
        _hasSeatOfItsOwn = hasSecondAxle;
        List<MotionSignal> sampled = [MotionSignal.BodyAcceleration, MotionSignal.RollAcceleration];
        List<(MotionSignal, MotionSignal, WeightingFilter<T>)> filters =
        [
            (MotionSignal.BodyAcceleration, MotionSignal.Body, new(FrequencyWeighting.Wk, WeightedMotion.Rate)),
            (MotionSignal.RollAcceleration, MotionSignal.RollVertical, new(FrequencyWeighting.Wk, WeightedMotion.Rate)),
        ];
        if (hasSecondAxle)
        {
            sampled.Add(MotionSignal.SeatAcceleration);
            filters.Add((MotionSignal.SeatAcceleration, MotionSignal.Seat, new(FrequencyWeighting.Wk, WeightedMotion.Rate)));
        }

        if (ofRide)
        {
            sampled.AddRange([MotionSignal.LateralAcceleration, MotionSignal.Load]);
            filters.Add((MotionSignal.LateralAcceleration, MotionSignal.Lateral, new(FrequencyWeighting.Wd, WeightedMotion.Rate)));
            filters.Add((MotionSignal.RollAcceleration, MotionSignal.RollLateral, new(FrequencyWeighting.Wd, WeightedMotion.Rate)));
            filters.Add((MotionSignal.RollAcceleration, MotionSignal.RollRotational, new(FrequencyWeighting.We, WeightedMotion.Rate)));
            _rides = new WeightedMotion[T.Count];
            for (var lane = 0; lane < T.Count; lane++)
                _rides[lane] = new WeightedMotion(_rows.Column(lane));
        }

        (_sampled, _filters) = ([.. sampled], [.. filters]);
        _polynomials = new(_sampled.Length * GaussLobatto.Count);
    }

    /// <summary>Puts a run into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="vehicle">Its vehicle, with the seat.</param>
    public void Enter(int lane, HalfCar vehicle)
    {
        _numbers[NextSample, lane] = _numbers[Waiting, lane] = 0;
        _numbers[SeatOffset, lane] = vehicle.SeatOffset;
        foreach (var (_, _, filter) in _filters)
            filter.Rest(lane);
        _resting = _rides is null ? _resting | (1 << lane) : 0;
        _taken[lane] = 0;
    }

    /// <summary>Takes the samples in new steps.</summary>
    /// <param name="steps">The steps.</param>
    /// <param name="lanes">A bit for each lane that has accepted one.</param>
    /// <param name="runs">The runs, which are shown their samples.</param>
    public void Add(StepNodes<T> steps, int lanes, LaneRunFigures?[] runs)
    {
        for (var i = 0; i < _sampled.Length; i++)
            WritePolynomial(steps, _sampled[i], Polynomial(i));
        if ((_resting & lanes) != 0)
            LookForMotion(lanes);
        foreach (var lane in new LaneSet(lanes))
        {
            // A step that ends at a sample holds it.
            var last = LaneMath.Get(steps.End, lane) * WeightedMotion.Rate;
            if ((_resting & (1 << lane)) != 0)
                _numbers[NextSample, lane] = Math.Max(_numbers[NextSample, lane], Math.Floor(last) + 1);
            while (_numbers[NextSample, lane] <= last)
            {
                Sample(lane, LaneMath.Get(steps.Start, lane), 1 / LaneMath.Get(steps.Length, lane), last);
                if (_numbers[Waiting, lane] == Rows)
                    Weigh(runs);
            }
        }
    }

    /// <summary>Wakes the lanes in which something moves.</summary>
    private void LookForMotion(int lanes)
    {
        var largest = default(T);
        foreach (ref readonly var coefficient in _polynomials.Elements)
            largest = T.Max(largest, T.Abs(coefficient));
        _resting &= ~(lanes & T.Greater(largest, default));
    }

    /// <summary>Takes as many samples of a lane's step as there is room for.</summary>
    private void Sample(int lane, double start, double perLength, double last)
    {
        var (next, row) = (_numbers[NextSample, lane], (int)_numbers[Waiting, lane]);
        var count = (int)Math.Min(Rows - row, Math.Floor(last) - next + 1);
        var places = _places.AsSpan(0, count);

        for (var i = 0; i < places.Length; i++)
            places[i] = (((next + i) * (1 / WeightedMotion.Rate)) - start) * perLength;

        // The first and the last may lie outside the step by a rounding of time.
        places[0] = Math.Max(places[0], 0);
        places[^1] = Math.Min(places[^1], 1);
        for (var i = 0; i < _sampled.Length; i++)
        {
            for (var power = 0; power < GaussLobatto.Count; power++)
                _polynomial[power] = new(_polynomials[(i * GaussLobatto.Count) + power, lane]);
            ref var sample = ref _rows[(row * WeightedMotion.Signals) + (int)_sampled[i], lane];
            foreach (var place in places)
            {
                sample = GaussLobatto.At<OneLane>(_polynomial, new(place)).Value;
                sample = ref Unsafe.Add(ref sample, WeightedMotion.Signals * T.Count);
            }
        }

        (_numbers[NextSample, lane], _numbers[Waiting, lane]) = (next + count, row + count);
    }

    /// <summary>Weights the samples that wait, in all lanes.</summary>
    /// <param name="runs">The runs, which are shown their samples.</param>
    public void Weigh(LaneRunFigures?[] runs)
    {
        for (var row = 0; T.Greater(_numbers[Waiting], T.All(row)) is not 0 and var lanes; row++)
        {
            var first = row * WeightedMotion.Signals;
            foreach (var (from, to, filter) in _filters)
                filter.Next(_rows[first + (int)from], lanes, out _rows[first + (int)to]);
            ref var body = ref _rows[first + (int)MotionSignal.Body];
            ref var seat = ref _rows[first + (int)MotionSignal.Seat];
            if (!_hasSeatOfItsOwn)
                seat = body + (_numbers[SeatOffset] * _rows[first + (int)MotionSignal.RollVertical]);
            _body.Add(T.Where(lanes, body, default));
            _seat.Add(T.Where(lanes, seat, default));
        }

        for (var lane = 0; lane < T.Count && _rides is not null; lane++)
            Show(lane, _rides[lane], runs[lane]);
        _numbers[Waiting] = default;
    }

    /// <summary>Takes the comfort that a lane has gathered, at the body's centre of gravity and at the seat, and starts the lane again from nothing.</summary>
    public (ComfortTally AtBody, ComfortTally AtSeat) Take(int lane)
    {
        var samples = _numbers[NextSample, lane] - _taken[lane];
        _taken[lane] = _numbers[NextSample, lane];
        return (_body.Take(lane, samples), _seat.Take(lane, samples));
    }

    private void Show(int lane, WeightedMotion motion, LaneRunFigures? run)
    {
        var count = (int)_numbers[Waiting, lane];
        for (var row = 0; row < count; row++)
        {
            motion.StandAt(row, _numbers[NextSample, lane] - count + row);
            run!.Add(motion);
        }
    }

    private Span<T> Polynomial(int number) => _polynomials.Elements.Slice(number * GaussLobatto.Count, GaussLobatto.Count);

    private void WritePolynomial(StepNodes<T> steps, MotionSignal signal, Span<T> polynomial)
    {
        for (var node = 0; node < GaussLobatto.Count; node++)
            _nodes[node] = Of(signal, steps[node]);
        GaussLobatto.WriteCoefficients(_nodes.Elements, polynomial);
    }

    private static T Of(MotionSignal signal, in Channels<T> at) => signal switch
    {
        MotionSignal.BodyAcceleration => at[Channel.BodyAcceleration],
        MotionSignal.RollAcceleration => at[Channel.BodyRollAcceleration],
        MotionSignal.SeatAcceleration => at[Channel.SeatAcceleration],
        MotionSignal.LateralAcceleration => at[Channel.LateralAcceleration],
        MotionSignal.Load => at[Channel.TyreLoadLeft] + at[Channel.TyreLoadRight],
        _ => throw new ArgumentOutOfRangeException(nameof(signal), signal, "This signal is not sampled."),
    };
}
