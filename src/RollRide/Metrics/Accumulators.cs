using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>Gathers one figure over the steps of a phase.</summary>
internal interface IAccumulator
{
    /// <summary>Adds one step.</summary>
    void Add(StepSamples step);
}

/// <summary>The integral of a quantity over time.</summary>
internal sealed class Integral(Quantity quantity) : IAccumulator
{
    public double Value { get; private set; }

    public void Add(StepSamples step)
    {
        for (var node = 0; node < StepSamples.Nodes; node++)
            Value += step.Weight(node) * quantity(step.At(node));
    }
}

/// <summary>The largest value of a quantity and when it was reached, found on the continuous solution.</summary>
internal sealed class Maximum(Quantity quantity) : IAccumulator
{
    public double Value { get; private set; } = double.NegativeInfinity;

    public double Time { get; private set; } = double.NaN;

    public void Add(StepSamples step)
    {
        Span<double> values = stackalloc double[StepSamples.Nodes];
        var best = 0;
        for (var node = 0; node < StepSamples.Nodes; node++)
        {
            values[node] = quantity(step.At(node));
            if (values[node] > values[best])
                best = node;
        }

        if (values[best] > Value)
            (Value, Time) = (values[best], step.Time(best));

        // Beside its largest node a step rises by less than it falls to that node's neighbours, and where that node is an end of the
        // step it rises only if it falls towards that end: only then is a search worth it.
        var (before, after) = (Math.Max(0, best - 1), Math.Min(StepSamples.Nodes - 1, best + 1));
        var rise = values[best] - Math.Min(values[before], values[after]);
        if (!(rise > 0 && values[best] + rise > Value) || !HasPeakInside(step, best, values[best]))
            return;
        var (time, value) = DenseSearch.Maximum(t => quantity(step.At(t)), step.Time(before), step.Time(after));
        if (value > Value)
            (Value, Time) = (value, time);
    }

    private bool HasPeakInside(StepSamples step, int best, double value)
    {
        // A thousandth of the step: a slope shows there, long before rounding does.
        var inward = 1e-3 * (step.End - step.Start);
        return best switch
        {
            0 => quantity(step.At(step.Start + inward)) > value,
            StepSamples.Nodes - 1 => quantity(step.At(step.End - inward)) > value,
            _ => true,
        };
    }
}

/// <summary>How long and how often a quantity was above zero; the instants of change are found on the continuous solution.</summary>
internal sealed class PositiveSpells(Quantity quantity) : IAccumulator
{
    private readonly List<(double Start, double End)> _spans = [];
    private bool _wasPositive;

    /// <summary>The spells, s, in the order of time.</summary>
    public IReadOnlyList<(double Start, double End)> Spans => _spans;

    /// <summary>Seconds above zero.</summary>
    public double Duration { get; private set; }

    /// <summary>Number of spells above zero.</summary>
    public int Count => _spans.Count;

    public void Add(StepSamples step)
    {
        var before = quantity(step.At(0));
        if (before > 0 && !_wasPositive)
            _spans.Add((step.Start, step.Start));
        for (var node = 1; node < StepSamples.Nodes; node++)
        {
            var after = quantity(step.At(node));
            var (start, end) = (step.Time(node - 1), step.Time(node));
            if (before > 0 && after > 0)
            {
                Duration += end - start;
                _spans[^1] = (_spans[^1].Start, end);
            }
            else if (before > 0 != after > 0)
            {
                var change = before == 0 ? start : after == 0 ? end : DenseSearch.Crossing(t => quantity(step.At(t)), start, end);
                Duration += before > 0 ? change - start : end - change;
                if (after > 0)
                    _spans.Add((change, end));
                else
                    _spans[^1] = (_spans[^1].Start, change);
            }

            before = after;
        }

        _wasPositive = before > 0;
    }
}

/// <summary>The first instant at which a quantity rises through zero.</summary>
internal sealed class FirstRise(Quantity quantity) : IAccumulator
{
    /// <summary>The instant, s; null if it never came.</summary>
    public double? Time { get; private set; }

    public void Add(StepSamples step)
    {
        if (Time is not null)
            return;
        var before = quantity(step.At(0));
        if (before >= 0)
            Time = step.Start;
        for (var node = 1; node < StepSamples.Nodes && Time is null; node++)
        {
            var after = quantity(step.At(node));
            if (after >= 0)
                Time = after == 0 ? step.Time(node) : DenseSearch.Crossing(t => quantity(step.At(t)), step.Time(node - 1), step.Time(node));
        }
    }
}

/// <summary>The last instant at which a quantity fell through zero for good.</summary>
internal sealed class LastFall(Quantity quantity) : IAccumulator
{
    private bool _started;
    private bool _isAbove;

    /// <summary>The instant, s; null while the quantity is above zero.</summary>
    public double? Time { get; private set; }

    public void Add(StepSamples step)
    {
        var before = quantity(step.At(0));
        if (!_started)
        {
            _started = true;
            _isAbove = before > 0;
            Time = _isAbove ? null : step.Start;
        }

        for (var node = 1; node < StepSamples.Nodes; node++)
        {
            var after = quantity(step.At(node));
            if (after > 0)
            {
                _isAbove = true;
                Time = null;
            }
            else if (_isAbove)
            {
                _isAbove = false;
                Time = before <= 0 ? step.Time(node - 1) : after == 0 ? step.Time(node) : DenseSearch.Crossing(t => quantity(step.At(t)), step.Time(node - 1), step.Time(node));
            }

            before = after;
        }
    }
}
