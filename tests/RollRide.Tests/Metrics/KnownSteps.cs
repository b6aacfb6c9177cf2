using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Tests.Dynamics;

namespace RollRide.Tests.Metrics;

/// <summary>Shows a known function of time, as body heave, to what gathers figures from steps.</summary>
internal static class KnownSteps
{
    /// <summary>The quantity that carries the function.</summary>
    public static double Value(ReadOnlySpan<double> channels) => channels[(int)Channel.BodyHeave];

    /// <summary>Shows the function in steps of one length from 0 to an end; returns the accumulator.</summary>
    public static T Show<T>(T accumulator, Func<double, double> function, double end, double step)
        where T : IAccumulator
    {
        var samples = new StepSamples(TestCars.Equations(TestCars.Find("ratios")));
        var count = (int)Math.Round(end / step);
        for (var i = 0; i < count; i++)
        {
            samples.Load(new KnownStep(end * i / count, end * (i + 1) / count, function));
            accumulator.Add(samples);
        }

        return accumulator;
    }

    private sealed record KnownStep(double Start, double End, Func<double, double> Function) : IDenseStep
    {
        public void StateAt(double time, Span<double> state)
        {
            state.Clear();
            state[HalfCarState.BodyHeave] = Function(time);
        }
    }
}
