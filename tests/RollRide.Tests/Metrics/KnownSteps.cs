using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Tests.Dynamics;

namespace RollRide.Tests.Metrics;

/// <summary>Shows a known function of time, as body heave, to what gathers figures from steps.</summary>
internal static class KnownSteps
{
    /// <summary>The quantity that carries the function.</summary>
    public static Scaled Value { get; } = new(Channel.BodyHeave, 1);

    /// <summary>Shows two functions, as the travel of the left and of the right wheel, in one step from 0 to an end.</summary>
    public static void ShowTravel(Func<double, double> left, Func<double, double> right, double end, Action<StepSamples> add)
    {
        var samples = new StepSamples(TestCars.Equations(TestCars.Find("ratios")));
        samples.Load(new KnownStep(0, end, t => -0.5 * (left(t) + right(t))) { Roll = t => 0.5 * (right(t) - left(t)) / TestCars.HalfTrack });
        add(samples);
    }

    /// <summary>Shows the function in steps of about one length to an end.</summary>
    public static void Show(Func<double, double> function, double end, double step, Action<StepSamples> add, bool atEightNodes = false, double from = 0)
    {
        var samples = new StepSamples(TestCars.Equations(TestCars.Find("ratios")));
        var count = (int)Math.Round((end - from) / step);
        for (var i = 0; i < count; i++)
        {
            var known = new KnownStep(from + ((end - from) * i / count), from + ((end - from) * (i + 1) / count), function);
            samples.Load(atEightNodes ? new KnownChannelStep(known) : known);
            add(samples);
        }
    }

    private sealed record KnownStep(double Start, double End, Func<double, double> Function) : IDenseStep
    {
        public Func<double, double>? Roll { get; init; }

        public void StateAt(double time, Span<double> state)
        {
            state.Clear();
            state[HalfCarState.BodyHeave] = Function(time);
            state[HalfCarState.BodyRoll] = Roll?.Invoke(time) ?? 0;
        }
    }

    private sealed record KnownChannelStep(KnownStep Step) : IChannelStep
    {
        public double Start => Step.Start;

        public double End => Step.End;

        public GaussLobatto Rule => GaussLobatto.Eight;

        public void StateAt(double time, Span<double> state) => Step.StateAt(time, state);

        public void WriteMotions(ReadOnlySpan<double> sinceStart, double[]?[] channels, int first) =>
            throw new NotSupportedException("Figures are gathered from all channels.");

        public void WriteChannels(in Octet times, Span<double> rows)
        {
            rows.Clear();
            for (var lane = 0; lane < GaussLobatto.Lanes; lane++)
                rows[((int)Channel.BodyHeave * GaussLobatto.Lanes) + lane] = Step.Function(times[lane]);
        }
    }
}
