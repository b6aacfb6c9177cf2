using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>The channels of a run, sampled at a constant rate. Immutable once the run has ended; a long one may lie outside the memory, in an <see cref="IHistorySpool"/>.</summary>
public sealed class TimeHistory
{
    private readonly HistorySamples _samples;

    internal TimeHistory(double rate, int count, HistorySamples samples, bool isOfVehicle)
    {
        IsOfVehicle = isOfVehicle;
        Rate = rate;
        Count = count;
        _samples = samples;
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

    /// <summary>All samples of a channel, in SI units; read anew at each call where they lie outside the memory.</summary>
    /// <param name="channel">The channel.</param>
    /// <exception cref="InvalidOperationException">The channel was not recorded.</exception>
    public ReadOnlySpan<double> this[Channel channel] => _samples.First(channel, Count);

    /// <summary>Reads samples of a channel, in SI units.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="first">Number of the first sample.</param>
    /// <param name="values">Takes them.</param>
    /// <exception cref="InvalidOperationException">The channel was not recorded.</exception>
    public void Read(Channel channel, int first, Span<double> values) => _samples.Read(channel, first, values);

    /// <summary>Times and values of a channel over a span of time for a plot, thinned to what a picture can show (<see cref="Thinning"/>).</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="unit">The unit of the values.</param>
    /// <param name="start">Start, s.</param>
    /// <param name="end">End, s.</param>
    public (double[] Time, double[] Value) Slice(Channel channel, Unit unit, double start, double end)
    {
        const int readTogether = 4096;
        var first = Math.Max(0, (int)Math.Ceiling((start * Rate) - 1e-9));
        var last = Math.Min(Count - 1, (int)Math.Floor((end * Rate) + 1e-9));
        return Thinning.Reduce(Math.Max(0, last - first + 1), i => Time(first + i), Values(), Thinning.DefaultColumns);

        IEnumerable<double> Values()
        {
            var values = new double[readTogether];
            for (var at = first; at <= last; at += readTogether)
            {
                var count = Math.Min(readTogether, last - at + 1);
                Read(channel, at, values.AsSpan(0, count));
                for (var i = 0; i < count; i++)
                    yield return unit.Of(values[i]);
            }
        }
    }
}

/// <summary>Samples a run at a constant rate from the continuous solution. One per run; not thread-safe.</summary>
public sealed class TimeHistoryRecorder : IStepObserver
{
    private readonly HalfCarEquations _equations;
    private readonly double _rate;
    private readonly HistorySamples _samples;
    private readonly int _count;
    private readonly double[] _state;
    private readonly double[] _values = new double[ChannelTable.Count];
    private int _next;

    /// <summary>Prepares the recording of a run that starts at time 0.</summary>
    /// <param name="equations">The equations being integrated.</param>
    /// <param name="duration">Length of the run, s.</param>
    /// <param name="rate">Sampling rate, Hz; greater than 0.</param>
    /// <param name="channels">The channels to record; all if null.</param>
    /// <param name="spool">Opens what takes the samples of a run too long for the memory; null where they are held in memory, however many.</param>
    public TimeHistoryRecorder(HalfCarEquations equations, double duration, double rate, IEnumerable<Channel>? channels = null, Func<IHistorySpool>? spool = null)
    {
        ArgumentNullException.ThrowIfNull(equations);
        _equations = equations;
        _rate = Require.Positive(rate, "Hz");
        _count = (int)Math.Floor((duration * rate) + 1e-9) + 1;
        _samples = new HistorySamples(channels ?? Enum.GetValues<Channel>(), _count, spool);
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
            _samples.Add(_values);
        }
    }

    /// <summary>The last sample up to the end of a step, to rounding.</summary>
    private int LastDue(IDenseStep step) => (int)Math.Min(_count - 1, Math.Floor((step.End * _rate) + 1e-9));

    /// <summary>The history recorded.</summary>
    /// <exception cref="InvalidOperationException">The run did not reach its last sample.</exception>
    public TimeHistory ToHistory()
    {
        if (_next != _count)
            throw new InvalidOperationException(FormattableString.Invariant($"Only {_next} of {_count} samples were recorded."));
        _samples.End();
        return new TimeHistory(_rate, _count, _samples, _equations.Car.Second is not null);
    }
}
