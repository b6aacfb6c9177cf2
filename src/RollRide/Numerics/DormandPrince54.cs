using System.Runtime.CompilerServices;

namespace RollRide.Numerics;

/// <summary>
/// One-step method of order 5 with an embedded error estimate of order 4 and a continuous solution of order 4, for as many runs side by side
/// as there are lanes, each with its own time and step. Owns its work arrays, allocates nothing per step, and is not thread-safe.
/// </summary>
/// <remarks>
/// The pair is that of J. R. Dormand and P. J. Prince, A family of embedded Runge-Kutta formulae, J. Comp. Appl. Math. 6,
/// 1980; the continuous solution and the starting step are those of E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary
/// Differential Equations I, 2nd ed. 1993, sections II.4 to II.6. The last stage is the first of the next step.
/// <para>Use: <see cref="Start(int, double, ReadOnlySpan{double})"/> and <see cref="EvaluateStart"/>, then any number of
/// <see cref="TryStep"/>, each followed by <see cref="Accept"/> of the lanes whose step is good enough.</para>
/// <para>The file is long because the method's coefficients and the stages that use them are read, and checked against the source, side by side.</para>
/// </remarks>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class DormandPrince54<T>
    where T : struct, ILanes<T>
{
    private readonly IOdeSystem<T> _system;
    private readonly int _dimension;
    private readonly LaneBuffer<T> _state;
    private readonly LaneBuffer<T> _trial;
    private readonly LaneBuffer<T> _stages;
    private readonly LaneBuffer<T> _dense;
    private readonly LaneBuffer<T> _times = new(3);

    /// <summary>Makes the work arrays for a system.</summary>
    /// <param name="system">The system to integrate.</param>
    public DormandPrince54(IOdeSystem<T> system)
    {
        _system = system;
        _dimension = system.Dimension;
        ArgumentOutOfRangeException.ThrowIfLessThan(_dimension, 1);
        _state = new(_dimension);
        _trial = new(_dimension);
        _stages = new(DormandPrince54.Stages * _dimension);
        _dense = new(DormandPrince54.DenseTerms * _dimension);
    }

    /// <summary>Time reached, s; also the end of the step accepted last.</summary>
    public ref T Time => ref _times[0];

    /// <summary>Time at the start of the step accepted last, s.</summary>
    public ref T StepStart => ref _times[1];

    /// <summary>End of the step tried last, s.</summary>
    public ref T TrialEnd => ref _times[2];

    /// <summary>States at <see cref="Time"/>.</summary>
    public LaneBuffer<T> State => _state;

    /// <summary>States at <see cref="TrialEnd"/>.</summary>
    public LaneBuffer<T> Trial => _trial;

    /// <summary>Sets time and state of a lane; the earlier ones are forgotten.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="time">Time, s.</param>
    /// <param name="state">The states; copied.</param>
    public void Start(int lane, double time, ReadOnlySpan<double> state)
    {
        for (var i = 0; i < _dimension; i++)
            _state[i, lane] = state[i];
        _times[0, lane] = _times[1, lane] = _times[2, lane] = time;
    }

    /// <summary>Evaluates the right-hand side where lanes stand, as at the start of a run or behind a jump of the inputs.</summary>
    /// <param name="lanes">A bit for each such lane; the first stage of the others stays.</param>
    public void EvaluateStart(int lanes)
    {
        var there = Stage(1);
        _system.Derivatives(Time, _state.Elements, there);
        Choose(lanes, there, Stage(0));
    }

    /// <summary>
    /// Tries a step in every lane. Time and state stay as they are until <see cref="Accept"/> is called, so a rejected step leaves no trace.
    /// </summary>
    /// <param name="end">Time at the end of the step, s; the step lands on it exactly.</param>
    /// <param name="relativeTolerance">Admissible error relative to the size of each state.</param>
    /// <param name="absoluteTolerance">Admissible error of a state near zero, in its own unit.</param>
    /// <returns>
    /// Root mean square over the states of error over tolerance (Hairer et al., eq. II.4.11): at most 1 when the step is good
    /// enough. Not finite when the trial state or its derivative is not.
    /// </returns>
    public T TryStep(in T end, in T relativeTolerance, in T absoluteTolerance)
    {
        var step = end - Time;
        TrialEnd = end;
        for (var stage = 1; stage < DormandPrince54.Stages; stage++)
        {
            Combine(DormandPrince54.A.AsSpan(stage * (stage - 1) / 2, stage), step);
            _system.Derivatives(T.Min(end, T.Fma(T.All(DormandPrince54.C[stage]), step, Time)), _trial.Elements, Stage(stage));
        }

        var sum = default(T);
        for (var i = 0; i < _dimension; i++)
        {
            var ratio = ErrorRatio(i, step, relativeTolerance, absoluteTolerance);
            sum = T.Fma(ratio, ratio, sum);
        }

        return T.Sqrt(sum * T.All(1.0 / _dimension));
    }

    /// <summary>Takes over the step tried last, and makes its continuous solution.</summary>
    /// <param name="lanes">A bit for each lane whose step is good enough; in the others nothing changes but the continuous solution, which then means nothing.</param>
    public void Accept(int lanes)
    {
        if (lanes == 0)
            return;
        var step = TrialEnd - Time;
        for (var i = 0; i < _dimension; i++)
        {
            var state = _state[i];
            var change = _trial[i] - state;
            var startSlope = T.Fma(step, _stages[i], -change);
            var endSlope = _stages[((DormandPrince54.Stages - 1) * _dimension) + i];
            _dense[i] = state;
            _dense[_dimension + i] = change;
            _dense[(2 * _dimension) + i] = startSlope;
            _dense[(3 * _dimension) + i] = T.NegatedFma(step, endSlope, change) - startSlope;
            _dense[(4 * _dimension) + i] = step * Weighted(DormandPrince54.D, i);
            _state[i] = T.Where(lanes, _trial[i], state);
            _stages[i] = T.Where(lanes, endSlope, _stages[i]);
        }

        StepStart = T.Where(lanes, Time, StepStart);
        Time = T.Where(lanes, TrialEnd, Time);
    }

    /// <summary>The continuous solution of the step accepted last (Hairer et al., section II.6), with a fraction of its own in each lane.</summary>
    /// <param name="fraction">Fraction of the step passed, 0 to 1.</param>
    /// <param name="state">Receives the states.</param>
    public void Interpolate(in T fraction, Span<T> state)
    {
        var rest = T.All(1) - fraction;
        for (var i = 0; i < _dimension; i++)
        {
            var inner = T.Fma(rest, _dense[(4 * _dimension) + i], _dense[(3 * _dimension) + i]);
            inner = T.Fma(fraction, inner, _dense[(2 * _dimension) + i]);
            inner = T.Fma(rest, inner, _dense[_dimension + i]);
            state[i] = T.Fma(fraction, inner, _dense[i]);
        }
    }

    /// <summary>Copies the coefficients of the continuous solution of one lane: <see cref="DormandPrince54.DenseTerms"/> blocks, one number per state in each.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="coefficients">Receives them.</param>
    public void CopyCoefficients(int lane, Span<double> coefficients)
    {
        for (var i = 0; i < _dense.Length; i++)
            coefficients[i] = _dense[i, lane];
    }

    /// <summary>A first step from the size of the states and of their first two derivatives (Hairer et al., section II.4).</summary>
    /// <param name="lanes">A bit for each lane that is to start; <see cref="EvaluateStart"/> was called for it.</param>
    /// <param name="longest">The longest step allowed, s.</param>
    /// <param name="relativeTolerance">Admissible error relative to the size of each state.</param>
    /// <param name="absoluteTolerance">Admissible error of a state near zero, in its own unit.</param>
    /// <returns>The step, s, in those lanes; at most <paramref name="longest"/>.</returns>
    public T FirstStep(int lanes, in T longest, in T relativeTolerance, in T absoluteTolerance)
    {
        const double Cautious = 1e-6;
        var (size, slope) = (default(T), default(T));
        for (var i = 0; i < _dimension; i++)
        {
            var scale = T.Fma(relativeTolerance, T.Abs(_state[i]), absoluteTolerance);
            var (state, rate) = (_state[i] / scale, _stages[i] / scale);
            (size, slope) = (T.Fma(state, state, size), T.Fma(rate, rate, slope));
        }

        (size, slope) = (T.Sqrt(size * T.All(1.0 / _dimension)), T.Sqrt(slope * T.All(1.0 / _dimension)));
        var small = T.All(1e-5);
        var euler = T.WhereGreater(small, T.Min(size, slope), T.All(Cautious), T.All(0.01) * size / slope);
        euler = T.Where(lanes, T.Min(longest, euler), default);

        for (var i = 0; i < _dimension; i++)
            _trial[i] = T.Fma(euler, _stages[i], _state[i]);
        _system.Derivatives(Time + euler, _trial.Elements, Stage(1));
        var curvature = default(T);
        for (var i = 0; i < _dimension; i++)
        {
            var change = (_stages[_dimension + i] - _stages[i]) / T.Fma(relativeTolerance, T.Abs(_state[i]), absoluteTolerance);
            curvature = T.Fma(change, change, curvature);
        }

        // Neither is NaN where the motion is finite; where it is not, a cautious step shows which state it is.
        var largest = T.Max(T.Sqrt(curvature * T.All(1.0 / _dimension)) / euler, slope);
        var byTolerance = T.WhereGreater(largest, T.All(1e-15), FifthRoot(T.All(0.01) / largest), T.Max(T.All(Cautious), T.All(1e-3) * euler));
        var step = T.Min(longest, T.Min(T.All(100) * euler, byTolerance));
        return T.WhereGreater(T.All(double.PositiveInfinity), largest, step, T.Min(longest, T.All(Cautious) * euler));
    }

    /// <summary>
    /// The state of a lane that first became non-finite in the step tried last, in the order of computing; −1 if all are finite.
    /// </summary>
    public int FirstNonFinite(int lane)
    {
        for (var i = 0; i < _stages.Length; i++)
        {
            if (!double.IsFinite(_stages[i, lane]))
                return i % _dimension;
        }

        return FirstNonFinite(_trial, lane);
    }

    /// <summary>The state or derivative of a lane that is non-finite after <see cref="EvaluateStart"/>; −1 if all are finite.</summary>
    public int FirstNonFiniteAtStart(int lane)
    {
        var index = FirstNonFinite(_state, lane);
        for (var i = 0; i < _dimension && index < 0; i++)
            index = double.IsFinite(_stages[i, lane]) ? -1 : i;
        return index;
    }

    /// <summary>The state of a lane with the largest error over tolerance in the step tried last.</summary>
    public int ErrorDominating(int lane, in T relativeTolerance, in T absoluteTolerance)
    {
        var step = TrialEnd - Time;
        var (worst, largest) = (0, double.NegativeInfinity);
        for (var i = 0; i < _dimension; i++)
        {
            var size = Math.Abs(LaneMath.Get(ErrorRatio(i, step, relativeTolerance, absoluteTolerance), lane));
            (worst, largest) = size > largest ? (i, size) : (worst, largest);
        }

        return worst;
    }

    private static T FifthRoot(in T x) => T.RoughExp2(T.RoughLog2(x) * T.All(1.0 / 5));

    private int FirstNonFinite(LaneBuffer<T> values, int lane)
    {
        for (var i = 0; i < _dimension; i++)
        {
            if (!double.IsFinite(values[i, lane]))
                return i;
        }

        return -1;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private T ErrorRatio(int i, in T step, in T relativeTolerance, in T absoluteTolerance)
    {
        // An infinite trial state would make its own tolerance infinite and so pass as good: its difference from itself is not a number.
        var scale = T.Fma(relativeTolerance, T.Max(T.Abs(_state[i]), T.Abs(_trial[i])), absoluteTolerance);
        return (step * Weighted(DormandPrince54.E, i) / scale) + (_trial[i] - _trial[i]);
    }

    private Span<T> Stage(int stage) => _stages.Elements.Slice(stage * _dimension, _dimension);

    private void Choose(int lanes, ReadOnlySpan<T> then, Span<T> target)
    {
        for (var i = 0; i < _dimension; i++)
            target[i] = T.Where(lanes, then[i], target[i]);
    }

    /// <summary>The trial state of a stage from the stages before it.</summary>
    private void Combine(ReadOnlySpan<double> weights, in T step)
    {
        ref var stages = ref _stages[0];
        ref var state = ref _state[0];
        ref var trial = ref _trial[0];
        for (var i = 0; i < _dimension; i++)
            Unsafe.Add(ref trial, i) = T.Fma(step, Weighted(weights, ref Unsafe.Add(ref stages, i), _dimension), Unsafe.Add(ref state, i));
    }

    private T Weighted(ReadOnlySpan<double> weights, int i) => Weighted(weights, ref _stages[i], _dimension);

    /// <summary>The sum of the stages of one state by their weights.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Weighted(ReadOnlySpan<double> weights, ref T stage, int apart)
    {
        var sum = T.All(weights[0]) * stage;
        for (var n = 1; n < weights.Length; n++)
            sum = T.Fma(T.All(weights[n]), Unsafe.Add(ref stage, n * apart), sum);
        return sum;
    }
}

/// <summary>Coefficients of the method of <see cref="DormandPrince54{T}"/>, and its continuous solution in single numbers.</summary>
internal static class DormandPrince54
{
    internal const int Stages = 7;

    /// <summary>Number of coefficients per state of the continuous solution.</summary>
    internal const int DenseTerms = 5;

    /// <summary>Nodes of the stages, as fractions of the step.</summary>
    internal static readonly double[] C = [0, 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9, 1, 1];

    /// <summary>
    /// Weights of the earlier stages in stages 2 to 7, row after row. The last row is also the solution of order 5.
    /// </summary>
    internal static readonly double[] A =
    [
        1.0 / 5,
        3.0 / 40, 9.0 / 40,
        44.0 / 45, -56.0 / 15, 32.0 / 9,
        19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729,
        9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656,
        35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84,
    ];

    /// <summary>Weights of the stages in the error estimate: order 5 less the embedded order 4.</summary>
    internal static readonly double[] E =
        [71.0 / 57600, 0, -71.0 / 16695, 71.0 / 1920, -17253.0 / 339200, 22.0 / 525, -1.0 / 40];

    /// <summary>Weights of the stages in the last term of the continuous solution.</summary>
    internal static readonly double[] D =
    [
        -12715105075.0 / 11282082432, 0, 87487479700.0 / 32700410799, -10690763975.0 / 1880347072,
        701980252875.0 / 199316789632, -1453857185.0 / 822651844, 69997945.0 / 29380423,
    ];

    /// <summary>Evaluates the continuous solution of a step from its coefficients, in the operations of <see cref="DormandPrince54{T}.Interpolate"/>.</summary>
    /// <param name="coefficients">The coefficients of the step.</param>
    /// <param name="fraction">Fraction of the step passed, 0 to 1.</param>
    /// <param name="state">Receives the states.</param>
    internal static void EvaluateDense(ReadOnlySpan<double> coefficients, double fraction, Span<double> state)
    {
        var n = coefficients.Length / DenseTerms;
        var rest = 1 - fraction;
        for (var i = 0; i < n; i++)
        {
            var inner = Math.FusedMultiplyAdd(rest, coefficients[(4 * n) + i], coefficients[(3 * n) + i]);
            inner = Math.FusedMultiplyAdd(fraction, inner, coefficients[(2 * n) + i]);
            inner = Math.FusedMultiplyAdd(rest, inner, coefficients[n + i]);
            state[i] = Math.FusedMultiplyAdd(fraction, inner, coefficients[i]);
        }
    }
}
