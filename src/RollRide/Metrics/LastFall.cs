using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The last instant at which a quantity fell through zero for good.</summary>
internal struct LastFall<TQuantity>(TQuantity quantity)
    where TQuantity : struct, IQuantity
{
    private bool _started;

    /// <summary>Whether the quantity was above zero at last.</summary>
    public bool IsAbove { get; private set; }

    /// <summary>The instant, s; null while the quantity is above zero.</summary>
    public double? Time { get; private set; }

    /// <summary>Adds a step.</summary>
    public void Add(StepSamples step)
    {
        var values = quantity.Of(step.Nodes);
        var above = Octet.Greater(values, default) & step.Rule.Mask;
        if (!_started || above != (IsAbove ? step.Rule.Mask : 0))
            Look(step, values);
    }

    /// <summary>Adds a step of which the quantity is known at some times, its ends among them.</summary>
    /// <param name="times">The times, s, ascending.</param>
    /// <param name="values">The quantity there.</param>
    /// <param name="crossing">When it passes through zero between two of these times at which its sign differs, s.</param>
    public void Add(ReadOnlySpan<double> times, ReadOnlySpan<double> values, Func<double, double, double> crossing)
    {
        var before = values[0];
        if (!_started)
        {
            _started = true;
            IsAbove = before > 0;
            Time = IsAbove ? null : times[0];
        }

        for (var i = 1; i < times.Length; i++)
        {
            var after = values[i];
            if (after > 0)
            {
                IsAbove = true;
                Time = null;
            }
            else if (IsAbove)
            {
                IsAbove = false;
                Time = before <= 0 ? times[i - 1] : after == 0 ? times[i] : crossing(times[i - 1], times[i]);
            }

            before = after;
        }
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Look(StepSamples step, in Octet values)
    {
        var sought = quantity;
        Span<double> times = stackalloc double[GaussLobatto.Lanes], known = stackalloc double[GaussLobatto.Lanes];
        values.CopyTo(known);
        Add(step.WriteTimes(times), known[..step.Rule.Count], (from, to) => step.Crossing(sought, from, to));
    }
}
