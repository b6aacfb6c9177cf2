using RollRide.Cornering;
using RollRide.Numerics;

namespace RollRide.Tests.Cornering;

public sealed class CorneringEventsTests
{
    /// <summary>Rounding of sines at multiples of π, for amplitudes of the order of one.</summary>
    private const double Rounding = 1e-13;

    public static TheoryData<string> Names => [.. Events.Keys];

    private static Dictionary<string, PiecewiseSignal> Events { get; } = new()
    {
        ["ramp step"] = CorneringEvents.Ramp(1.1, 0.2, 0.7),
        ["sine"] = CorneringEvents.Sine(1.1, 0.7, 0.7, 3),
        ["sine with dwell"] = CorneringEvents.SineWithDwell(1.1, 0.7, 0.7, 0.5),
        ["swept sine"] = CorneringEvents.SweptSine(1.1, 0.2, 3.1, 0.7, 7),
        ["sampled"] = CorneringEvents.Sampled([1.1, 1.4, 1.9, 2.5], [0.02, 0.5, 0.7, -0.1]),
    };

    [Theory]
    [MemberData(nameof(Names))]
    public void AnyEvent_AtEveryBreakpoint_IsContinuous(string name)
    {
        PiecewiseSignal signal = Events[name];
        double[] edges = [-10, .. signal.Breakpoints, 100];
        SignalCursor cursor = signal.CreateCursor();
        for (int i = 1; i < edges.Length - 1; i++)
        {
            cursor.EnterSegment(0.5 * (edges[i - 1] + edges[i]));
            double before = cursor.Value(edges[i]);
            cursor.EnterSegment(0.5 * (edges[i] + edges[i + 1]));
            Assert.Equal(before, cursor.Value(edges[i]), Rounding);
        }
    }

    [Theory]
    [InlineData("sine")]
    [InlineData("sine with dwell")]
    [InlineData("swept sine")]
    public void OscillatingEvent_BeforeAndAfter_IsZero(string name)
    {
        PiecewiseSignal signal = Events[name];
        Assert.Equal((1.1, 0, 0, 0), (signal.Start, signal.Value(1.0999), signal.Value(signal.End), signal.FinalValue));
        Assert.Equal(0, signal.Value(double.BitDecrement(signal.End)), 1e-12);
    }

    [Fact]
    public void Ramp_Along_RisesLinearlyAndHolds()
    {
        PiecewiseSignal ramp = Events["ramp step"];
        Assert.Equal([1.1, 1.1 + 0.2], ramp.Breakpoints);
        Assert.Equal(0.35, ramp.Value(1.2), Rounding);
        Assert.Equal((0.7, 0.7), (ramp.Value(1.35), ramp.FinalValue));
    }

    [Fact]
    public void Sine_Along_HasItsPeriodsAndAmplitude()
    {
        PiecewiseSignal sine = Events["sine"];
        Assert.Equal(1.1 + 3 / 0.7, sine.End, Rounding);
        for (int cycle = 0; cycle < 3; cycle++)
        {
            Assert.Equal(0.7, sine.Value(1.1 + (cycle + 0.25) / 0.7), Rounding);
            Assert.Equal(-0.7, sine.Value(1.1 + (cycle + 0.75) / 0.7), Rounding);
        }
    }

    [Fact]
    public void SineWithDwell_Along_HoldsTheSecondPeakThenCompletesTheSine()
    {
        PiecewiseSignal signal = Events["sine with dwell"];
        PiecewiseSignal sine = CorneringEvents.Sine(1.1, 0.7, 0.7, 1);
        double peak = 1.1 + 0.75 / 0.7;
        Assert.Equal(0.7, signal.Value(1.1 + 0.25 / 0.7), Rounding);
        Assert.Equal(-0.7, signal.Value(peak), Rounding);
        Assert.Equal(-0.7, signal.Value(peak + 0.499), Rounding);
        Assert.Equal(1.1 + 1 / 0.7 + 0.5, signal.End, Rounding);
        for (double t = 0.01; t < 0.25 / 0.7; t += 0.01) Assert.Equal(sine.Value(peak + t), signal.Value(peak + 0.5 + t), Rounding);
    }

    [Fact]
    public void SweptSine_AtItsEnds_HasTheGivenFrequencies()
    {
        PiecewiseSignal sweep = Events["swept sine"];
        double duration = 7 / (0.5 * (0.2 + 3.1));
        Assert.Equal(1.1 + duration, sweep.End, Rounding);
        SignalCursor cursor = sweep.CreateCursor();
        cursor.EnterSegment(2);
        Assert.Equal(2 * Math.PI * 0.2 * 0.7, cursor.Rate(1.1), Rounding);
        Assert.Equal(2 * Math.PI * 3.1 * 0.7, cursor.Rate(sweep.End), 1e-12);
    }

    [Fact]
    public void Sampled_BeyondTheRecord_HoldsTheEndValues()
    {
        PiecewiseSignal record = Events["sampled"];
        Assert.Equal((0.02, 0.02), (record.Value(-100), record.Value(1.0999)));
        Assert.Equal(0.7, record.Value(1.9), Rounding);
        Assert.Equal((-0.1, -0.1), (record.Value(2.5), record.FinalValue));
        Assert.Equal([1.1, 2.5], record.Breakpoints);
    }

    [Fact]
    public void Sampled_StartingAndEndingAtZero_IsThePieceAlone()
    {
        PiecewiseSignal record = CorneringEvents.Sampled([1, 2, 3], [0, 1, 0]);
        Assert.Equal((1, 3), (record.Start, record.End));
    }

    [Fact]
    public void AnyEvent_MirroredAmplitude_IsTheMirrorImage()
    {
        PiecewiseSignal[] right =
        [
            CorneringEvents.Ramp(1.1, 0.2, -0.7), CorneringEvents.Sine(1.1, 0.7, -0.7, 3),
            CorneringEvents.SineWithDwell(1.1, 0.7, -0.7, 0.5), CorneringEvents.SweptSine(1.1, 0.2, 3.1, -0.7, 7),
        ];
        PiecewiseSignal[] left = [.. Events.Values.Take(4)];
        for (int i = 0; i < right.Length; i++)
        {
            for (double t = 0; t < 8; t += 0.01) Assert.Equal(-left[i].Value(t), right[i].Value(t));
        }
    }

    [Fact]
    public void AnyEvent_ArgumentOutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("rampDuration", () => CorneringEvents.Ramp(0, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("value", () => CorneringEvents.Ramp(0, 1, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("start", () => CorneringEvents.Sine(double.NaN, 1, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("frequency", () => CorneringEvents.Sine(0, -1, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("cycles", () => CorneringEvents.Sine(0, 1, 1, 0));
        Assert.Throws<ArgumentOutOfRangeException>("amplitude", () => CorneringEvents.SineWithDwell(0, 1, double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>("dwell", () => CorneringEvents.SineWithDwell(0, 1, 1, 0));
        Assert.Throws<ArgumentOutOfRangeException>("startFrequency", () => CorneringEvents.SweptSine(0, 0, 1, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("endFrequency", () => CorneringEvents.SweptSine(0, 1, 0, 1, 1));
        Assert.Throws<ArgumentException>(() => CorneringEvents.Sampled([], []));
        Assert.Throws<ArgumentException>(() => CorneringEvents.Sampled([0, 1], [0]));
        Assert.Throws<ArgumentException>(() => CorneringEvents.Sampled([0, 1, 1], [0, 1, 2]));
        Assert.Throws<ArgumentException>(() => CorneringEvents.Sampled([double.NegativeInfinity, 1], [0, 1]));
    }
}
