using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>Gathers the figures of the runs in all lanes from the steps they accept. Not thread-safe.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class LaneFigures<T> : ILaneObserver<T>
    where T : struct, ILanes<T>
{
    private readonly HalfCarEquations<T> _equations;
    private readonly HalfCarEquations?[] _single = new HalfCarEquations?[T.Count];
    private readonly StepNodes<T> _nodes;
    private readonly (Gauge Gauge, Accumulator<T> Accumulator)[] _gauges;
    private readonly LaneRunFigures?[] _runs = new LaneRunFigures?[T.Count];
    private readonly StepView[] _views = new StepView[T.Count];
    private readonly LaneBuffer<T> _intervalEnd = new(1);
    private readonly Exception?[] _failures = new Exception?[T.Count];
    private readonly MotionWeighting<T>? _weighting;
    private DormandPrince54<T>? _steps;

    /// <summary>Prepares the gathering.</summary>
    /// <param name="equations">The equations being integrated.</param>
    /// <param name="alone">The same equations where they stand alone; null where there are others beside them.</param>
    /// <param name="like">A car of their form.</param>
    /// <param name="ofCorner">Whether the runs are corners from rest, which gather what they need from single steps and few channels, without gauges.</param>
    /// <param name="ofRide">Whether the runs measure a ride.</param>
    public LaneFigures(HalfCarEquations<T> equations, HalfCarEquations? alone, AssembledHalfCar like, bool ofCorner = false, bool ofRide = false)
    {
        _equations = equations;
        _single[0] = alone;
        _nodes = new StepNodes<T>(equations, ofCorner);
        _weighting = ofCorner ? null : new MotionWeighting<T>(like.Second is not null, ofRide);
        _gauges = [.. PhaseMetric.AllGauges.Where(gauge => !ofCorner && gauge.Concerns(like)).Select(gauge => (gauge, gauge.NewAccumulator<T>()))];
    }

    /// <summary>Says where the steps come from, before the first one.</summary>
    public void Watch(DormandPrince54<T> steps) => _steps = steps;

    /// <summary>Puts a run into a lane.</summary>
    /// <returns>Its equations in single numbers.</returns>
    public HalfCarEquations Enter(int lane, LaneRunFigures run)
    {
        var (car, road, cornering) = (run.Car, run.Manoeuvre.Road, run.Manoeuvre.Cornering);
        if (T.Count > 1)
        {
            _equations.Load(lane, car, road, cornering);
            if (_single[lane] is { } before)
                before.Load(car, road, cornering);
            else
                _single[lane] = new HalfCarEquations(car, road, cornering);
        }

        _views[lane] ??= _nodes.View(lane, _single[lane]!, new LaneStep<T>(_steps!, lane, _equations.Dimension));
        _views[lane].Forget();
        _runs[lane] = run;
        _weighting?.Enter(lane, car.Vehicle);
        _intervalEnd[0, lane] = run.Ends[0];
        return _single[lane]!;
    }

    /// <summary>Takes a run out of its lane.</summary>
    public void Leave(int lane)
    {
        if (_runs[lane] is not { } run)
            return;
        EndInterval(lane, run);
        _runs[lane] = null;
        _equations.Rest(lane);
    }

    /// <inheritdoc/>
    public void AtSegmentStart(int lanes)
    {
        if (T.Count > 1)
        {
            foreach (var lane in new LaneSet(lanes))
            {
                var (start, end) = _equations.SegmentOf(lane);
                _single[lane]!.EnterSegment(start, end);
            }
        }

        _nodes.TakeStart(_steps!, lanes);
    }

    /// <inheritdoc/>
    public void AtTrialEnd() => _nodes.TakeEnd(_steps!);

    /// <inheritdoc/>
    public int Observe(DormandPrince54<T> steps, int accepted)
    {
        _nodes.Load(steps);
        foreach (var lane in new LaneSet(T.Greater(T.All(0.5) * (_nodes.Start + _nodes.End), _intervalEnd[0]) & accepted))
        {
            var run = _runs[lane]!;
            EndInterval(lane, run);
            _intervalEnd[0, lane] = run.NextInterval();
        }

        foreach (var (_, accumulator) in _gauges)
            accumulator.Add(_nodes, accepted, _views);
        _weighting?.Add(_nodes, accepted, _runs);
        var ended = 0;
        foreach (var lane in new LaneSet(accepted))
        {
            try
            {
                _runs[lane]!.Add(_views[lane]);
                if (_runs[lane]!.HasSeenEnough)
                    ended |= 1 << lane;
            }
            catch (ArgumentOutOfRangeException e)
            {
                // As where a linkage at the end of its reach moves its damper without bound: nothing to do with the neighbours.
                _failures[lane] = _equations.TakeFault(lane) ?? new IntegrationException(
                    FormattableString.Invariant($"At {_views[lane].End:F3} s the motion has grown beyond all bounds: {e.Message}"),
                    _views[lane].End,
                    HalfCarState.Name(HalfCarState.Rates + HalfCarState.UnsprungHeave),
                    _views[lane].Length);
                ended |= 1 << lane;
            }
        }

        _nodes.Onward(accepted);
        return ended;
    }

    /// <inheritdoc/>
    public Exception? TakeFailure(int lane)
    {
        var failure = _failures[lane];
        _failures[lane] = null;
        return failure;
    }

    private void EndInterval(int lane, LaneRunFigures run)
    {
        foreach (var (gauge, accumulator) in _gauges)
            run.Now.Add(gauge, accumulator.Take(lane));
        if (_weighting is null)
            return;
        _weighting.Weigh(_runs);
        var (atBody, atSeat) = _weighting.Take(lane);
        run.Now.Add(atBody, atSeat);
    }
}
