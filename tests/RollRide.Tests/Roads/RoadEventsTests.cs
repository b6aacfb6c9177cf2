using CsCheck;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Tests.Roads;

public class RoadEventsTests
{
    // Elevations below 1 m from a few roundings of 1e-16 at arguments of up to 100 rad.
    private const double Rounding = 1e-13;

    public static TheoryData<string> Events => [.. Everything.Keys];

    private static readonly Dictionary<string, PiecewiseSignal> Everything = new()
    {
        ["bump"] = RoadEvents.HaversineBump(5, 0.9, 0.08),
        ["dip"] = RoadEvents.HaversineBump(5, 3, -0.05),
        ["ramp"] = RoadEvents.Ramp(5, 2, 0.1),
        ["step"] = RoadEvents.Step(5, 0.06),
        ["pothole"] = RoadEvents.Pothole(5, 0.7, 0.09, 0.1),
        ["sine"] = RoadEvents.Sine(5, 4, 0.02, 3),
        ["swept sine"] = RoadEvents.SweptSine(5, 0.5, 15, 0.01, 20, 18),
        ["sampled"] = RoadEvents.Sampled([5, 5.5, 7, 8, 10], [0.01, 0.03, 0.03, -0.02, 0.015]),
    };

    [Fact]
    public void HaversineBump_RisesToItsHeightAndEndsLevel()
    {
        var bump = RoadEvents.HaversineBump(2, 1, 0.08);

        Assert.Equal([2, 3], bump.Breakpoints);
        Assert.Equal(0, bump.Value(1.9));
        Assert.Equal(0.04, bump.Value(2.25), Rounding);
        Assert.Equal(0.08, bump.Value(2.5), Rounding);
        Assert.Equal(0, bump.FinalValue);
        Assert.Equal(-0.08, RoadEvents.HaversineBump(2, 1, -0.08).Value(2.5), Rounding);
        foreach (double end in (double[])[2, 3])
        {
            Assert.Equal(0, In(bump, 2.5).Value(end), Rounding);
            Assert.Equal(0, In(bump, 2.5).Rate(end), Rounding);
        }
    }

    [Fact]
    public void Ramp_KeepsItsEndHeight()
    {
        var ramp = RoadEvents.Ramp(2, 4, -0.1);

        Assert.Equal([2, 6], ramp.Breakpoints);
        Assert.Equal(-0.025, ramp.Value(3), Rounding);
        Assert.Equal(-0.1, ramp.Value(1000));
        Assert.Equal(-0.1, ramp.FinalValue);
    }

    [Fact]
    public void Step_IsAShortRamp()
    {
        Assert.Equal([2, 2.05], RoadEvents.Step(2, 0.06).Breakpoints);
        Assert.Equal(0.03, RoadEvents.Step(2, 0.06).Value(2.025), Rounding);
        Assert.Equal(0.06, RoadEvents.Step(2, 0.06).FinalValue);
        Assert.Equal([2, 2.2], RoadEvents.Step(2, 0.06, length: 0.2).Breakpoints);
    }

    [Fact]
    public void Pothole_GoesDownFlatAndUp()
    {
        var hole = RoadEvents.Pothole(2, 1, 0.08, 0.25);

        Assert.Equal([2, 2.25, 2.75, 3], hole.Breakpoints);
        Assert.Equal(-0.04, hole.Value(2.125), Rounding);
        Assert.Equal(-0.08, hole.Value(2.5));
        Assert.Equal(-0.02, hole.Value(2.9375), Rounding);
        Assert.Equal(0, hole.FinalValue);
    }

    [Fact]
    public void Sine_HasItsWavesAndThenIsZero()
    {
        var sine = RoadEvents.Sine(2, 4, 0.02, 3);

        Assert.Equal([2, 14], sine.Breakpoints);
        Assert.Equal(0.02, sine.Value(3), Rounding);
        Assert.Equal(-0.02, sine.Value(13), Rounding);
        Assert.Equal(0, sine.Value(14));
    }

    [Theory]
    [InlineData(0.5, 15, 20)]
    [InlineData(12, 1, 7)]
    [InlineData(2, 2, 1)]
    public void SweptSine_HasWholeCyclesAndItsFrequencyAtBothEnds(double f0, double f1, int cycles)
    {
        const double amplitude = 0.01, speed = 18;
        var swept = RoadEvents.SweptSine(5, f0, f1, amplitude, cycles, speed);
        double end = swept.Breakpoints[1];
        double duration = (end - 5) / speed;

        // Whole cycles: mean frequency times duration.
        Assert.Equal(cycles, duration * (f0 + f1) / 2, 1e-12);

        // At a zero upward the slope in time is 2π f A, which reads the frequency off.
        var cursor = In(swept, (5 + end) / 2);
        foreach (var (at, frequency) in new[] { (5.0, f0), (end, f1) })
        {
            Assert.Equal(0, cursor.Value(at), amplitude * 1e-11);
            Assert.Equal(frequency, cursor.Rate(at) * speed / (2 * Math.PI * amplitude), frequency * 1e-11);
        }

        // Count the upward zero crossings, with the one at the start: one each cycle.
        const int n = 20_000;
        int crossings = 1;
        for (int i = 1; i < n; i++)
        {
            double a = cursor.Value(5 + (end - 5) * (i - 0.5) / n), b = cursor.Value(5 + (end - 5) * (i + 0.5) / n);
            crossings += a < 0 && b >= 0 ? 1 : 0;
        }

        // The last one is the end itself and is not counted again.
        Assert.Equal(cycles, crossings);
    }

