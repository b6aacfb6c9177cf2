using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Tests.Dynamics;

namespace RollRide.Tests.Metrics;

/// <summary>Shows a known function of time, as body heave, to what gathers figures from steps.</summary>
internal static class KnownSteps
{
    /// <summary>The quantity that carries the function.</summary>
    public static Value Value { get; } = new(Channel.BodyHeave);

    /// <summary>Shows two functions, as the travel of the left and of the right wheel, in one step from 0 to an end.</summary>
    public static void ShowTravel(Func<double, double> left, Func<double, double> right, double end, params IReadOnlyList<Accumulator<OneLane>> gauges)
    {
        var step = new KnownStep(0, end, t => -0.5 * (left(t) + right(t)), t => 0.5 * (right(t) - left(t)) / TestCars.HalfTrack);
        foreach (var gauge in gauges)
            gauge.Add(step.Nodes, 1, [step.View]);
    }

    /// <summary>Shows the function in steps of about one length to an end.</summary>
    public static void Show(Func<double, double> function, double end, double step, Action<StepView> add, double from = 0) =>
        ShowAll(function, end, step, known => add(known.View), from);

    /// <summary>What a gauge makes of the function.</summary>
    public static Tally Gathered(Gauge gauge, Func<double, double> function, double end, double step, double from = 0)
    {
        var accumulator = gauge.NewAccumulator<OneLane>();
        ShowAll(function, end, step, known => accumulator.Add(known.Nodes, 1, [known.View]), from);
        return accumulator.Take(0);
    }

    /// <summary>The function at the nodes of a step.</summary>
    public static double[] AtNodes(StepView step, Func<double, double> function) =>
        [.. Enumerable.Range(0, GaussLobatto.Count).Select(node => function(step.Time(node)))];

    private static void ShowAll(Func<double, double> function, double end, double step, Action<KnownStep> add, double from)
    {
        var count = (int)Math.Round((end - from) / step);
        for (var i = 0; i < count; i++)
            add(new KnownStep(from + ((end - from) * i / count), from + ((end - from) * (i + 1) / count), function, _ => 0));
    }

    private sealed class KnownStep : ILaneStep
    {
        private readonly Func<double, double> _heave, _roll;

        public KnownStep(double start, double end, Func<double, double> heave, Func<double, double> roll)
        {
            (Start, End, _heave, _roll) = (start, end, heave, roll);
            var equations = TestCars.Equations(TestCars.Find("ratios"));
            Nodes = new StepNodes<OneLane>(equations.System, ofCorner: false);
            (Nodes.Start, Nodes.End, Nodes.Length) = (new(start), new(end), new(end - start));
            View = Nodes.View(0, equations, this);
            var (state, channels) = (new double[HalfCarState.Count], new double[ChannelTable.Count]);
            for (var node = 0; node < GaussLobatto.Count; node++)
            {
                StateAt(View.Time(node), state);
                equations.WriteChannels(0.5, state, channels);
                foreach (var channel in Enum.GetValues<Channel>())
                    Nodes[node][channel] = new(channels[(int)channel]);
            }
        }

        public double Start { get; }

        public double End { get; }

        public StepNodes<OneLane> Nodes { get; }

        public StepView View { get; }

        public void StateAt(double time, Span<double> state)
        {
            state.Clear();
            state[HalfCarState.BodyHeave] = _heave(time);
            state[HalfCarState.BodyRoll] = _roll(time);
        }

        public void Forget()
        {
        }
    }
}
