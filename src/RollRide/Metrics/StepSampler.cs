using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>Takes figures from the steps of a run.</summary>
internal interface IStepConsumer
{
    /// <summary>Adds a step.</summary>
    void Add(StepSamples step);

    /// <summary>Adds samples at a fixed rate that lie in the step added last.</summary>
    void Add(MotionSamples samples);
}

/// <summary>Samples each step once and hands the samples to all that take figures from them.</summary>
internal sealed class StepSampler(HalfCarEquations equations, params IStepConsumer[] consumers) : IStepObserver
{
    private readonly StepSamples _step = new(equations);
    private readonly MotionSamples _motion = new();

    /// <inheritdoc/>
    public void Observe(IDenseStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        _step.Load(step);
        foreach (var consumer in consumers)
            consumer.Add(_step);
        while (_motion.Next(_step))
        {
            foreach (var consumer in consumers)
                consumer.Add(_motion);
        }
    }
}
