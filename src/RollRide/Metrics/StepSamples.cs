using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// One step of a run seen through its channels: at five Gauss–Lobatto nodes, for integrals and for bracketing, and at any time in
/// between, for peaks and crossings. Valid only while the step is observed.
/// </summary>
internal sealed class StepSamples
{
    /// <summary>Number of nodes in a step, both ends among them.</summary>
    public const int Nodes = 5;

    // Five-point Gauss–Lobatto rule on (−1, 1), exact to degree 7: M. Abramowitz, I. Stegun, Handbook of Mathematical
    // Functions, 1964, table 25.6 (from memory; the test checks the degree).
    private static readonly double[] Abscissae = [-1, -Math.Sqrt(3.0 / 7), 0, Math.Sqrt(3.0 / 7), 1];
    private static readonly double[] RuleWeights = [1.0 / 10, 49.0 / 90, 32.0 / 45, 49.0 / 90, 1.0 / 10];

    // Barycentric weights 1/Π(xᵢ − xⱼ) of the quartic through the nodes: J.-P. Berrut, L. N. Trefethen, "Barycentric Lagrange
    // Interpolation", SIAM Review 46, 2004 (from memory; the test checks the degree).
    private static readonly double[] Barycentric =
        [.. Abscissae.Select((x, i) => 1 / Abscissae.Where((_, j) => j != i).Aggregate(1.0, (product, other) => product * (x - other)))];

    private readonly HalfCarEquations _equations;
    private readonly double[] _state;
    private readonly double[] _nodes = new double[Nodes * ChannelTable.Count];
    private readonly double[] _between = new double[ChannelTable.Count];
    private readonly double[] _times = new double[Nodes];
    private IDenseStep? _step;
    private long _segment = -1;

    public StepSamples(HalfCarEquations equations)
    {
        _equations = equations;
        _state = new double[equations.Dimension];
    }

    /// <summary>Start of the step, s.</summary>
    public double Start => _times[0];

    /// <summary>End of the step, s.</summary>
    public double End => _times[^1];

    /// <summary>Time of a node, s.</summary>
    public double Time(int node) => _times[node];

    /// <summary>Weight of a node in an integral over the step, s.</summary>
    public double Weight(int node) => 0.5 * (End - Start) * RuleWeights[node];

    /// <summary>All channels at a node.</summary>
    public ReadOnlySpan<double> At(int node) => _nodes.AsSpan(node * ChannelTable.Count, ChannelTable.Count);

    /// <summary>All channels at any time in the step; overwritten by the next call.</summary>
    public ReadOnlySpan<double> At(double time)
    {
        _step!.StateAt(time, _state);
        _equations.WriteChannels(time, _state, _between);
        return _between;
    }

    /// <summary>
    /// Vertical acceleration of the body at its centre of gravity and at the seat at any time in the step, m/s², by the quartic
    /// through its nodes: steps are short against the highest frequency that the weighting lets pass.
    /// </summary>
    public (double Body, double Seat) VerticalAccelerations(double time)
    {
        var x = End > Start ? (2 * (time - Start) / (End - Start)) - 1 : -1;
        var (body, seat, sum) = (0.0, 0.0, 0.0);
        for (var node = 0; node < Nodes; node++)
        {
            var distance = x - Abscissae[node];
            var channels = At(node);
            if (distance == 0)
                return (channels[(int)Channel.BodyAcceleration], channels[(int)Channel.SeatAcceleration]);
            var weight = Barycentric[node] / distance;
            body += weight * channels[(int)Channel.BodyAcceleration];
            seat += weight * channels[(int)Channel.SeatAcceleration];
            sum += weight;
        }

        return (body / sum, seat / sum);
    }

    /// <summary>Looks at the next step.</summary>
    public void Load(IDenseStep step)
    {
        _step = step;
        var first = 0;
        if (step.Start == End && _segment == _equations.Segment)
        {
            // Within a segment nothing jumps: the step starts where the last one ended.
            At(Nodes - 1).CopyTo(_nodes);
            _times[0] = step.Start;
            first = 1;
        }

        _segment = _equations.Segment;
        for (var node = first; node < Nodes; node++)
        {
            _times[node] = node == Nodes - 1
                ? step.End
                : step.Start + (0.5 * (1 + Abscissae[node]) * (step.End - step.Start));
            step.StateAt(_times[node], _state);
            _equations.WriteChannels(_times[node], _state, _nodes.AsSpan(node * ChannelTable.Count, ChannelTable.Count));
        }
    }
}

/// <summary>A quantity computed from the channels at one instant.</summary>
/// <param name="channels">The channels, indexed by <see cref="Channel"/>.</param>
internal delegate double Quantity(ReadOnlySpan<double> channels);