    [Fact]
    public void Sampled_GoesThroughItsSamplesAndHoldsTheFirstAndTheLast()
    {
        double[] x = [5, 5.5, 7, 8, 10], z = [0.01, 0.03, 0.03, -0.02, 0.015];
        var profile = RoadEvents.Sampled(x, z);

        Assert.Equal([5, 10], profile.Breakpoints);
        for (int i = 0; i < x.Length; i++)
            Assert.Equal(z[i], profile.Value(x[i]), Rounding);
        Assert.Equal(0.01, profile.Value(-100));
        Assert.Equal(0.015, profile.Value(1e6));
        Assert.Equal(0.015, profile.FinalValue);
        Assert.Equal(0.03, profile.Value(6.2), Rounding); // Between equal samples it does not overshoot.
    }

    [Theory]
    [MemberData(nameof(Events))]
    public void Event_LeavesNoJump(string name)
    {
        var signal = Everything[name];
        foreach (double at in signal.Breakpoints)
            Assert.Equal(In(signal, at - 1e-3).Value(at), In(signal, at + 1e-3).Value(at), Rounding);
    }

    [Theory]
    [MemberData(nameof(Events))]
    public void Event_StartsAtZeroUnlessSampled(string name)
    {
        if (name != "sampled")
            Assert.Equal(0, Everything[name].Value(0));
    }

    [Theory]
    [MemberData(nameof(Events))]
    public void Rate_IsTheDerivativeAndBreakpointsAreComplete(string name)
    {
        // Wherever no breakpoint lies within the step, the central difference must find the slope from either side: a
        // kink in between would show as half its jump. Step 1e-5 m; the third derivative is greatest in the swept sine,
        // A (2πf/V)³ = 0.01·5.2³ = 1.4 1/m², and in the bump, 0.04·7³ = 14 1/m², so truncation is below 3e-10; rounding
        // of 0.1 m is 1e-17·…/1e-5 and of the argument x = 20 m (4e-15 m · slope 0.3)/1e-5 = 1e-10. The sampled curve's
        // second derivative jumps at its samples (0.5 1/m): half the step of it, 3e-6.
        const double h = 1e-5;
        double tolerance = name == "sampled" ? 3e-6 : 1e-9;
        var signal = Everything[name];
        foreach (double x in Gen.Double[4, 30].Samples(500).Concat(signal.Breakpoints.SelectMany(b => new[] { b - 2 * h, b + 2 * h })))
        {
            if (signal.Breakpoints.Any(b => Math.Abs(b - x) <= h))
                continue;
            Assert.Equal((signal.Value(x + h) - signal.Value(x - h)) / (2 * h), In(signal, x).Rate(x), tolerance);
        }
    }

    [Theory]
    [MemberData(nameof(BadEvents))]
    public void Event_BadArgument_IsRefusedByName(string name, Func<PiecewiseSignal> make) =>
        Assert.Equal(name, Assert.ThrowsAny<ArgumentException>(make).ParamName);

    public static TheoryData<string, Func<PiecewiseSignal>> BadEvents => new()
    {
        { "start", () => RoadEvents.HaversineBump(double.NaN, 1, 0.1) },
        { "length", () => RoadEvents.HaversineBump(1, 0, 0.1) },
        { "height", () => RoadEvents.HaversineBump(1, 1, double.PositiveInfinity) },
        { "start", () => RoadEvents.Ramp(double.NegativeInfinity, 1, 0.1) },
        { "length", () => RoadEvents.Ramp(1, -1, 0.1) },
        { "height", () => RoadEvents.Ramp(1, 1, double.NaN) },
        { "length", () => RoadEvents.Step(1, 0.1, 0) },
        { "start", () => RoadEvents.Pothole(double.NaN, 1, 0.1, 0.1) },
        { "length", () => RoadEvents.Pothole(1, 0.2, 0.1, 0.1) },
        { "depth", () => RoadEvents.Pothole(1, 1, -0.1, 0.1) },
        { "edgeLength", () => RoadEvents.Pothole(1, 1, 0.1, 0) },
        { "wavelength", () => RoadEvents.Sine(1, 0, 0.1, 2) },
        { "amplitude", () => RoadEvents.Sine(1, 1, double.NaN, 2) },
        { "cycles", () => RoadEvents.Sine(1, 1, 0.1, 0) },
        { "startFrequency", () => RoadEvents.SweptSine(1, 0, 5, 0.1, 2, 10) },
        { "endFrequency", () => RoadEvents.SweptSine(1, 1, -5, 0.1, 2, 10) },
        { "amplitude", () => RoadEvents.SweptSine(1, 1, 5, double.NaN, 2, 10) },
        { "cycles", () => RoadEvents.SweptSine(1, 1, 5, 0.1, 0, 10) },
        { "speed", () => RoadEvents.SweptSine(1, 1, 5, 0.1, 2, 0) },
        { "positions", () => RoadEvents.Sampled([], []) },
        { "positions", () => RoadEvents.Sampled([0, 1, 1], [0, 0, 0]) },
        { "values", () => RoadEvents.Sampled([0, 1, 2], [0, 0]) },
        { "values", () => RoadEvents.Sampled([0, 1], [0, double.NaN]) },
    };

    private static SignalCursor In(PiecewiseSignal signal, double midpoint)
    {
        var cursor = signal.CreateCursor();
        cursor.EnterSegment(midpoint);
        return cursor;
    }
}
