using System.Collections.Immutable;
using System.Runtime.InteropServices;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The steps that lanes accepted last, seen through the channels at the nodes of <see cref="GaussLobatto"/>.</summary>
/// <param name="equations">The equations being integrated.</param>
/// <param name="ofCorner">Whether only the channels that a corner from rest is judged by are needed; else all are.</param>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class StepNodes<T>(HalfCarEquations<T> equations, bool ofCorner)
    where T : struct, ILanes<T>
{
    private const int Last = GaussLobatto.Count - 1;

    private readonly ImmutableArray<Channel> _channels = ofCorner ? ChannelTable.OfCorner : ChannelTable.All;

    private readonly LaneBuffer<T> _rows = new(GaussLobatto.Count * ChannelTable.Count);
    private readonly LaneBuffer<T> _state = new(equations.Dimension);
    private readonly LaneBuffer<T> _times = new(3);

    /// <summary>Starts of the steps, s.</summary>
    public ref T Start => ref _times[0];

    /// <summary>Ends of the steps, s.</summary>
    public ref T End => ref _times[1];

    /// <summary>Lengths of the steps, s.</summary>
    public ref T Length => ref _times[2];

    /// <summary>The channels at a node.</summary>
    /// <param name="node">The node, 0 for the start of the step.</param>
    public Channels<T> this[int node] => new(ref _rows[node * ChannelTable.Count]);

    /// <summary>One lane's step by itself.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="single">Its equations in single numbers.</param>
    /// <param name="step">Its continuous solution.</param>
    public StepView View(int lane, HalfCarEquations single, ILaneStep step) =>
        new(single, ofCorner, step, _rows.Column(lane), _times.Column(lane));

    /// <summary>Takes the channels where the equations were just evaluated: where some lanes start.</summary>
    /// <param name="steps">The integration.</param>
    /// <param name="lanes">A bit for each such lane.</param>
    public void TakeStart(DormandPrince54<T> steps, int lanes)
    {
        Copy(steps.Time, steps.State);
        Onward(lanes);
    }

    /// <summary>Takes the channels where the equations were just evaluated: at the ends of the steps tried.</summary>
    public void TakeEnd(DormandPrince54<T> steps) => Copy(steps.TrialEnd, steps.Trial);

    private void Copy(in T time, LaneBuffer<T> state)
    {
        ref var end = ref _rows[Last * ChannelTable.Count];
        if (ofCorner)
            equations.CopyCornerChannels(time, state.Elements, ref end);
        else
            equations.CopyChannels(time, state.Elements, ref end);
    }

    /// <summary>Evaluates the channels at the nodes within the steps accepted.</summary>
    public void Load(DormandPrince54<T> steps)
    {
        (Start, End) = (steps.StepStart, steps.Time);
        Length = End - Start;
        var state = _state.Elements;
        for (var node = 1; node < Last; node++)
        {
            var fraction = T.All(GaussLobatto.Fractions[node]);
            steps.Interpolate(fraction, state);
            var time = T.Fma(fraction, Length, Start);
            if (ofCorner)
                equations.WriteCornerChannels(time, state, ref _rows[node * ChannelTable.Count]);
            else
                equations.WriteChannels(time, state, ref _rows[node * ChannelTable.Count]);
        }
    }

    /// <summary>The next steps start where these end.</summary>
    /// <param name="lanes">A bit for each lane whose step was accepted.</param>
    public void Onward(int lanes)
    {
        var first = this[0];
        var last = this[Last];
        foreach (var channel in _channels)
            first[channel] = T.Where(lanes, last[channel], first[channel]);
    }
}

/// <summary>One lane's step, in single numbers: at the nodes, and at any time in between from the continuous solution. Valid only while the step is observed.</summary>
/// <param name="equations">The lane's equations in single numbers.</param>
/// <param name="ofCorner">Whether only the channels that a corner from rest is judged by are seen.</param>
/// <param name="step">The step's continuous solution.</param>
/// <param name="rows">The channels at the nodes.</param>
/// <param name="times">Start, end and length, s.</param>
internal sealed class StepView(HalfCarEquations equations, bool ofCorner, ILaneStep step, LaneColumn rows, LaneColumn times)
{
    private readonly double[] _state = new double[equations.Dimension];
    private readonly LaneBuffer<OneLane> _between = new(ChannelTable.Count);

    /// <summary>Start of the step, s.</summary>
    public double Start => times[0];

    /// <summary>End of the step, s.</summary>
    public double End => times[1];

    /// <summary>Length of the step, s.</summary>
    public double Length => times[2];

    /// <summary>A channel at a node.</summary>
    public double this[int node, Channel channel] => rows[(node * ChannelTable.Count) + (int)channel];

    /// <summary>Time at a fraction of the step, s.</summary>
    public double TimeAt(double fraction) => Math.Clamp(Start + (fraction * Length), Start, End);

    /// <summary>Time of a node, s.</summary>
    public double Time(int node) => node == GaussLobatto.Count - 1 ? End : TimeAt(GaussLobatto.Fractions[node]);

    /// <summary>A quantity at any time in the step, from the continuous solution; in a corner from rest one of body roll or the command.</summary>
    public double At<TQuantity>(in TQuantity quantity, double time)
        where TQuantity : struct, IQuantity
    {
        step.StateAt(time, _state);
        var state = MemoryMarshal.Cast<double, OneLane>(_state);
        if (ofCorner)
            equations.System.WriteRollAndCommand(new OneLane(time), state, ref _between[0]);
        else
            equations.System.WriteChannels(new OneLane(time), state, ref _between[0]);
        return quantity.Of(new Channels<OneLane>(ref _between[0])).Value;
    }

    /// <summary>When a quantity passes through zero between two times in the step at which its sign differs, s.</summary>
    public double Crossing<TQuantity>(TQuantity quantity, double from, double to)
        where TQuantity : struct, IQuantity => DenseSearch.Crossing(time => At(quantity, time), from, to);

    /// <summary>The highest value of a quantity between two times in the step, and when it is reached, s.</summary>
    public (double Time, double Value) Highest<TQuantity>(TQuantity quantity, double from, double to, double accuracy)
        where TQuantity : struct, IQuantity => DenseSearch.Maximum(new Sought<TQuantity>(this, quantity), from, to, accuracy);

    /// <summary>Forgets the step seen last, as where another run takes the lane.</summary>
    public void Forget() => step.Forget();

    private readonly struct Sought<TQuantity>(StepView step, TQuantity quantity) : ITimeFunction
        where TQuantity : struct, IQuantity
    {
        public double At(double time) => step.At(quantity, time);
    }
}
