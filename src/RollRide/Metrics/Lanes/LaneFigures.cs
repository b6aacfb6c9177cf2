using System.Numerics;
using RollRide.Dynamics.Series;
using RollRide.Numerics;

namespace RollRide.Metrics.Lanes;

/// <summary>
/// Gathers the figures of the runs in all lanes of a solver at once, each lane with its own time, step and interval. What changes from step to
/// step is done in all lanes together; what is rare, lane by lane. No lane's figures depend on its neighbours. Not thread-safe.
/// </summary>
/// <typeparam name="T">One lane, or several.</typeparam>
internal sealed partial class LaneFigures<T> : ILaneFigures
    where T : struct, ILanes<T>
{
    private readonly SeriesSolver<T> _solver;
    private readonly MetricsRecorder?[] _recorders = new MetricsRecorder?[T.Count];
    private readonly IntervalRecorder[] _intervals = new IntervalRecorder[T.Count];

    // Until when nothing but the motion changes, s: the end of an interval, or the start of the corner.
    private readonly LaneBuffer<T> _turn = new(1);
    private readonly LaneBuffer<T> _staticSideLoad = new(1);
    private readonly LaneBuffer<T> _seatOffset = new(1);
    private readonly LaneBuffer<T> _integrals = new(LaneIntegral.Count);

    // The lanes looked at, those with a seat beside the middle, those that want distributions, and those whose last step touched a stop or
    // lifted a tyre: a bit each.
    private int _lanes;
    private int _seats;
    private int _distributing;
    private int _touching;

    /// <summary>Makes one for a solver.</summary>
    public LaneFigures(SeriesSolver<T> solver)
    {
        _solver = solver;
        WriteWeighting();
    }

    /// <inheritdoc/>
    public void Enter(int lane, MetricsRecorder recorder)
    {
        var vehicle = recorder.Car.Vehicle;
        _recorders[lane] = recorder;
        _intervals[lane] = recorder.FirstInterval;
        _turn[0, lane] = double.NegativeInfinity;
        _staticSideLoad[0, lane] = vehicle.StaticTyreLoad * recorder.Car.ContactPositions.Length / 2;
        _seatOffset[0, lane] = vehicle.SeatOffset;
        _seats = vehicle.SeatOffset == 0 ? _seats & ~(1 << lane) : _seats | (1 << lane);
        _distributing = recorder.FirstInterval.Velocities is null ? _distributing & ~(1 << lane) : _distributing | (1 << lane);
        _touching &= ~(1 << lane);
        Clear(lane);
        EnterWeighting(lane);
        EnterRoll(lane);
    }

    /// <inheritdoc/>
    public void Gather(int lanes)
    {
        _lanes = lanes;
        var middle = (_solver.StartTimes + _solver.EndTimes) * T.All(0.5);
        for (var turning = (uint)(lanes & T.Greater(middle, _turn[0])); turning != 0; turning &= turning - 1)
        {
            var lane = BitOperations.TrailingZeroCount(turning);
            Turn(lane, 0.5 * (_solver.Start(lane) + _solver.End(lane)));
        }

        Sample();
        LookForPeaks();
        FollowRoll();
        Weigh();

        // Those too that have just ceased to touch.
        var touching = (_solver.Touching | _touching) & lanes;
        _touching = (_touching & ~lanes) | (_solver.Touching & lanes);
        for (var rest = (uint)touching; rest != 0; rest &= rest - 1)
        {
            // Stops are closed and tyres in the air for whole steps, since a step ends where that changes.
            var lane = BitOperations.TrailingZeroCount(rest);
            _intervals[lane].AddContacts(_solver.Lanes[lane], _solver.Start(lane), _solver.End(lane));
        }

        for (var rest = (uint)(_distributing & lanes); rest != 0; rest &= rest - 1)
            AddVelocities(BitOperations.TrailingZeroCount(rest));
    }

    /// <inheritdoc/>
    public void Leave(int lane)
    {
        HandOver(lane);
        LeaveRoll(lane);
        _recorders[lane]!.Complete(_solver.End(lane));
        _recorders[lane] = null;
    }

    /// <summary>Moves on to the interval that a step lies in, and into the corner.</summary>
    private void Turn(int lane, double middle)
    {
        var recorder = _recorders[lane]!;
        while (middle > _intervals[lane].End)
        {
            HandOver(lane);
            _intervals[lane] = recorder.IntervalAfter(_intervals[lane]);
        }

        _turn[0, lane] = Math.Min(_intervals[lane].End, TurnIn(lane, middle));
    }

    private void HandOver(int lane)
    {
        Span<double> integrals = stackalloc double[LaneIntegral.Count];
        Span<double> peaks = stackalloc double[2 * LaneSignal.Count];
        for (var i = 0; i < integrals.Length; i++)
            integrals[i] = _integrals[i, lane];
        for (var i = 0; i < peaks.Length; i++)
            peaks[i] = _peaks[i, lane];
        var isBeside = (_seats >> lane & 1) != 0;
        if (!isBeside)
        {
            integrals[LaneIntegral.SeatSquares] = integrals[LaneIntegral.BodySquares];
            peaks[LaneSignal.Up(LaneSignal.Seat)] = peaks[LaneSignal.Up(LaneSignal.Body)];
            peaks[LaneSignal.Down(LaneSignal.Seat)] = peaks[LaneSignal.Down(LaneSignal.Body)];
        }

        _intervals[lane].Take(integrals, peaks, Comfort(lane, 0), Comfort(lane, isBeside ? 1 : 0));
        Clear(lane);
    }

    private void Clear(int lane)
    {
        for (var i = 0; i < LaneIntegral.Count; i++)
            _integrals[i, lane] = 0;
        for (var i = 0; i < 2 * LaneSignal.Count; i++)
            _peaks[i, lane] = double.NegativeInfinity;

        // No figure asks for the largest load.
        (_peaks[LaneSignal.Up(LaneSignal.Load), lane], _peaks[LaneSignal.Up(LaneSignal.Load + 1), lane]) = (double.PositiveInfinity, double.PositiveInfinity);
        ClearComfort(lane);
    }

    private void AddVelocities(int lane)
    {
        var length = _solver.End(lane) - _solver.Start(lane);
        var velocities = _intervals[lane].Velocities!;
        for (var damper = 0; damper < 2; damper++)
        {
            for (var node = 0; node < Nodes; node++)
            {
                var seconds = length * Rule.MeanWeights[node];
                velocities.Add(_values[((LaneSignal.DamperVelocity + damper) * Nodes) + node, lane], seconds, seconds * _powers[(damper * Nodes) + node, lane]);
            }
        }
    }
}
