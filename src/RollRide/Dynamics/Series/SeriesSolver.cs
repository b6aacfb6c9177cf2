using System.Numerics;
using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <summary>
/// Integrates runs by Taylor series of high order, several runs side by side, each with its own time and step. A step ends where
/// a force law has a kink, so that within a step the equations are smooth.
/// </summary>
/// <remarks>
/// The method of Taylor series with the step chosen from the last two terms: À. Jorba, M. Zou, "A Software Package for the
/// Numerical Integration of ODEs by Means of High-Order Taylor Methods", Experimental Mathematics 14, 2005 (from memory). Between
/// kinks the right-hand side is linear but for sin φs and square-law stops, so each term follows from those before it by the
/// equations of motion themselves. Owns its arrays, allocates nothing per step, not thread-safe.
/// </remarks>
/// <typeparam name="T">One lane, or several.</typeparam>
internal sealed partial class SeriesSolver<T> : ISeriesSource
    where T : struct, ILanes<T>
{
    /// <summary>A lean, rad, that is looked at; less than a quarter turn, at which the vehicle lies on its side.</summary>
    private const double FarOver = 1.5;

    /// <summary>Aims a little below the tolerance.</summary>
    private const double Safety = 0.9;

    private readonly LaneBuffer<T> _series = new(SeriesRow.Count * SeriesRow.Terms);
    private readonly LaneBuffer<T> _constants = new(SeriesConstant.Count);
    private readonly LaneBuffer<T> _end = new(3 * HalfCarState.Rates);
    private readonly LaneBuffer<T> _low = new(SeriesGuard.Count);
    private readonly LaneBuffer<T> _high = new(SeriesGuard.Count);
    private readonly double[] _polynomial = new double[SeriesRow.Terms];
    private readonly LaneBuffer<T> _relativeTolerance = new(1);
    private readonly LaneBuffer<T> _absoluteTolerance = new(1);
    private readonly LaneBuffer<T> _longestStep = new(1);
    private readonly LaneBuffer<T> _time = new(1);
    private readonly LaneBuffer<T> _segmentEnd = new(1);
    private readonly LaneBuffer<T> _step = new(1);
    private readonly LaneBuffer<T> _stepEnd = new(1);
    private readonly LaneBuffer<T> _steps = new(1);
    private readonly LaneBuffer<T> _mostSteps = new(1);
    private readonly SeriesLane[] _lanes;
    private int _inputTerms = SeriesRow.Terms;

    // The lanes with a run, those whose step is their first, and those whose step ends with the segment: a bit each.
    private int _running;
    private int _first;
    private int _landing;

    // The slots with a tyre in any run so far, a bit each.
    private int _contactSlots;

    // Whether any run so far has a spring with a kink.
    private bool _hasBentSprings;

    // The slots of square-law stops that are closed in any lane, a bit each.
    private int _squareStops;

    /// <summary>Makes a solver with idle lanes.</summary>
    public SeriesSolver()
    {
        _lanes = [.. Enumerable.Range(0, T.Count).Select(_ => new SeriesLane())];
        for (var lane = 0; lane < T.Count; lane++)
            Idle(lane);
    }

    /// <inheritdoc/>
    public int LaneCount => T.Count;

    /// <inheritdoc/>
    public ReadOnlySpan<SeriesLane> Lanes => _lanes;

    /// <inheritdoc/>
    public ReadOnlySpan<double> Terms => _series.Scalars;

    /// <summary>The same in lanes.</summary>
    public LaneBuffer<T> Series => _series;

    /// <summary>The constants of the equations, by <see cref="SeriesConstant"/>.</summary>
    public LaneBuffer<T> Constants => _constants;

    /// <summary>Coordinates and velocities at the end of the step.</summary>
    public LaneBuffer<T> EndMotion => _end;

    /// <summary>Start of the step, s.</summary>
    public T StartTimes => _time[0];

    /// <summary>End of the step, s.</summary>
    public T EndTimes => _stepEnd[0];

    /// <summary>Length of the step, s.</summary>
    public T StepLengths => _step[0];

    /// <summary>The lanes in which a stop is closed or a tyre in the air, a bit each.</summary>
    public int Touching { get; private set; }

    /// <summary>Terms that the inputs have at most.</summary>
    public int InputTerms => _inputTerms;

    /// <summary>A coefficient of the step's series.</summary>
    public double Term(int row, int power, int lane) => _series[(row * SeriesRow.Terms) + power, lane];

    /// <inheritdoc/>
    public double Start(int lane) => _time[0, lane];

    /// <inheritdoc/>
    public double End(int lane) => _stepEnd[0, lane];

    /// <summary>Number of steps that a lane's run has taken.</summary>
    public long Steps(int lane) => (long)_steps[0, lane];

    /// <summary>Puts a run into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="car">The run.</param>
    /// <param name="state">States at time 0.</param>
    /// <param name="options">Tolerances and limits.</param>
    /// <exception cref="IntegrationException">A state is not finite.</exception>
    public void Load(int lane, SeriesCar car, ReadOnlySpan<double> state, IntegratorOptions options)
    {
        for (var i = 0; i < HalfCarState.Count; i++)
        {
            if (!double.IsFinite(state[i]))
                throw NotFinite(i, 0, 0);
        }

        var it = _lanes[lane];
        (it.Car, it.Options, it.Segment, it.Reached) = (car, options, 0, 0);
        _running |= 1 << lane;
        _first |= 1 << lane;
        (_time[0, lane], _steps[0, lane]) = (0, 0);
        _relativeTolerance[0, lane] = options.RelativeTolerance;
        _absoluteTolerance[0, lane] = options.AbsoluteTolerance;
        _mostSteps[0, lane] = options.MaximumSteps;
        _longestStep[0, lane] = Math.Min(options.MaximumStep, options.InitialStep ?? double.PositiveInfinity);
        for (var i = 0; i < HalfCarState.Rates; i++)
        {
            _series[(SeriesRow.Position + i) * SeriesRow.Terms, lane] = state[i];
            _series[(SeriesRow.Velocity + i) * SeriesRow.Terms, lane] = state[HalfCarState.Rates + i];
        }

        WriteConstants(lane, car);
        EnterSegment(lane);
        Settle(lane, car, state);
        UpdateLaws(lane);
    }

    /// <summary>Computes the next step of every lane: its series and its end.</summary>
    public void Step()
    {
        for (var moving = (uint)_moving; moving != 0; moving &= moving - 1)
            ExpandInputs(BitOperations.TrailingZeroCount(moving), isEntry: false);
        ComputeSeries();
        var remaining = _segmentEnd[0] - _time[0];
        ChooseStep(remaining);
        EvaluateAt(_step[0], _end);
        if (FindKinks())
            EvaluateStatesAt(_step[0], _end);
        _stepEnd[0] = T.WhereGreater(remaining, _step[0], _time[0] + _step[0], _segmentEnd[0]);
        _landing = _running & ~T.Greater(remaining, _step[0]);
    }

    /// <summary>Moves every lane to the end of its step.</summary>
    /// <returns>The lanes whose runs have ended, a bit each; they are idle from now on.</returns>
    public int Advance()
    {
        ref var s = ref _series[0];
        ref var end = ref _end[0];
        for (var i = 0; i < HalfCarState.Count; i++)
            At(ref s, SeriesRow.Position + i, 0) = Unsafe.Add(ref end, i);

        _time[0] = _stepEnd[0];
        _steps[0] += T.All(1);
        for (var first = (uint)_first; first != 0; first &= first - 1)
        {
            var lane = BitOperations.TrailingZeroCount(first);
            _longestStep[0, lane] = _lanes[lane].Options.MaximumStep;
        }

        _first = 0;
        for (var kinked = (uint)(_kinked & _running); kinked != 0; kinked &= kinked - 1)
            CrossKinks(BitOperations.TrailingZeroCount(kinked));
        var ended = 0;
        for (var landing = (uint)(_landing & _running); landing != 0; landing &= landing - 1)
        {
            var lane = BitOperations.TrailingZeroCount(landing);
            var it = _lanes[lane];
            if (++it.Segment < it.Car!.Segments.Length)
            {
                EnterSegment(lane);
                LookAtTyres(lane);
            }
            else
            {
                ended |= 1 << lane;
                Idle(lane);
            }
        }

        return ended;
    }

    /// <inheritdoc/>
    public void EndState(int lane, Span<double> state)
    {
        for (var i = 0; i < HalfCarState.Count; i++)
            state[i] = _end[i, lane];
    }

    /// <summary>
    /// The lanes whose step must be looked at before the run goes on, a bit each: a state is not finite, the body or the axle leans far
    /// over, or the steps have become too many.
    /// </summary>
    public int Doubtful()
    {
        ref var end = ref _end[0];
        var size = T.Abs(end);
        for (var i = 1; i < HalfCarState.Count; i++)
            size += T.Abs(Unsafe.Add(ref end, i));
        var lean = T.Max(T.Abs(Unsafe.Add(ref end, HalfCarState.BodyRoll)), T.Abs(Unsafe.Add(ref end, HalfCarState.UnsprungRoll)));

        // A number that is none is not smaller than anything.
        var isFine = T.Greater(T.All(double.MaxValue), size) & T.Greater(T.All(FarOver), lean) & T.Greater(_mostSteps[0], _steps[0]);
        return _running & ~isFine;
    }

    /// <summary>Refuses a step that cannot be gone on from.</summary>
    /// <param name="lane">The lane.</param>
    /// <exception cref="IntegrationException">A state is not finite, or the run has taken too many steps.</exception>
    public void CheckStep(int lane)
    {
        var it = _lanes[lane];
        for (var i = 0; i < HalfCarState.Count; i++)
        {
            if (!double.IsFinite(_end[i, lane]))
                throw NotFinite(i, Start(lane), End(lane) - Start(lane));
        }

        if (Steps(lane) >= it.Options.MaximumSteps)
            throw IntegrationException.Stopped($"{it.Options.MaximumSteps} steps were not enough", Start(lane), HalfCarState.Name(0), End(lane) - Start(lane));
    }

    /// <summary>An idle lane stands still and never ends.</summary>
    public void Idle(int lane)
    {
        _lanes[lane].Car = null;
        Touching &= ~(1 << lane);
        _running &= ~(1 << lane);
        _moving &= ~(1 << lane);
        _isStraight[lane] = true;
        for (var i = 0; i < _constants.Length; i++)
            _constants[i, lane] = 0;
        for (var i = 0; i < _series.Length; i++)
            _series[i, lane] = 0;
        for (var i = 0; i < _end.Length; i++)
            _end[i, lane] = 0;
        _segmentEnd[0, lane] = double.PositiveInfinity;
        for (var guard = 0; guard < SeriesGuard.Count; guard++)
            Bound(guard, lane, double.NegativeInfinity, double.PositiveInfinity);
    }

    private static IntegrationException NotFinite(int state, double time, double step) =>
        IntegrationException.Stopped($"{HalfCarState.Name(state)} or its rate of change is not a finite number", time, HalfCarState.Name(state), step);

    /// <summary>Row after row of the series, without a check of bounds: the loops below are the whole cost of a run.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static ref T At(ref T series, int row, int power) => ref Unsafe.Add(ref series, (row * SeriesRow.Terms) + power);

    /// <summary>The terms of all rows, by the equations of motion.</summary>
    private void ComputeSeries()
    {
        ref var s = ref _series[0];
        ref var c = ref _constants[0];
        StartSine(ref s);

        // The terms of the power k; at hand from one power to the next, since each waits for the one before.
        var zs = At(ref s, SeriesRow.Position + HalfCarState.BodyHeave, 0);
        var phiS = At(ref s, SeriesRow.Position + HalfCarState.BodyRoll, 0);
        var zu = At(ref s, SeriesRow.Position + HalfCarState.UnsprungHeave, 0);
        var phiU = At(ref s, SeriesRow.Position + HalfCarState.UnsprungRoll, 0);
        var zsRate = At(ref s, SeriesRow.Velocity + HalfCarState.BodyHeave, 0);
        var phiSRate = At(ref s, SeriesRow.Velocity + HalfCarState.BodyRoll, 0);
        var zuRate = At(ref s, SeriesRow.Velocity + HalfCarState.UnsprungHeave, 0);
        var phiURate = At(ref s, SeriesRow.Velocity + HalfCarState.UnsprungRoll, 0);
        for (var k = 0; k < SeriesRow.Order; k++)
        {
            if (k > 0)
                SineTerm(ref s, k);

            // All rows at the power k.
            ref var terms = ref Unsafe.Add(ref s, k);
            var (q, r) = (zu - zs, phiU - phiS);
            var (qRate, rRate) = (zuRate - zsRate, phiURate - phiSRate);
            var force = T.Fma(Unsafe.Add(ref c, SeriesConstant.HeaveStiffness), q, Unsafe.Add(ref c, SeriesConstant.CrossStiffness) * r);
            var moment = T.Fma(Unsafe.Add(ref c, SeriesConstant.RollStiffness), r, Unsafe.Add(ref c, SeriesConstant.CrossStiffness) * q);
            force = T.Fma(Unsafe.Add(ref c, SeriesConstant.HeaveDamping), qRate, T.Fma(Unsafe.Add(ref c, SeriesConstant.CrossDamping), rRate, force));
            moment = T.Fma(Unsafe.Add(ref c, SeriesConstant.RollDamping), rRate, T.Fma(Unsafe.Add(ref c, SeriesConstant.CrossDamping), qRate, moment));

            // Spring and damper of the tyre are in the same place: kt (z + (ct/kt) ż).
            var tyreTime = Unsafe.Add(ref c, SeriesConstant.TyreTime);
            var tyreHeave = T.Fma(tyreTime, zuRate, zu);
            var tyreRoll = T.Fma(tyreTime, phiURate, phiU);
            var tyreForce = T.Fma(Unsafe.Add(ref c, SeriesConstant.TyreHeaveStiffness), tyreHeave, Unsafe.Add(ref c, SeriesConstant.TyreCrossStiffness) * tyreRoll);
            var tyreMoment = T.Fma(Unsafe.Add(ref c, SeriesConstant.TyreRollStiffness), tyreRoll, Unsafe.Add(ref c, SeriesConstant.TyreCrossStiffness) * tyreHeave);
            var bodyMoment = Unsafe.Add(ref c, SeriesConstant.Gravity) * At(ref terms, SeriesRow.Sine, 0);
            if (k < _inputTerms)
            {
                var left = At(ref terms, SeriesRow.LeftPush, 0);
                var right = At(ref terms, SeriesRow.RightPush, 0);
                var lateral = At(ref terms, SeriesRow.Lateral, 0);
                tyreForce -= (Unsafe.Add(ref c, SeriesConstant.LeftTyres) * left) + (Unsafe.Add(ref c, SeriesConstant.RightTyres) * right);
                tyreMoment -= (Unsafe.Add(ref c, SeriesConstant.LeftTyreArm) * left) + (Unsafe.Add(ref c, SeriesConstant.RightTyreArm) * right)
                    + (Unsafe.Add(ref c, SeriesConstant.UnsprungLateral) * lateral);
                bodyMoment = T.Fma(Unsafe.Add(ref c, SeriesConstant.BodyLateral), lateral, bodyMoment);
            }

            if (k == 0)
            {
                force += Unsafe.Add(ref c, SeriesConstant.Force);
                moment += Unsafe.Add(ref c, SeriesConstant.Moment);
                tyreForce -= Unsafe.Add(ref c, SeriesConstant.TyreForce);
                tyreMoment -= Unsafe.Add(ref c, SeriesConstant.TyreMoment);
            }

            if (_squareStops != 0)
                (force, moment) = WithSquareStops(k, force, moment);

            var reciprocal = T.All(Reciprocals[k + 1]);
            Put(ref terms, HalfCarState.BodyHeave, force * Unsafe.Add(ref c, SeriesConstant.BodyMobility), reciprocal, ref zs, ref zsRate);
            Put(ref terms, HalfCarState.BodyRoll, (moment + bodyMoment) * Unsafe.Add(ref c, SeriesConstant.BodyRollMobility), reciprocal, ref phiS, ref phiSRate);
            Put(ref terms, HalfCarState.UnsprungHeave, (tyreForce + force) * Unsafe.Add(ref c, SeriesConstant.UnsprungMobility), reciprocal, ref zu, ref zuRate);
            Put(ref terms, HalfCarState.UnsprungRoll, (tyreMoment + moment) * Unsafe.Add(ref c, SeriesConstant.UnsprungRollMobility), reciprocal, ref phiU, ref phiURate);
        }
    }

    private static readonly double[] Reciprocals = [0, .. Enumerable.Range(1, SeriesRow.Terms).Select(k => 1.0 / k)];

    /// <summary>
    /// Writes an acceleration's term, and moves velocity and coordinate on to their next ones, which follow from acceleration and velocity:
    /// <c>v₊ = a/(k + 1)</c>, <c>x₊ = v/(k + 1)</c>.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Put(ref T terms, int coordinate, T acceleration, T reciprocal, ref T position, ref T velocity)
    {
        (position, velocity) = (velocity * reciprocal, acceleration * reciprocal);
        At(ref terms, SeriesRow.Acceleration + coordinate, 0) = acceleration;
        At(ref terms, SeriesRow.Velocity + coordinate, 1) = velocity;
        At(ref terms, SeriesRow.Position + coordinate, 1) = position;
    }

    /// <summary>Sine and cosine of the roll angle at the start of the step.</summary>
    private static void StartSine(ref T s)
    {
        var phi = At(ref s, SeriesRow.Position + HalfCarState.BodyRoll, 0);
        var square = phi * phi;
        var (sine, cosine) = (T.All(SineTerms[^1]), T.All(CosineTerms[^1]));
        for (var i = SineTerms.Length - 2; i >= 0; i--)
        {
            sine = T.Fma(sine, square, T.All(SineTerms[i]));
            cosine = T.Fma(cosine, square, T.All(CosineTerms[i]));
        }

        At(ref s, SeriesRow.Sine, 0) = sine * phi;
        At(ref s, SeriesRow.Cosine, 0) = cosine;
    }

    /// <summary>
    /// The next terms of sine and cosine: <c>d sin φ = cos φ dφ</c>, as a product of series.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void SineTerm(ref T s, int k)
    {
        var (sine, cosine) = (T.All(0), T.All(0));
        ref var rate = ref At(ref s, SeriesRow.Velocity + HalfCarState.BodyRoll, 0);
        ref var other = ref Unsafe.Add(ref s, k - 1);
        for (var j = 0; j < k; j++)
        {
            sine = T.Fma(rate, At(ref other, SeriesRow.Cosine, 0), sine);
            cosine = T.Fma(rate, At(ref other, SeriesRow.Sine, 0), cosine);
            rate = ref Unsafe.Add(ref rate, 1);
            other = ref Unsafe.Add(ref other, -1);
        }

        At(ref s, SeriesRow.Sine, k) = sine * T.All(Reciprocals[k]);
        At(ref s, SeriesRow.Cosine, k) = cosine * T.All(-Reciprocals[k]);
    }

    // Past a quarter turn, where the run ends, the last term left out is below 1e-16.
    private static readonly double[] SineTerms = [.. Enumerable.Range(0, 12).Select(i => InverseFactorial((2 * i) + 1) * (i % 2 == 0 ? 1 : -1))];
    private static readonly double[] CosineTerms = [.. Enumerable.Range(0, 12).Select(i => InverseFactorial(2 * i) * (i % 2 == 0 ? 1 : -1))];

    private static double InverseFactorial(int n) => Enumerable.Range(1, n).Aggregate(1.0, (product, i) => product / i);

    /// <summary>
    /// The step by the last two terms of the velocities, and of the road as a displacement: the larger of either must not exceed the
    /// tolerance, taken against the fastest of the motions at the start. A road counts by itself, since a tyre in the air does not feel it.
    /// </summary>
    private void ChooseStep(T remaining)
    {
        ref var s = ref _series[0];
        var tolerance = T.RoughLog2(T.Fma(_relativeTolerance[0], Fastest(ref s, 0), _absoluteTolerance[0]));
        var byLast = StepWithin(tolerance, Fastest(ref s, SeriesRow.Order - 1), SeriesRow.Order - 1);
        var bySecondLast = StepWithin(tolerance, Fastest(ref s, SeriesRow.Order - 2), SeriesRow.Order - 2);
        var wanted = T.Min(T.Min(byLast, bySecondLast) * T.All(Safety), _longestStep[0]);

        if (_inputTerms > 2)
        {
            wanted = T.Min(wanted, T.Min(
                StepWithin(tolerance, Road(ref s, SeriesRow.Order - 1), SeriesRow.Order - 1),
                StepWithin(tolerance, Road(ref s, SeriesRow.Order - 2), SeriesRow.Order - 2)) * T.All(Safety));
        }

        // Exactly to the segment's end, or far enough from it not to leave a sliver.
        _step[0] = T.WhereGreater(remaining, wanted, T.Min(wanted, remaining * T.All(0.5)), remaining);
    }

    /// <summary>The step at which a term is as large as a tolerance, given by its logarithm.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T StepWithin(T tolerance, T term, int power) =>
        T.RoughExp2((tolerance - T.RoughLog2(term)) * T.All(1.0 / power));

    private static T Road(ref T s, int power) => T.Max(T.Abs(At(ref s, SeriesRow.Road, power)), T.Abs(At(ref s, SeriesRow.Road + 1, power)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private T Fastest(ref T s, int power)
    {
        var roll = T.Max(
            T.Abs(At(ref s, SeriesRow.Velocity + HalfCarState.BodyRoll, power)),
            T.Abs(At(ref s, SeriesRow.Velocity + HalfCarState.UnsprungRoll, power)));
        var heave = T.Max(
            T.Abs(At(ref s, SeriesRow.Velocity + HalfCarState.BodyHeave, power)),
            T.Abs(At(ref s, SeriesRow.Velocity + HalfCarState.UnsprungHeave, power)));
        return T.Max(heave, roll * _constants[SeriesConstant.HalfTrack]);
    }

    /// <summary>Coordinates, velocities and accelerations at a time in the step.</summary>
    private void EvaluateAt(T h, LaneBuffer<T> motion)
    {
        EvaluateStatesAt(h, motion);
        ref var s = ref _series[0];
        ref var m = ref motion[2 * HalfCarState.Rates];
        var a0 = At(ref s, SeriesRow.Acceleration, SeriesRow.Order - 2);
        var a1 = At(ref s, SeriesRow.Acceleration + 1, SeriesRow.Order - 2);
        var a2 = At(ref s, SeriesRow.Acceleration + 2, SeriesRow.Order - 2);
        var a3 = At(ref s, SeriesRow.Acceleration + 3, SeriesRow.Order - 2);
        for (var k = SeriesRow.Order - 3; k >= 0; k--)
        {
            ref var terms = ref Unsafe.Add(ref s, k);
            a0 = T.Fma(a0, h, At(ref terms, SeriesRow.Acceleration, 0));
            a1 = T.Fma(a1, h, At(ref terms, SeriesRow.Acceleration + 1, 0));
            a2 = T.Fma(a2, h, At(ref terms, SeriesRow.Acceleration + 2, 0));
            a3 = T.Fma(a3, h, At(ref terms, SeriesRow.Acceleration + 3, 0));
        }

        m = a0;
        Unsafe.Add(ref m, 1) = a1;
        Unsafe.Add(ref m, 2) = a2;
        Unsafe.Add(ref m, 3) = a3;
    }

    /// <summary>Coordinates and velocities at a time in the step, two of each side by side so that the processor need not wait for any.</summary>
    private void EvaluateStatesAt(T h, LaneBuffer<T> motion)
    {
        ref var s = ref _series[0];
        ref var m = ref motion[0];
        for (var i = 0; i < HalfCarState.Rates; i += 2)
        {
            var x0 = At(ref s, SeriesRow.Position + i, SeriesRow.Order);
            var x1 = At(ref s, SeriesRow.Position + i + 1, SeriesRow.Order);
            var v0 = At(ref s, SeriesRow.Velocity + i, SeriesRow.Order - 1);
            var v1 = At(ref s, SeriesRow.Velocity + i + 1, SeriesRow.Order - 1);
            for (var k = SeriesRow.Order - 2; k >= 0; k--)
            {
                ref var terms = ref At(ref s, i, k);
                x0 = T.Fma(x0, h, At(ref terms, SeriesRow.Position, 1));
                x1 = T.Fma(x1, h, At(ref terms, SeriesRow.Position + 1, 1));
                v0 = T.Fma(v0, h, At(ref terms, SeriesRow.Velocity, 0));
                v1 = T.Fma(v1, h, At(ref terms, SeriesRow.Velocity + 1, 0));
            }

            Unsafe.Add(ref m, i) = T.Fma(x0, h, At(ref s, SeriesRow.Position + i, 0));
            Unsafe.Add(ref m, i + 1) = T.Fma(x1, h, At(ref s, SeriesRow.Position + i + 1, 0));
            Unsafe.Add(ref m, HalfCarState.Rates + i) = v0;
            Unsafe.Add(ref m, HalfCarState.Rates + i + 1) = v1;
        }
    }
}
