using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>The channels of a run, sampled at a constant rate. Immutable once the run has ended.</summary>
public sealed class TimeHistory
{
    private readonly double[]?[] _channels;

    internal TimeHistory(double rate, int count, double[]?[] channels, bool isOfVehicle)
    {
        IsOfVehicle = isOfVehicle;
        Rate = rate;
        Count = count;
        _channels = channels;
    }

    /// <summary>Whether it is of a vehicle with two axles.</summary>
    public bool IsOfVehicle { get; }

    /// <summary>Sampling rate, Hz.</summary>
    public double Rate { get; }

    /// <summary>Number of samples.</summary>
    public int Count { get; }

    /// <summary>Time of a sample, s: its number over the rate, never accumulated.</summary>
    /// <param name="sample">Number of the sample, 0 for the first.</param>
    public double Time(int sample) => sample / Rate;

    /// <summary>All samples of a channel, in SI units.</summary>
    /// <param name="channel">The channel.</param>
    /// <exception cref="InvalidOperationException">The channel was not recorded.</exception>
    public ReadOnlySpan<double> this[Channel channel] =>
        (_channels[(int)channel] ?? throw new InvalidOperationException($"{channel} was not recorded.")).AsSpan(0, Count);

    /// <summary>Times and values of a channel over a span of time, for a plot.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="unit">The unit of the values.</param>
    /// <param name="start">Start, s.</param>
    /// <param name="end">End, s.</param>
    public (double[] Time, double[] Value) Slice(Channel channel, Unit unit, double start, double end)
    {
        var first = Math.Max(0, (int)Math.Ceiling((start * Rate) - 1e-9));
        var last = Math.Min(Count - 1, (int)Math.Floor((end * Rate) + 1e-9));
        var values = this[channel];
        var times = new double[Math.Max(0, last - first + 1)];
        var shown = new double[times.Length];
        for (var i = 0; i < times.Length; i++)
        {
            times[i] = Time(first + i);
            shown[i] = unit.Of(values[first + i]);
        }

        return (times, shown);
    }
}

/// <summary>Samples a run at a constant rate from the continuous solution. One per run; not thread-safe.</summary>
public sealed class TimeHistoryRecorder : IStepObserver
{
    private readonly HalfCarEquations _equations;
    private readonly double _rate;
    private readonly double[]?[] _channels = new double[]?[ChannelTable.Count];
    private readonly int[] _recorded;
    private readonly int _samples;
    private readonly double[] _state;
    private readonly double[] _values = new double[ChannelTable.Count];
    private int _next;

    /// <summary>Prepares the recording of a run that starts at time 0.</summary>
    /// <param name="equations">The equations being integrated.</param>
    /// <param name="duration">Length of the run, s.</param>
    /// <param name="rate">Sampling rate, Hz; greater than 0.</param>
    /// <param name="channels">The channels to record; all if null.</param>
    public TimeHistoryRecorder(HalfCarEquations equations, double duration, double rate, IEnumerable<Channel>? channels = null)
    {
        ArgumentNullException.ThrowIfNull(equations);
        _equations = equations;
        _rate = Require.Positive(rate, "Hz");
        _samples = (int)Math.Floor((duration * rate) + 1e-9) + 1;
        _recorded = [.. (channels ?? Enum.GetValues<Channel>()).Select(channel => (int)channel)];

        // Not cleared: every sample is written, or the history is refused.
        foreach (var channel in _recorded)
            _channels[channel] = GC.AllocateUninitializedArray<double>(_samples);
        _state = new double[equations.Dimension];
    }

    /// <inheritdoc/>
    public void Observe(IDenseStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        for (var last = LastDue(step); _next <= last; _next++)
        {
            var time = Math.Clamp(_next / _rate, step.Start, step.End);
            step.StateAt(time, _state);
            _equations.WriteChannels(time, _state, _values);
            foreach (var c in _recorded)
                _channels[c]![_next] = _values[c];
        }
    }

    /// <summary>The last sample up to the end of a step, to rounding.</summary>
    private int LastDue(IDenseStep step) => (int)Math.Min(_samples - 1, Math.Floor((step.End * _rate) + 1e-9));

    /// <summary>The history recorded.</summary>
    /// <exception cref="InvalidOperationException">The run did not reach its last sample.</exception>
    public TimeHistory ToHistory() => _next == _samples
        ? new TimeHistory(_rate, _samples, _channels, _equations.Car.Second is not null)
        : throw new InvalidOperationException(FormattableString.Invariant($"Only {_next} of {_samples} samples were recorded."));
}
