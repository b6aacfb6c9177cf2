using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Tests.Dynamics;

namespace RollRide.Tests.Metrics;

/// <summary>Figures of known functions of time, whose extremes and zeros do not lie on a node.</summary>
public sealed class AccumulatorsTests
{
    private const double Omega = 2 * Math.PI * 1.3;

    [Fact]
    public void Integral_OfPolynomials_IsExactToTheDegreeOfTheRule()
    {
        // One step from 0 to 2.
        static double Integrate(int power) => KnownSteps.Gathered(new IntegralGauge<Value>(KnownSteps.Value), t => Math.Pow(t, power), 2, 2).Value;
        for (var power = 0; power <= 7; power++)
        {
            var exact = Math.Pow(2, power + 1) / (power + 1);
            Assert.Equal(exact, Integrate(power), 1e-13 * exact);
        }

        Assert.NotEqual(Math.Pow(2, 9) / 9, Integrate(8), 1e-4);
    }

    [Fact]
    public void RootMeanSquare_OfASine_IsItsAmplitudeOverRootTwo()
    {
        var squares = KnownSteps.Gathered(new IntegralGauge<Square<Value>>(new(KnownSteps.Value)), t => 3 * Math.Sin(Omega * t), 10 / 1.3, 0.02);

        // The rule's error is of order (2ω·h)^8/10^9 a step.
        Assert.Equal(3 / Math.Sqrt(2), Math.Sqrt(squares.Value / (10 / 1.3)), 1e-11);
    }

    [Theory]
    [InlineData(0.02)]
    [InlineData(0.05)]
    [InlineData(0.1)]
    public void Maximum_OfADecayingSine_IsFoundBetweenNodes(double step)
    {
        const double Decay = 0.7;
        double Function(double t) => Math.Exp(-Decay * t) * Math.Sin(Omega * t);
        var time = Math.Atan2(Omega, Decay) / Omega;
        var peak = Highest(Function, 4, step);
        Assert.Equal(Function(time), peak.Value, 1e-9);

        // A smooth maximum is flat: rounding limits its time to 1e-8 of the peak's width.
        Assert.Equal(time, peak.Time, 1e-7);
    }

    [Theory]
    [InlineData(0.02)]
    [InlineData(0.05)]
    [InlineData(0.1)]
    public void Maximum_BelowZero_IsFoundBetweenNodes(double step)
    {
        // From −4 up to −1.5, which is more than twice as high: the least tyre load is such a maximum, of the load with the other sign.
        var peak = Highest(t => -4 + (2.5 * Math.Sin(Omega * t)), 0.5, step);
        Assert.Equal(-1.5, peak.Value, 1e-9);
        Assert.Equal(0.25 / 1.3, peak.Time, 1e-7);
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
        var metric = sign > 0 ? PhaseMetric.BumpTravelPeak : PhaseMetric.ReboundTravelPeak;
        Assert.Equal(0.05, LargestTravel(metric, (Left, Right, 0.3)), 1e-12);
        Assert.Equal(0.05, LargestTravel(metric, (Right, Left, 0.3)), 1e-12);
    }

    [Fact]
    public void Maximum_OfEitherSide_OfTwoSpansIsThatOfBoth()
    {
        (Func<double, double>, Func<double, double>, double) first = (t => 0.02 - t, t => 0.01 - t, 0.1), second = (t => 0.01 - t, t => 0.03 - t, 0.1);
        var metric = PhaseMetric.BumpTravelPeak;

        // The travel is made of heave and roll, and back: a rounding.
        Assert.Equal(0.02, LargestTravel(metric, first), 1e-17);
        Assert.Equal(0.03, LargestTravel(metric, second), 1e-17);
        Assert.Equal(0.03, LargestTravel(metric, first, second), 1e-17);
        Assert.Equal(0.03, LargestTravel(metric, second, first), 1e-17);
    }

    [Fact]
    public void Maximum_OfTwoSpans_IsThatOfBoth()
    {
        var gauge = new PeakGauge<Value>(KnownSteps.Value);
        var first = KnownSteps.Gathered(gauge, t => Math.Sin(Omega * t), 0.3, 0.01);
        var second = KnownSteps.Gathered(gauge, t => 2 * Math.Sin(Omega * t), 0.3, 0.01);
        Assert.Equal(second, gauge.Merge(first, second));
        Assert.Equal(second, gauge.Merge(second, first));
        Assert.Equal(first, gauge.Merge(gauge.Nothing, first));
    }

    [Fact]
    public void PositiveSpells_OfNeighbouringSpans_CountOneThatLastsAcrossOnce()
    {
        double Function(double t) => Math.Sin(Omega * t) - 0.5;
        var whole = SpellsOf(Function, 3 / 1.3, 0.01);

        // The second spell is cut in two by its middle.
        var cut = (1.0 / 1.3) + (0.25 / 1.3);
        var gauge = new SpellGauge<Value>(KnownSteps.Value);
        var first = KnownSteps.Gathered(gauge, Function, cut, cut / 100);
        var second = KnownSteps.Gathered(gauge, Function, 3 / 1.3, 0.01, from: cut);
        Assert.Equal((2, 2), (Spells.Count(first), Spells.Count(second)));
        var merged = gauge.Merge(first, second);
        Assert.Equal(3, Spells.Count(merged));
        Assert.Equal(Spells.Count(whole), Spells.Count(merged));
        Assert.Equal(Spells.Duration(whole), Spells.Duration(merged), 1e-11);
        Assert.Equal(whole.Spans!.Select(span => span.End - span.Start), merged.Spans!.Select(span => span.End - span.Start), (a, b) => Math.Abs(a - b) < 1e-11);
    }

