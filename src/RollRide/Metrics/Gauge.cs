using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>Gathers one number, or a few, of a run; a metric says which gauges it needs. Immutable.</summary>
internal abstract class Gauge
{
    /// <summary>Its place among the gauges in use.</summary>
    public int Index { get; set; } = -1;

    /// <summary>Which cars it has anything to gather of; of others it holds <see cref="Nothing"/>.</summary>
    public Func<AssembledHalfCar, bool> Concerns { get; init; } = _ => true;

    /// <summary>What is gathered over no time.</summary>
    public abstract Tally Nothing { get; }

    /// <summary>Makes an accumulator for all lanes of an integration.</summary>
    public Accumulator<T> NewAccumulator<T>()
        where T : struct, ILanes<T> => typeof(T) == typeof(OneLane) ? (Accumulator<T>)(object)NewSingle() : NewSideBySide<T>();

    /// <summary>Makes an accumulator for a single run: a method of its own, so that its machine code is made ahead of time.</summary>
    protected abstract Accumulator<OneLane> NewSingle();

    /// <summary>Makes an accumulator for runs side by side.</summary>
    protected abstract Accumulator<T> NewSideBySide<T>()
        where T : struct, ILanes<T>;

    /// <summary>Combines what was gathered over two consecutive spans of time.</summary>
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

    /// <summary>Takes what a lane has gathered, and starts the lane again from nothing.</summary>
    public abstract Tally Take(int lane);
}
