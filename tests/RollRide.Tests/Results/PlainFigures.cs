namespace RollRide.Tests.Results;

/// <summary>Figures of a span of a <see cref="PlainHalfCar"/>'s run, by sums over its instants.</summary>
internal sealed class PlainFigures(PlainHalfCar car, double start, double end)
{
    private readonly int _first = (int)Math.Round(start / PlainHalfCar.Step);
    private readonly int _last = (int)Math.Round(end / PlainHalfCar.Step);

    /// <summary>Mean over time, by the trapezium rule.</summary>
    public double Mean(Func<int, double> value)
    {
        var sum = 0.5 * (value(_first) + value(_last));
        for (var i = _first + 1; i < _last; i++)
            sum += value(i);
        return sum / (_last - _first);
    }

    public double Rms(string channel) => Math.Sqrt(Mean(i => car[channel][i] * car[channel][i]));

    /// <summary>The largest value and its time, s; between instants by the parabola through the three about it.</summary>
    public (double Value, double Time) Largest(Func<int, double> value)
    {
        var at = Enumerable.Range(_first, _last - _first + 1).MaxBy(value);
        if (at == _first || at == _last)
            return (value(at), at * PlainHalfCar.Step);
        var (before, peak, after) = (value(at - 1), value(at), value(at + 1));
        var shift = 0.5 * (before - after) / (before - (2 * peak) + after);
        return (peak - (0.25 * (before - after) * shift), (at + shift) * PlainHalfCar.Step);
    }

    public double Largest(string channel, double sign = 1) => Highest(channel, sign).Value;

    /// <summary>The largest value of a channel, its sign turned where wanted, and its time, s.</summary>
    public (double Value, double Time) Highest(string channel, double sign = 1) => Largest(i => sign * car[channel][i]);

    /// <summary>The larger of both sides.</summary>
    public double LargestOfSides(string channel, double sign = 1) => Math.Max(Largest($"{channel}Left", sign), Largest($"{channel}Right", sign));

    public double LargestSize(string channel) => Math.Max(Largest(channel), Largest(channel, -1));

    /// <summary>Time for which a channel is below zero, s.</summary>
    public double TimeBelowZero(string channel)
    {
        var values = car[channel];
        var time = 0.0;
        for (var i = _first; i < _last; i++)
        {
            var (one, two) = (values[i], values[i + 1]);
            time += one < 0 && two < 0 ? 1 : one < 0 ? one / (one - two) : two < 0 ? two / (two - one) : 0;
        }

        return time * PlainHalfCar.Step;
    }

    /// <summary>When a channel is first below zero, s; null where it never is.</summary>
    public double? FirstBelowZero(string channel)
    {
        var values = car[channel];
        for (var i = _first; i <= _last; i++)
        {
            if (values[i] < 0)
                return (i - (i > _first ? values[i] / (values[i] - values[i - 1]) : 0)) * PlainHalfCar.Step;
        }

        return null;
    }

    /// <summary>How often a force that is zero without contact begins, both sides; a contact from before counts.</summary>
    public int Contacts(string channel) => new[] { car[$"{channel}Left"], car[$"{channel}Right"] }
        .Sum(force => Enumerable.Range(_first, _last - _first).Count(i => force[i + 1] != 0 && (force[i] == 0 || i == _first)));

    /// <summary>The first time at which a value rises through zero, s.</summary>
    public double FirstRise(Func<int, double> value)
    {
        for (var i = _first; i < _last; i++)
        {
            if (value(i) < 0 && value(i + 1) >= 0)
                return (i + (value(i) / (value(i) - value(i + 1)))) * PlainHalfCar.Step;
        }

        throw new InvalidOperationException("It does not rise through zero.");
    }

    /// <summary>The last time at which a value falls through zero, s; null if it is not below zero at the end.</summary>
    public double? LastFall(Func<int, double> value)
    {
        var i = _last;
        while (value(i) <= 0)
            i--;
        return i == _last ? null : (i + (value(i) / (value(i) - value(i + 1)))) * PlainHalfCar.Step;
    }
}
