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
        var view = new KnownStep(0, end, t => -0.5 * (left(t) + right(t)), t => 0.5 * (right(t) - left(t)) / TestCars.HalfTrack);
        foreach (var gauge in gauges)
            gauge.Add(view.Nodes(), 1, [view]);
    }

    /// <summary>Shows the function in steps of about one length to an end.</summary>
    public static void Show(Func<double, double> function, double end, double step, Action<StepView> add, double from = 0)
    {
        var count = (int)Math.Round((end - from) / step);
        for (var i = 0; i < count; i++)
            add(new KnownStep(from + ((end - from) * i / count), from + ((end - from) * (i + 1) / count), function, _ => 0));
    }

    /// <summary>What a gauge makes of the function.</summary>
    public static Tally Gathered(Gauge gauge, Func<double, double> function, double end, double step, double from = 0)
    {
        var accumulator = gauge.NewAccumulator<OneLane>();
        Show(function, end, step, view => accumulator.Add(((KnownStep)view).Nodes(), 1, [view]), from);
        return accumulator.Take(0);
    }

    /// <summary>The function at the nodes of a step.</summary>
    public static double[] AtNodes(StepView step, Func<double, double> function) =>
        [.. Enumerable.Range(0, GaussLobatto.Count).Select(node => function(step.Time(node)))];

    private sealed class KnownStep(double start, double end, Func<double, double> heave, Func<double, double> roll)
        : StepView(TestCars.Equations(TestCars.Find("ratios")))
    {
        private readonly HalfCarEquations _equations = TestCars.Equations(TestCars.Find("ratios"));

        public override double Start => start;

        public override double End => end;

        public override double this[int node, Channel channel] => Channels(node)[(int)channel];

        /// <summary>The step as all lanes see it.</summary>
        public StepNodes<OneLane> Nodes()
        {
            var nodes = new StepNodes<OneLane>(_equations.System);
            (nodes.Start, nodes.End, nodes.Length) = (new(start), new(end), new(Length));
            for (var node = 0; node < GaussLobatto.Count; node++)
            {
                var channels = Channels(node);
                foreach (var channel in Enum.GetValues<Channel>())
                    nodes[node][channel] = new(channels[(int)channel]);
            }

            return nodes;
        }

        protected override void WriteState(double time, Span<double> state)
        {
            state.Clear();
            state[HalfCarState.BodyHeave] = heave(time);
            state[HalfCarState.BodyRoll] = roll(time);
        }

        private double[] Channels(int node)
        {
            var state = new double[HalfCarState.Count];
            WriteState(Time(node), state);
            var channels = new double[ChannelTable.Count];
            _equations.WriteChannels(0.5, state, channels);
            return channels;
        }
    }
}
