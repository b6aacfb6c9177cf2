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
    private readonly WeightedMotion<T> _motion;
    private readonly (Gauge Gauge, Accumulator<T> Accumulator)[] _gauges;
    private readonly RunFigures?[] _runs = new RunFigures?[T.Count];
    private readonly StepView<T>[] _views = new StepView<T>[T.Count];
    private readonly LaneBuffer<T> _intervalEnd = new(1);
    private readonly Exception?[] _failures = new Exception?[T.Count];
    private DormandPrince54<T>? _steps;
    private int _observed;

    /// <summary>Prepares the gathering.</summary>
    /// <param name="equations">The equations being integrated.</param>
    /// <param name="alone">The same equations where they stand alone; null where there are others beside them.</param>
    /// <param name="like">A car of their form.</param>
    /// <param name="hasRide">Whether rides over random roads are measured.</param>
    public LaneFigures(HalfCarEquations<T> equations, HalfCarEquations? alone, AssembledHalfCar like, bool hasRide)
    {
        _equations = equations;
        _single[0] = alone;
        _nodes = new StepNodes<T>(equations);
        _motion = new WeightedMotion<T>(inAllDirections: hasRide);
        var hasDuals = like.Vehicle.Tyre.DualSpacing is not null;
        _gauges = [.. PhaseMetric.AllGauges.Where(gauge => hasDuals || !gauge.IsForDuals).Select(gauge => (gauge, gauge.NewAccumulator<T>()))];
    }

    /// <summary>Says where the steps come from, before the first one.</summary>
    public void Watch(DormandPrince54<T> steps) => _steps = steps;

    /// <summary>Puts a run into a lane.</summary>
    /// <returns>Its equations in single numbers.</returns>
    public HalfCarEquations Enter(int lane, RunFigures run)
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

        _views[lane] ??= new StepView<T>(_single[lane]!, _steps!, _nodes, lane);
        _views[lane].Forget();
        _runs[lane] = run;
        _intervalEnd[0, lane] = run.Ends[0];
        _motion.Start(lane, car.Vehicle.SeatOffset);
        _observed = run.Roll is null && run.Ride is null && run.Velocities is null ? _observed & ~(1 << lane) : _observed | (1 << lane);
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
        var givenUp = 0;
        foreach (var lane in new LaneSet(accepted & _observed))
        {
            try
            {
                AddSingle(_runs[lane]!, _views[lane]);
            }
            catch (ArgumentOutOfRangeException e)
            {
                // As where a linkage at the end of its reach moves its damper without bound: nothing to do with the neighbours.
                _failures[lane] = _equations.TakeFault(lane) ?? new IntegrationException(
                    FormattableString.Invariant($"At {_views[lane].End:F3} s the motion has grown beyond all bounds: {e.Message}"),
                    _views[lane].End,
                    HalfCarState.Name(HalfCarState.Rates + HalfCarState.UnsprungHeave),
                    _views[lane].Length);
                givenUp |= 1 << lane;
            }
        }

        for (var due = _motion.Next(_nodes, accepted); due != 0; due = _motion.Next(_nodes, accepted))
        {
            foreach (var (_, accumulator) in _gauges)
                accumulator.Add(_motion, due);
            foreach (var lane in new LaneSet(due & _observed))
                _runs[lane]!.Ride?.Add(_motion, _nodes, lane);
        }

        _nodes.Onward(accepted);
        return givenUp;
    }

    /// <inheritdoc/>
    public Exception TakeFailure(int lane) => _failures[lane]!;

    private static void AddSingle(RunFigures run, StepView<T> step)
    {
        run.Roll?.Add(step);
        run.Ride?.Add(step);
        if (run.Velocities is not { } velocities)
            return;
        for (var node = 0; node < GaussLobatto.Count; node++)
        {
            var seconds = step.Length * GaussLobatto.Weights[node];
            Add(step[node, Channel.DamperVelocityLeft], step[node, Channel.DamperForceLeft]);
            Add(step[node, Channel.DamperVelocityRight], step[node, Channel.DamperForceRight]);

            void Add(double velocity, double force) => velocities.Add(velocity, seconds, seconds * velocity * force);
        }
    }

    private void EndInterval(int lane, RunFigures run)
    {
        foreach (var (gauge, accumulator) in _gauges)
            run.Now.Add(gauge, accumulator.Take(lane));
    }
}
