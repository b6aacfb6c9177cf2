using System.Runtime.InteropServices;

namespace RollRide.Numerics;

/// <summary>
/// The continuous solution of a whole run. Fill it as the observer of one run; from then on it does not change and any number
/// of threads may read it.
/// </summary>
public sealed class Trajectory : IStepObserver
{
    private readonly List<double> _starts = [];
    private readonly List<double> _coefficients = [];
    private IKeptStep? _kind;
    private int _stride;
    private double _end;

    /// <summary>Time at the start, s.</summary>
    /// <exception cref="InvalidOperationException">Nothing has been recorded.</exception>
    public double Start => _starts.Count > 0 ? _starts[0] : throw Empty();

    /// <summary>Time at the end, s.</summary>
    /// <exception cref="InvalidOperationException">Nothing has been recorded.</exception>
    public double End => _starts.Count > 0 ? _end : throw Empty();

    /// <summary>Keeps a copy of a step.</summary>
    /// <param name="step">A step of an integrator of ours, which begins where the one before ended.</param>
    /// <exception cref="ArgumentException">It is another kind of step, or does not follow the one before.</exception>
    public void Observe(IDenseStep step)
    {
        if (step is not IKeptStep kept)
        {
            throw new ArgumentException("A step of this kind cannot be kept.", nameof(step));
        }

        if (_starts.Count > 0 && kept.Start != _end)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The step begins at {kept.Start:R} s, but the one before ended at {_end:R} s."), nameof(step));
        }

        var coefficients = kept.Coefficients;
        _kind ??= kept;
        _stride = coefficients.Length;
        _starts.Add(kept.Start);
        _coefficients.AddRange(coefficients);
        _end = kept.End;
    }

    /// <summary>Evaluates the solution; finds the step by bisection.</summary>
    /// <param name="time">Time, s, from <see cref="Start"/> to <see cref="End"/>.</param>
    /// <param name="state">Receives the states.</param>
    /// <exception cref="ArgumentOutOfRangeException">The time is outside the run.</exception>
    public void StateAt(double time, Span<double> state)
    {
        int step = -1;
        StateAt(time, state, ref step);
    }

    /// <summary>Evaluates the solution, looking first in the step that was used last. Allocates nothing.</summary>
    /// <param name="time">Time, s, from <see cref="Start"/> to <see cref="End"/>.</param>
    /// <param name="state">Receives the states.</param>
    /// <param name="step">Index of the step used last, or anything at first; receives that of this one.</param>
    /// <exception cref="ArgumentOutOfRangeException">The time is outside the run.</exception>
    public void StateAt(double time, Span<double> state, ref int step)
    {
        if (!(time >= Start && time <= End))
        {
            throw new ArgumentOutOfRangeException(nameof(time), time, FormattableString.Invariant($"time must lie between {Start:R} s and {End:R} s."));
        }

        if (!Contains(step, time)) step = Find(time);
        double start = _starts[step];
        ReadOnlySpan<double> coefficients = CollectionsMarshal.AsSpan(_coefficients).Slice(step * _stride, _stride);
        _kind!.Evaluate(coefficients, (time - start) / (StepEnd(step) - start), state);
    }

    private static InvalidOperationException Empty() => new("The trajectory holds no step.");

    private double StepEnd(int step) => step + 1 < _starts.Count ? _starts[step + 1] : _end;

    private bool Contains(int step, double time) =>
        step >= 0 && step < _starts.Count && time >= _starts[step] && time <= StepEnd(step);

    private int Find(double time)
    {
        int found = _starts.BinarySearch(time);
        // A negative result is the complement of the index of the next later start.
        return found >= 0 ? found : ~found - 1;
    }
}
