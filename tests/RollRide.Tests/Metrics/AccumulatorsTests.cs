using RollRide.Dynamics;
using RollRide.Metrics;

namespace RollRide.Tests.Metrics;

/// <summary>Figures of known functions of time, whose extremes and zeros do not lie on a node.</summary>
public sealed class AccumulatorsTests
{
    private const double Omega = 2 * Math.PI * 1.3;

    [Theory]
    [InlineData(false, 7)]
    [InlineData(true, 13)]
    public void Integral_OfPolynomials_IsExactToTheDegreeOfTheRule(bool atEightNodes, int degree)
    {
        // One step from 0 to 2.
        double Integrate(int power)
        {
            var integral = default(Integral);
            KnownSteps.Show(t => Math.Pow(t, power), 2, 2, step => integral.Add(step.Weights, KnownSteps.Value.Of(step.Nodes)), atEightNodes);
            return integral.Value;
        }

        for (var power = 0; power <= degree; power++)
        {
            var exact = Math.Pow(2, power + 1) / (power + 1);
            Assert.Equal(exact, Integrate(power), 1e-13 * exact);
        }

        Assert.NotEqual(Math.Pow(2, degree + 2) / (degree + 2), Integrate(degree + 1), 1e-4);
    }

    [Fact]
    public void RootMeanSquare_OfASine_IsItsAmplitudeOverRootTwo()
    {
        var squares = default(Integral);
        KnownSteps.Show(t => 3 * Math.Sin(Omega * t), 10 / 1.3, 0.02, step =>
        {
            var value = KnownSteps.Value.Of(step.Nodes);
            squares.Add(step.Weights, value * value);
        });

        // The rule's error is of order (2ω·h)^8/10^9 a step.
        Assert.Equal(3 / Math.Sqrt(2), Math.Sqrt(squares.Value / (10 / 1.3)), 1e-11);
    }

    [Theory]
    [InlineData(0.02, false)]
    [InlineData(0.05, false)]
    [InlineData(0.1, false)]
    [InlineData(0.05, true)]
    [InlineData(0.1, true)]
    public void Maximum_OfADecayingSine_IsFoundBetweenNodes(double step, bool atEightNodes)
    {
        const double Decay = 0.7;
        double Function(double t) => Math.Exp(-Decay * t) * Math.Sin(Omega * t);
        var time = Math.Atan2(Omega, Decay) / Omega;
        var peak = Highest(Function, 4, step, atEightNodes);
        Assert.Equal(Function(time), peak.Value, 1e-9);

        // A smooth maximum is flat: rounding limits its time to 1e-8 of the peak's width.
        Assert.Equal(time, peak.Time, 1e-7);
    }

