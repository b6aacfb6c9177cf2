using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>Gathers one number, or a few, of a run; a metric says which gauges it needs. Immutable.</summary>
internal abstract class Gauge
{
    /// <summary>Its place among the gauges in use.</summary>
    public int Index { get; set; } = -1;

    /// <summary>Whether it tells nothing new where tyres are single.</summary>
    public bool IsForDuals { get; init; }

    /// <summary>What is gathered over no time.</summary>
    public abstract Tally Nothing { get; }

    /// <summary>Makes what gathers in all lanes of an integration.</summary>
    public abstract Accumulator<T> NewAccumulator<T>()
        where T : struct, ILanes<T>;

    /// <summary>Puts together what was gathered over two spans, of which one follows the other.</summary>
    public abstract Tally Merge(in Tally earlier, in Tally later);
}

/// <summary>Gathers in all lanes of an integration, each in a span of time of its own. Not thread-safe.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal abstract class Accumulator<T>
    where T : struct, ILanes<T>
{
    /// <summary>Adds steps.</summary>
    /// <param name="steps">The steps at their nodes.</param>
    /// <param name="lanes">A bit for each lane that has accepted one.</param>
    /// <param name="views">Each lane's step by itself.</param>
    public abstract void Add(StepNodes<T> steps, int lanes, StepView[] views);

    /// <summary>Hands over what a lane has gathered, which then begins anew.</summary>
    public abstract Tally Take(int lane);
}
