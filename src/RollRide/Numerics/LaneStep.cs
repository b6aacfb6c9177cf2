namespace RollRide.Numerics;

/// <summary>The step that one lane accepted last, as those see it who look at single steps.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class LaneStep<T>(DormandPrince54<T> steps, int lane, int dimension) : IKeptStep, ILaneStep
    where T : struct, ILanes<T>
{
    private readonly double[] _coefficients = new double[DormandPrince54.DenseTerms * dimension];
    private double _start = double.NaN, _end = double.NaN;

    /// <inheritdoc/>
    public double Start => LaneMath.Lane(ref steps.StepStart, lane);

    /// <inheritdoc/>
    public double End => LaneMath.Lane(ref steps.Time, lane);

    /// <inheritdoc/>
    public ReadOnlySpan<double> Coefficients
    {
        get
        {
            if (Start != _start || End != _end)
            {
                steps.CopyCoefficients(lane, _coefficients);
                (_start, _end) = (Start, End);
            }

            return _coefficients;
        }
    }

    /// <inheritdoc/>
    public void Forget() => _start = _end = double.NaN;

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">The time is outside the step.</exception>
    public void StateAt(double time, Span<double> state)
    {
        var (start, end) = (Start, End);
        if (!(time >= start && time <= end && end > start))
            throw new ArgumentOutOfRangeException(nameof(time), time, FormattableString.Invariant($"time must lie in the step from {start:R} s to {end:R} s."));
        DormandPrince54.EvaluateDense(Coefficients, (time - start) / (end - start), state);
    }

    /// <inheritdoc/>
    public void Evaluate(ReadOnlySpan<double> coefficients, double fraction, Span<double> state) =>
        DormandPrince54.EvaluateDense(coefficients, fraction, state);
}

/// <summary>A step of a lane that one run leaves to another.</summary>
internal interface ILaneStep : IDenseStep
{
    /// <summary>Forgets the step seen last, as where another run takes the lane.</summary>
    void Forget();
}
