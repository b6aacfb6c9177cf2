using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// One step of a run seen through its channels: at the nodes of a Gauss–Lobatto rule, for integrals and for bracketing, and at any
/// time in between, for peaks and crossings. Valid only while the step is observed.
/// </summary>
internal sealed class StepSamples
{
    // Of the time of a peak with a kink, relative to the span between two nodes; the step falls but by a few hundredths of the peak over it.
    private const double PeakAccuracy = 1e-6;

    private readonly HalfCarEquations _equations;
    private readonly double[] _state;
    private readonly ChannelRows _between = new();
    private IDenseStep? _step;
    private long _segment = -1;

    public StepSamples(HalfCarEquations equations)
    {
        _equations = equations;
        _state = new double[equations.Dimension];
    }

    /// <summary>The rule at whose nodes the step is known.</summary>
    public GaussLobatto Rule { get; private set; } = GaussLobatto.Five;

    /// <summary>The channels at the nodes; lanes beyond the last node repeat one of them.</summary>
    public ChannelRows Nodes { get; } = new();

    /// <summary>Start of the step, s.</summary>
    public double Start { get; private set; }

    /// <summary>End of the step, s.</summary>
    public double End { get; private set; }

    /// <summary>Length of the step, s.</summary>
    public double Length { get; private set; }

    /// <summary>Weights of the nodes in an integral over the step, s; 0 in the lanes beyond the last node.</summary>
    public Octet Weights
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => Octet.All(Length) * Rule.Weights;
    }

    /// <summary>Time of a node, s.</summary>
    public double Time(int node) => node == Rule.Count - 1 ? End : TimeAt(Rule.Fractions[node]);

    /// <summary>Time at a fraction of the step, s.</summary>
    public double TimeAt(double fraction) => Math.Clamp(Start + (fraction * Length), Start, End);

    /// <summary>Writes the times of all nodes, s.</summary>
    /// <returns>What was written.</returns>
    public Span<double> WriteTimes(Span<double> times)
    {
        for (var node = 0; node < Rule.Count; node++)
            times[node] = Time(node);
        return times[..Rule.Count];
    }

    /// <summary>A quantity at any time in the step, from the continuous solution.</summary>
    public double Value<TQuantity>(TQuantity quantity, double time)
        where TQuantity : struct, IQuantity
    {
        if (_step is IChannelStep known)
        {
            // As at the nodes, so that a value there is the same to the last digit.
            known.WriteChannels(Octet.All(time), _between.Values);
        }
        else
        {
            _step!.StateAt(time, _state);
            _equations.WriteLane(time, _state, _between.Values, 0);
        }

        return quantity.Of(_between)[0];
    }

    /// <summary>When a quantity passes through zero between two times in the step at which its sign differs, s.</summary>
    public double Crossing<TQuantity>(TQuantity quantity, double from, double to)
        where TQuantity : struct, IQuantity => DenseSearch.Crossing(time => Value(quantity, time), from, to);

    /// <summary>The highest value of a quantity between two times in the step, and when it is reached, s.</summary>
    public (double Time, double Value) Highest<TQuantity>(TQuantity quantity, double from, double to)
        where TQuantity : struct, IQuantity => DenseSearch.Maximum(time => Value(quantity, time), from, to, PeakAccuracy);

    /// <summary>Looks at the next step.</summary>
    public void Load(IDenseStep step)
    {
        var follows = step.Start == End && _segment == _equations.Segment;
        var last = Rule.Count - 1;
        _step = step;
        _segment = _equations.Segment;
        (Start, End) = (step.Start, step.End);
        Length = End - Start;
        if (step is IChannelStep known)
        {
            Rule = known.Rule;
            known.WriteChannels(Octet.Min(Octet.All(Start) + (Octet.All(Length) * Rule.Places), Octet.All(End)), Nodes.Values);
        }
        else
        {
            Rule = GaussLobatto.Five;
            if (!follows)
                Evaluate(0);

            // Within a segment nothing jumps: the step starts where the last one ended. What is copied to the lanes beyond the last node stays.
            Nodes.Spread(follows ? last : 0);
            for (var node = 1; node < Rule.Count; node++)
                Evaluate(node);
        }
    }

    private void Evaluate(int node)
    {
        var time = Time(node);
        _step!.StateAt(time, _state);
        _equations.WriteLane(time, _state, Nodes.Values, node);
    }
}