    [Fact]
    public void PositiveSpells_OfSpansOfWhichOneHasNone_AreThoseOfTheOther()
    {
        var gauge = new SpellGauge<Value>(KnownSteps.Value);
        var (some, none) = (SpellsOf(t => Math.Sin(Omega * t) - 0.5, 1, 0.01), SpellsOf(_ => -1, 1, 0.01));
        Assert.Equal(some.Spans, gauge.Merge(some, none).Spans);
        Assert.Equal(some.Spans, gauge.Merge(none, some).Spans);
        Assert.Equal(0, Spells.Count(gauge.Merge(gauge.Nothing, none)));
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
        Assert.Equal(5, Spells.Count(spells));
        Assert.Equal(5 / 1.3 / 3, Spells.Duration(spells), 1e-11);
    }

    [Fact]
    public void PositiveSpells_FromTheStartOrOnANode_CountOnce()
    {
        // cos: above zero at the start and at the end, once in between; zeros at 0.25 + 0.5 k fall on ends of steps.
        var spells = SpellsOf(t => Math.Cos(2 * Math.PI * t), 2, 0.25);
        Assert.Equal(3, Spells.Count(spells));
        Assert.Equal(1, Spells.Duration(spells), 1e-12);

        // A stop's force: zero until it touches, then positive.
        var contact = SpellsOf(t => Math.Max(0, Math.Sin(Omega * t)), 3 / 1.3, 0.01);
        Assert.Equal(3, Spells.Count(contact));
    }

    [Fact] // cos: above zero from the start, then twice more by t = 2; the force of a stop that touches already does not begin to.
    public void Beginnings_LeaveOutTheSpellThatLastsFromBefore()
    {
        Assert.Equal(2, Spells.Beginnings(SpellsOf(t => Math.Cos(2 * Math.PI * t), 2, 0.25)));
        Assert.Equal(2, Spells.Beginnings(SpellsOf(t => Math.Max(0, Math.Cos(2 * Math.PI * t)), 2, 0.25)));
        Assert.Equal(3, Spells.Beginnings(SpellsOf(t => Math.Max(0, Math.Sin(Omega * t)), 3 / 1.3, 0.01)));
        Assert.Equal(0, Spells.Beginnings(SpellsOf(_ => 1, 1, 0.1)));

        // Put together, the spell that lasts across begins in the first span alone.
        double Touching(double t) => Math.Max(0, Math.Sin(2 * Math.PI * t));
        var gauge = new SpellGauge<Value>(KnownSteps.Value);
        var (first, second) = (KnownSteps.Gathered(gauge, Touching, 0.25, 0.05), KnownSteps.Gathered(gauge, Touching, 1.2, 0.05, from: 0.25));
        Assert.Equal((1, 1, 2), (Spells.Beginnings(first), Spells.Beginnings(second), Spells.Beginnings(gauge.Merge(first, second))));
    }

    [Fact] // 1 − 1e-15 below the top of a sine it is above zero for 2 √2e-15/ω: no part is struck for so short a time.
    public void PositiveSpells_OfAnInstant_AreNone()
    {
        var spells = SpellsOf(t => Math.Sin(Omega * t) - (1 - 1e-15), 1 / 1.3, 0.25 / 1.3);
        Assert.Equal((0, 0.0), (Spells.Count(spells), Spells.Duration(spells)));
    }

    [Fact]
    public void PositiveSpells_OfNothingPositive_AreNone()
    {
        var spells = SpellsOf(t => -Math.Abs(Math.Sin(Omega * t)), 2, 0.02);
        Assert.Equal((0, 0.0), (Spells.Count(spells), Spells.Duration(spells)));
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

    /// <summary>The peak, with its time, that one run finds by itself; the gauge for all runs finds the same height.</summary>
    private static Peak Highest(Func<double, double> function, double end, double length)
    {
        var peak = new Peak();
        KnownSteps.Show(function, end, length, step => peak.Add(step, KnownSteps.Value, KnownSteps.AtNodes(step, function)));
        Assert.Equal(peak.Value, KnownSteps.Gathered(new PeakGauge<Value>(KnownSteps.Value), function, end, length).Value);
        return peak;
    }

    private static Tally SpellsOf(Func<double, double> function, double end, double length) =>
        KnownSteps.Gathered(new SpellGauge<Value>(KnownSteps.Value), function, end, length);

    /// <summary>The metric of either side's travel over spans that follow each other, each one step.</summary>
    private static double LargestTravel(PhaseMetric metric, params ReadOnlySpan<(Func<double, double> Left, Func<double, double> Right, double End)> spans)
    {
        var tallies = new Tallies(PhaseMetric.AllGauges.Length);
        foreach (var (left, right, end) in spans)
        {
            foreach (var gauge in metric.Gauges)
            {
                var accumulator = gauge.NewAccumulator<OneLane>();
                KnownSteps.ShowTravel(left, right, end, accumulator);
                tallies.Add(gauge, accumulator.Take(0));
            }
        }

        return metric.Of(new PhaseTallies(tallies, TestCars.Find("ratios"), 1))!.Value;
    }

    private static FirstRise FirstRiseOf(Func<double, double> function, double end, double length)
    {
        var rise = default(FirstRise);
        KnownSteps.Show(function, end, length, step => rise.Add(step, KnownSteps.Value, KnownSteps.AtNodes(step, function)));
        return rise;
    }

    private static LastFall LastFallOf(Func<double, double> function, double end, double length)
    {
        var fall = default(LastFall);
        KnownSteps.Show(function, end, length, step => fall.Add(step, KnownSteps.Value, KnownSteps.AtNodes(step, function)));
        return fall;
    }
}
