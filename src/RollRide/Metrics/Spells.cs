using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>How long and how often a quantity was above zero; the instants of change are found on the continuous solution.</summary>
internal struct Spells<TQuantity>(TQuantity quantity, bool keepsSpans = false)
    where TQuantity : struct, IQuantity
{
    // Where a quantity sits at zero to rounding, as at the end of a step that ends where it reaches zero, it may change sign and back: less
    // than this, s, is no spell and no gap between two.
    private const double Instant = 1e-8;

    private List<(double Start, double End)>? _spans;
    private double _firstStart;
    private double _lastStart;
    private double _lastEnd;
    private double _endBefore = double.NegativeInfinity;
    private bool _isPositive;

    /// <summary>Seconds above zero.</summary>
    public double Duration { get; private set; }

    /// <summary>Number of spells above zero.</summary>
    public int Count { get; private set; }

    /// <summary>The spells, s, in the order of time, if they are kept.</summary>
    public readonly IReadOnlyList<(double Start, double End)> Spans => _spans ?? [];

    /// <summary>Adds a step.</summary>
    public void Add(StepSamples step)
    {
        var values = quantity.Of(step.Nodes);
        if (_isPositive || Octet.Greater(values, default) != 0)
            Look(step, values);
    }

    /// <summary>Adds a span of time throughout which the quantity is above zero, or is not.</summary>
    /// <param name="isPositive">Whether it is.</param>
    /// <param name="start">Start, s.</param>
    /// <param name="end">End, s.</param>
    public void Add(bool isPositive, double start, double end)
    {
        if (isPositive)
        {
            if (!_isPositive)
                Begin(start);
            Lengthen(start, end);
        }
        else if (_isPositive)
        {
            DropInstant();
        }

        _isPositive = isPositive;
    }

    /// <summary>Adds the spells of the span of time that follows; one that lasts across counts once.</summary>
    public void Merge(in Spells<TQuantity> later)
    {
        if (later.Count > 0)
        {
            var continues = Count > 0 && later._firstStart - _lastEnd <= Instant;
            if (later._spans is not null)
            {
                _spans ??= [];
                if (continues)
                    _spans[^1] = (_spans[^1].Start, later._spans[0].End);
                _spans.AddRange(continues ? later._spans.Skip(1) : later._spans);
            }

            _firstStart = Count == 0 ? later._firstStart : _firstStart;
            _lastStart = continues && later.Count == 1 ? _lastStart : later._lastStart;
            _lastEnd = later._lastEnd;
            Count += continues ? later.Count - 1 : later.Count;
            Duration += later.Duration;
        }

        _isPositive = later._isPositive;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Look(StepSamples step, in Octet values)
    {
        var before = values[0];
        if (before > 0 && !_isPositive)
            Begin(step.Start);
        for (var node = 1; node < step.Rule.Count; node++)
        {
            var after = values[node];
            var (start, end) = (step.Time(node - 1), step.Time(node));
            if (before > 0 && after > 0)
            {
                Lengthen(start, end);
            }
            else if (before > 0 != after > 0)
            {
                var change = before == 0 ? start : after == 0 ? end : step.Crossing(quantity, start, end);
                if (after > 0)
                    Begin(change);
                Lengthen(after > 0 ? change : start, after > 0 ? end : change);
                if (after <= 0)
                    DropInstant();
            }

            before = after;
        }

        _isPositive = before > 0;
    }

    private void Begin(double time)
    {
        if (Count > 0 && time - _lastEnd <= Instant)
            return;
        if (Count++ == 0)
            _firstStart = time;
        (_endBefore, _lastStart, _lastEnd) = (_lastEnd, time, time);
        if (keepsSpans)
            (_spans ??= []).Add((time, time));
    }

    /// <summary>Forgets the last spell if it was none.</summary>
    private void DropInstant()
    {
        if (_lastEnd - _lastStart > Instant)
            return;
        Count--;
        Duration -= _lastEnd - _lastStart;
        _lastEnd = _endBefore;
        _spans?.RemoveAt(_spans.Count - 1);
    }

    private void Lengthen(double from, double to)
    {
        Duration += to - from;
        _lastEnd = to;
        if (_spans is not null)
            _spans[^1] = (_spans[^1].Start, to);
    }
}
