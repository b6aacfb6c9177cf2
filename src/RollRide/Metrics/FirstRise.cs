using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The first instant at which a quantity rises through zero.</summary>
internal struct FirstRise<TQuantity>(TQuantity quantity)
    where TQuantity : struct, IQuantity
{
    /// <summary>The instant, s; null if it never came.</summary>
    public double? Time { get; private set; }

    /// <summary>Adds a step.</summary>
    public void Add(StepSamples step)
    {
        if (Time is not null)
            return;
        var values = quantity.Of(step.Nodes);
        if ((Octet.GreaterOrSame(values, default) & step.Rule.Mask) != 0)
            Look(step, values);
    }

    /// <summary>Adds a step of which the quantity is known at some times, its ends among them.</summary>
    /// <param name="times">The times, s, ascending.</param>
    /// <param name="values">The quantity there.</param>
    /// <param name="crossing">When it passes through zero between two of these times at which its sign differs, s.</param>
    public void Add(ReadOnlySpan<double> times, ReadOnlySpan<double> values, Func<double, double, double> crossing)
    {
        if (Time is null && values[0] >= 0)
            Time = times[0];
        for (var i = 1; i < times.Length && Time is null; i++)
        {
            if (values[i] >= 0)
                Time = values[i] == 0 ? times[i] : crossing(times[i - 1], times[i]);
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
