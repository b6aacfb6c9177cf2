namespace RollRide.Numerics;

/// <summary>
/// One-step method of order 5 with an embedded error estimate of order 4 and a continuous solution of order 4.
/// Owns its work arrays, allocates nothing per step, and is not thread-safe: make one per run.
/// </summary>
/// <remarks>
/// The pair is that of J. R. Dormand and P. J. Prince, A family of embedded Runge-Kutta formulae, J. Comp. Appl. Math. 6,
/// 1980; the continuous solution and the starting step are those of E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary
/// Differential Equations I, 2nd ed. 1993, sections II.4 to II.6. The last stage is the first of the next step.
/// <para>Use: <see cref="Restart"/>, then any number of <see cref="TryStep"/>, each followed by <see cref="Accept"/> or, to
/// reject, by nothing.</para>
/// </remarks>
public sealed class DormandPrince54 : IKeptStep
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

    private readonly IOdeSystem _system;
    private readonly int _dimension;
    private readonly double[] _state;
    private readonly double[] _trial;
    private readonly double[] _stages;
    private readonly double[] _dense;
    private double _trialEnd;

    /// <summary>Makes the work arrays for a system.</summary>
    /// <param name="system">The system to integrate.</param>
    public DormandPrince54(IOdeSystem system)
    {
        ArgumentNullException.ThrowIfNull(system);
        ArgumentOutOfRangeException.ThrowIfLessThan(system.Dimension, 1);
        _system = system;
        _dimension = system.Dimension;
        _state = new double[_dimension];
        _trial = new double[_dimension];
        _stages = new double[Stages * _dimension];
        _dense = new double[DenseTerms * _dimension];
    }

    /// <summary>Time reached, s.</summary>
    public double Time { get; private set; }

    /// <summary>States at <see cref="Time"/>.</summary>
    public ReadOnlySpan<double> State => _state;

    /// <summary>Time at the start of the step accepted last, s.</summary>
    public double Start { get; private set; }

    /// <summary>Time at the end of the step accepted last, s; equal to <see cref="Time"/>.</summary>
    public double End => Time;

    /// <summary>How often the right-hand side was evaluated since this object was made.</summary>
    public long DerivativeEvaluations { get; private set; }

    /// <summary>Coefficients of the step accepted last: <see cref="DenseTerms"/> blocks, one number a state in each.</summary>
    ReadOnlySpan<double> IKeptStep.Coefficients => _dense;

    /// <summary>Sets time and state, and evaluates the right-hand side there; earlier stages are forgotten.</summary>
    /// <param name="time">Time, s.</param>
    /// <param name="state">The states; copied.</param>
    public void Restart(double time, ReadOnlySpan<double> state)
    {
        state.CopyTo(_state);
        Time = time;
        Start = time;
        Evaluate(time, _state, stage: 0);
    }

    /// <summary>
    /// Tries a step. Time and state stay as they are until <see cref="Accept"/> is called, so a rejected step leaves no trace.
    /// </summary>
    /// <param name="end">Time at the end of the step, s; the step lands on it exactly.</param>
    /// <param name="relativeTolerance">Admissible error relative to the size of each state.</param>
    /// <param name="absoluteTolerance">Admissible error of a state near zero, in its own unit.</param>
    /// <returns>
    /// Root mean square over the states of error over tolerance (Hairer et al., eq. II.4.11): at most 1 when the step is good
    /// enough. Not finite when the trial state or its derivative is not.
    /// </returns>
    public double TryStep(double end, double relativeTolerance, double absoluteTolerance)
    {
        double step = end - Time;
        _trialEnd = end;
        for (int stage = 1; stage < Stages; stage++)
        {
            Combine(A.AsSpan(stage * (stage - 1) / 2, stage), step, _trial);
            Evaluate(Math.Min(end, Time + C[stage] * step), _trial, stage);
        }

        double sum = 0;
        for (int i = 0; i < _dimension; i++)
        {
            double ratio = ErrorRatio(i, step, relativeTolerance, absoluteTolerance);
            sum += ratio * ratio;
        }

        return Math.Sqrt(sum / _dimension);
    }

    /// <summary>Takes over the step tried last, and makes its continuous solution.</summary>
    public void Accept()
    {
        double step = _trialEnd - Time;
        for (int i = 0; i < _dimension; i++)
        {
            double change = _trial[i] - _state[i];
            double startSlope = step * _stages[i] - change;
            _dense[i] = _state[i];
            _dense[_dimension + i] = change;
            _dense[2 * _dimension + i] = startSlope;
            _dense[3 * _dimension + i] = change - step * _stages[(Stages - 1) * _dimension + i] - startSlope;
            _dense[4 * _dimension + i] = step * Weighted(D, i);
        }

        _trial.CopyTo(_state.AsSpan());
        StageDerivative(Stages - 1).CopyTo(StageDerivative(0));
        Start = Time;
        Time = _trialEnd;
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">The time is outside the step.</exception>
    public void StateAt(double time, Span<double> state)
    {
        if (!(time >= Start && time <= End && End > Start))
        {
            throw new ArgumentOutOfRangeException(nameof(time), time, FormattableString.Invariant($"time must lie in the step from {Start:R} s to {End:R} s."));
        }

        EvaluateDense(_dense, (time - Start) / (End - Start), state);
    }

    void IKeptStep.Evaluate(ReadOnlySpan<double> coefficients, double fraction, Span<double> state) => EvaluateDense(coefficients, fraction, state);

    /// <summary>Evaluates the continuous solution of a step from its coefficients (Hairer et al., section II.6).</summary>
    /// <param name="coefficients">The coefficients of the step.</param>
    /// <param name="fraction">Fraction of the step passed, 0 to 1.</param>
    /// <param name="state">Receives the states.</param>
    internal static void EvaluateDense(ReadOnlySpan<double> coefficients, double fraction, Span<double> state)
    {
        int n = coefficients.Length / DenseTerms;
        double rest = 1 - fraction;
        for (int i = 0; i < n; i++)
        {
            state[i] = coefficients[i] + fraction * (coefficients[n + i] + rest * (coefficients[2 * n + i]
                + fraction * (coefficients[3 * n + i] + rest * coefficients[4 * n + i])));
        }
    }

    /// <summary>A first step from the size of the states and of their first two derivatives (Hairer et al., section II.4).</summary>
    /// <param name="longest">The longest step allowed, s.</param>
    /// <param name="relativeTolerance">Admissible error relative to the size of each state.</param>
    /// <param name="absoluteTolerance">Admissible error of a state near zero, in its own unit.</param>
    /// <returns>The step, s; at most <paramref name="longest"/>.</returns>
    internal double FirstStep(double longest, double relativeTolerance, double absoluteTolerance)
    {
        const double Cautious = 1e-6;
        double size = 0, slope = 0;
        for (int i = 0; i < _dimension; i++)
        {
            double scale = absoluteTolerance + relativeTolerance * Math.Abs(_state[i]);
            size += Square(_state[i] / scale);
            slope += Square(_stages[i] / scale);
        }

        size = Math.Sqrt(size / _dimension);
        slope = Math.Sqrt(slope / _dimension);
        double euler = Math.Min(longest, size < 1e-5 || slope < 1e-5 ? Cautious : 0.01 * size / slope);

        Combine([1.0], euler, _trial);
        Evaluate(Time + euler, _trial, stage: 1);
        double curvature = 0;
        for (int i = 0; i < _dimension; i++)
        {
            double scale = absoluteTolerance + relativeTolerance * Math.Abs(_state[i]);
            curvature += Square((_stages[_dimension + i] - _stages[i]) / scale);
        }

        double largest = Math.Max(slope, Math.Sqrt(curvature / _dimension) / euler);
        if (!double.IsFinite(largest)) return Math.Min(longest, Cautious * euler);
        double byTolerance = largest <= 1e-15 ? Math.Max(Cautious, 1e-3 * euler) : Math.Pow(0.01 / largest, 1.0 / 5);
        return Math.Min(longest, Math.Min(100 * euler, byTolerance));
    }

    /// <summary>
    /// The state that first became non-finite in the step tried last, in the order of computing; −1 if all are finite.
    /// </summary>
    internal int FirstNonFinite()
    {
        int index = _stages.AsSpan().IndexOfAnyExceptInRange(double.MinValue, double.MaxValue);
        return index >= 0 ? index % _dimension : _trial.AsSpan().IndexOfAnyExceptInRange(double.MinValue, double.MaxValue);
    }

    /// <summary>The state or derivative that is non-finite after <see cref="Restart"/>; −1 if all are finite.</summary>
    internal int FirstNonFiniteAtStart()
    {
        int index = _state.AsSpan().IndexOfAnyExceptInRange(double.MinValue, double.MaxValue);
        return index >= 0 ? index : StageDerivative(0).IndexOfAnyExceptInRange(double.MinValue, double.MaxValue);
    }

    /// <summary>The state with the largest error over tolerance in the step tried last.</summary>
    internal int ErrorDominating(double relativeTolerance, double absoluteTolerance)
    {
        double step = _trialEnd - Time;
        int worst = 0;
        for (int i = 1; i < _dimension; i++)
        {
            if (Math.Abs(ErrorRatio(i, step, relativeTolerance, absoluteTolerance))
                > Math.Abs(ErrorRatio(worst, step, relativeTolerance, absoluteTolerance)))
            {
                worst = i;
            }
        }

        return worst;
    }

    private static double Square(double x) => x * x;

    private double ErrorRatio(int i, double step, double relativeTolerance, double absoluteTolerance)
    {
        // An infinite trial state would make its own tolerance infinite and so pass as good.
        if (!double.IsFinite(_trial[i])) return double.NaN;
        double scale = absoluteTolerance + relativeTolerance * Math.Max(Math.Abs(_state[i]), Math.Abs(_trial[i]));
        return step * Weighted(E, i) / scale;
    }

    private Span<double> StageDerivative(int stage) => _stages.AsSpan(stage * _dimension, _dimension);

    private void Evaluate(double time, ReadOnlySpan<double> state, int stage)
    {
        _system.Derivatives(time, state, StageDerivative(stage));
        DerivativeEvaluations++;
    }

    private void Combine(ReadOnlySpan<double> weights, double step, double[] result)
    {
        for (int i = 0; i < _dimension; i++) result[i] = _state[i] + step * Weighted(weights, i);
    }

    private double Weighted(ReadOnlySpan<double> weights, int i)
    {
        double sum = 0;
        for (int stage = 0; stage < weights.Length; stage++) sum += weights[stage] * _stages[stage * _dimension + i];
        return sum;
    }
}