    [Theory]
    [InlineData(0.02)]
    [InlineData(0.05)]
    public void Maximum_WithAKink_IsFoundBetweenNodes(double step)
    {
        // Rises with slope 1 to t = 1/3 and falls with slope 2 behind it: no polynomial follows that.
        var peak = Highest(t => t < 1.0 / 3 ? t : 1 - (2 * t), 1, step);

        // Its time is searched to 1e-6 of the span between two nodes, and its height is as accurate as its time.
        Assert.Equal(1.0 / 3, peak.Value, 2e-6 * step);
        Assert.Equal(1.0 / 3, peak.Time, 1e-6 * step);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    public void Maximum_OfEitherSide_IsFoundWhereTheSidesCross(double sign)
    {
        // The left side peaks between two nodes; at one of the nodes beside it the right side is the higher one.
        double Left(double t) => sign * (0.05 - ((t - 0.01) * (t - 0.01)));
        double Right(double t) => sign * (0.049 - (0.3 * t * t));
        double Highest(Func<double, double> left, Func<double, double> right)
        {
            var peak = new LargerPeak(Channel.WheelTravelLeft, sign);
            KnownSteps.ShowTravel(left, right, 0.3, step => peak.Add(step));
            return peak.Value;
        }

        Assert.Equal(0.05, Highest(Left, Right), 1e-12);
        Assert.Equal(0.05, Highest(Right, Left), 1e-12);
    }

    [Fact]
    public void Maximum_OfEitherSide_OfTwoSpansIsThatOfBoth()
    {
        var (first, second) = (new LargerPeak(Channel.WheelTravelLeft, 1), new LargerPeak(Channel.WheelTravelLeft, 1));
        KnownSteps.ShowTravel(t => 0.02 - t, t => 0.01 - t, 0.1, step => first.Add(step));
        KnownSteps.ShowTravel(t => 0.01 - t, t => 0.03 - t, 0.1, step => second.Add(step));
        Assert.Equal((0.02, 0.03), (first.Value, second.Value));
        var merged = first;
        merged.Merge(second);
        second.Merge(first);
        Assert.Equal((0.03, 0.03), (merged.Value, second.Value));
    }

    [Fact]
    public void Maximum_OfTwoSpans_IsThatOfBoth()
    {
        var (first, second) = (Highest(t => Math.Sin(Omega * t), 0.3, 0.01), Highest(t => 2 * Math.Sin(Omega * t), 0.3, 0.01));
        var merged = first;
        merged.Merge(second);
        Assert.Equal((second.Value, second.Time), (merged.Value, merged.Time));
        second.Merge(first);
        Assert.Equal((merged.Value, merged.Time), (second.Value, second.Time));
    }

    [Fact]
    public void PositiveSpells_OfNeighbouringSpans_CountOneThatLastsAcrossOnce()
    {
        double Function(double t) => Math.Sin(Omega * t) - 0.5;
        var whole = SpellsOf(Function, 3 / 1.3, 0.01);

        // The second spell is cut in two by its middle.
        var cut = (1.0 / 1.3) + (0.25 / 1.3);
        var (first, second) = (new Spells<Scaled>(KnownSteps.Value, keepsSpans: true), new Spells<Scaled>(KnownSteps.Value, keepsSpans: true));
        KnownSteps.Show(Function, cut, cut / 100, step => first.Add(step));
        KnownSteps.Show(Function, 3 / 1.3, 0.01, step => second.Add(step), from: cut);
        Assert.Equal((2, 2), (first.Count, second.Count));
        first.Merge(second);
        Assert.Equal(whole.Count, first.Count);
        Assert.Equal(whole.Duration, first.Duration, 1e-11);
        Assert.Equal(whole.Spans.Select(span => span.End - span.Start), first.Spans.Select(span => span.End - span.Start), (a, b) => Math.Abs(a - b) < 1e-11);
    }

    [Fact]
    public void Maximum_OfARisingFunction_IsItsEnd()
    {
        var peak = Highest(Math.Exp, 1, 0.1);
        Assert.Equal(Math.E, peak.Value, 1e-14);
        Assert.Equal(1, peak.Time, 1e-15);
    }

    [Fact]
    public void PositiveSpells_OfARaisedSine_HaveTheClosedFormDuration()
    {
        // sin ωt > 1/2 for a third of each period; five periods.
        var spells = SpellsOf(t => Math.Sin(Omega * t) - 0.5, 5 / 1.3, 0.013);
        Assert.Equal(5, spells.Count);
        Assert.Equal(5 / 1.3 / 3, spells.Duration, 1e-11);
    }

    [Fact]
    public void PositiveSpells_FromTheStartOrOnANode_CountOnce()
    {
        // cos: above zero at the start and at the end, once in between; zeros at 0.25 + 0.5 k fall on ends of steps.
        var spells = SpellsOf(t => Math.Cos(2 * Math.PI * t), 2, 0.25);
        Assert.Equal(3, spells.Count);
        Assert.Equal(1, spells.Duration, 1e-12);

        // A stop's force: zero until it touches, then positive.
        var contact = SpellsOf(t => Math.Max(0, Math.Sin(Omega * t)), 3 / 1.3, 0.01);
        Assert.Equal(3, contact.Count);
    }

    [Fact]
    public void PositiveSpells_OfNothingPositive_AreNone()
    {
        var spells = SpellsOf(t => -Math.Abs(Math.Sin(Omega * t)), 2, 0.02);
        Assert.Equal((0, 0.0), (spells.Count, spells.Duration));
    }

    [Fact]
    public void FirstRise_OfASine_IsItsFirstCrossing()
    {
        var rise = FirstRiseOf(t => Math.Sin(Omega * t) - 0.9, 3, 0.017);
        Assert.Equal(Math.Asin(0.9) / Omega, rise.Time!.Value, 1e-12);
        Assert.Null(FirstRiseOf(t => Math.Sin(t) - 2, 3, 0.017).Time);
        Assert.Equal(0, FirstRiseOf(t => 1 - t, 3, 0.017).Time);
    }

    [Fact]
    public void LastFall_OfADecay_IsItsLastEntryIntoTheBand()
    {
        // |e^−t cos ωt| leaves the band of 0.2 for the last time after the peak at ω t ≈ 4π: found by bisection of the closed form.
        double Outside(double t) => Math.Abs(Math.Exp(-t) * Math.Cos(Omega * t)) - 0.2;
        var (low, high) = (Math.PI * 4 / Omega, Math.PI * 4.5 / Omega);
        Assert.True(Outside(low) > 0 && Outside(high) < 0);
        Assert.True(Enumerable.Range(0, 1000).All(i => Outside(high + (0.005 * i)) < 0));
        for (var i = 0; i < 60; i++)
            (low, high) = Outside((low + high) / 2) > 0 ? ((low + high) / 2, high) : (low, (low + high) / 2);

        Assert.Equal(high, LastFallOf(Outside, 5, 0.02).Time!.Value, 1e-11);
    }

    [Fact]
    public void LastFall_OfWhatStaysAbove_IsNone_AndOfWhatStaysBelow_TheStart()
    {
        Assert.Null(LastFallOf(t => t - 1, 3, 0.1).Time);
        Assert.Equal(0, LastFallOf(t => -1 - t, 3, 0.1).Time);
    }

    private static Peak<Scaled> Highest(Func<double, double> function, double end, double length, bool atEightNodes = false)
    {
        var peak = new Peak<Scaled>(KnownSteps.Value);
        KnownSteps.Show(function, end, length, step => peak.Add(step), atEightNodes);
        return peak;
    }

    private static Spells<Scaled> SpellsOf(Func<double, double> function, double end, double length)
    {
        var spells = new Spells<Scaled>(KnownSteps.Value, keepsSpans: true);
        KnownSteps.Show(function, end, length, step => spells.Add(step));
        return spells;
    }

    private static FirstRise<Scaled> FirstRiseOf(Func<double, double> function, double end, double length)
    {
        var rise = new FirstRise<Scaled>(KnownSteps.Value);
        KnownSteps.Show(function, end, length, step => rise.Add(step));
        return rise;
    }

    private static LastFall<Scaled> LastFallOf(Func<double, double> function, double end, double length)
    {
        var fall = new LastFall<Scaled>(KnownSteps.Value);
        KnownSteps.Show(function, end, length, step => fall.Add(step));
        return fall;
    }
}
