using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class IntegratorTests
{
    private static readonly FunctionSystem Decay = new(1, (_, y, f) => f[0] = -y[0]);

    [Fact]
    public void Run_WithBreakpoints_LandsOnEachAndEvaluatesOnlyInsideTheSegmentEntered()
    {
        var evaluations = new List<(int Segment, double Time)>();
        FunctionSystem? system = null;
        system = new FunctionSystem(1, (t, y, f) =>
        {
            evaluations.Add((system!.Segments.Count - 1, t));
            f[0] = system.Segments[^1].Start >= 0.3 ? 1 : 0;
        });
        var steps = new List<(double Start, double End)>();
        double[] state = [0];
        // Unordered, doubled, doubled to rounding, at the ends and outside.
        double[] breakpoints = [0.7, 0.3, 0.3, 0.1 + 0.2, -1, 0, 1, 5, double.PositiveInfinity];
        Integrator.Run(system, 0, 1, state, breakpoints, new IntegratorOptions(), new StepAction(s => steps.Add((s.Start, s.End))), TestContext.Current.CancellationToken);

        Assert.Equal([(0, 0.3), (0.3, 0.7), (0.7, 1)], system.Segments);
        Assert.All(evaluations, e => Assert.InRange(e.Time, system.Segments[e.Segment].Start, system.Segments[e.Segment].End));
        Assert.All(steps, s => Assert.Contains(system.Segments, g => g.Start <= s.Start && s.End <= g.End));
        Assert.All(system.Segments, g => Assert.Contains(steps, s => s.End == g.End));
        // The jump of the rate at 0.3 s is met exactly: only the sum of some hundred steps rounds.
        Assert.Equal(0.7, state[0], 1e-14);
    }

    [Fact]
    public void Run_KinkAtABreakpoint_IsAsAccurateAsWithoutKink()
    {
        // ẏ = |cos 2πt| over one period gives 2/π; its kinks are at 1/4 and 3/4.
        var system = new FunctionSystem(1, (t, _, f) => f[0] = Math.Abs(Math.Cos(2 * Math.PI * t)));
        double[] state = [0];
        RunStatistics run = Integrator.Run(system, 0, 1, state, [0.25, 0.75], FunctionSystem.Tight(1e-10), null, TestContext.Current.CancellationToken);
        Assert.Equal(2 / Math.PI, state[0], run.AcceptedSteps * 1e-10);
        Assert.Equal(0, run.RejectedSteps);
    }

    [Fact]
    public void Run_WithAndWithoutObserver_GivesTheSameStateToTheLastBit()
    {
        double[] alone = [1.5, 3], watched = [1.5, 3];
        RunStatistics first = ReferenceProblems.Brusselator.Run(0, 20, alone, 1e-7);
        RunStatistics second = ReferenceProblems.Brusselator.Run(0, 20, watched, 1e-7, new Trajectory());
        Assert.Equal(alone, watched);
        Assert.Equal(first, second);
    }

    [Fact]
    public void Run_TenTimesAsLong_AllocatesNoMore()
    {
        long Allocated(double end) => Allocation.Of(() => ReferenceProblems.Kepler.Run(0, end, ReferenceProblems.KeplerAt(0.3, 0), 1e-8));

        Assert.Equal(Allocated(100), Allocated(1000));
    }

    [Fact]
    public void Run_Always_CountsStepsAndEvaluations()
    {
        int evaluations = 0, observed = 0;
        var system = new FunctionSystem(1, (t, y, f) =>
        {
            evaluations++;
            f[0] = y[0] * Math.Sin(20 * t);
        });
        double[] state = [1];
        RunStatistics run = system.Run(0, 3, state, 1e-6, new StepAction(_ => observed++));
        Assert.Equal(evaluations, run.DerivativeEvaluations);
        Assert.Equal(observed, run.AcceptedSteps);
        // Two evaluations to start, six a step tried.
        Assert.Equal(2 + 6 * (run.AcceptedSteps + run.RejectedSteps), run.DerivativeEvaluations);
    }

    [Fact]
    public void Run_WithStepLimits_KeepsThem()
    {
        var lengths = new List<double>();
        double[] state = [1];
        var options = new IntegratorOptions { MaximumStep = 0.013, InitialStep = 1e-4 };
        Integrator.Run(Decay, 0, 1, state, [], options, new StepAction(s => lengths.Add(s.End - s.Start)), TestContext.Current.CancellationToken);
        // To the rounding of a time of 1 s.
        Assert.Equal(1e-4, lengths[0], 1e-15);
        Assert.InRange(lengths.Max(), 0.01, 0.013 + 1e-15);
    }

    [Fact]
    public void Run_SystemAtRest_StaysAtRestWithFewSteps()
    {
        var system = new FunctionSystem(2, (_, y, f) => (f[0], f[1]) = (y[1], -y[0]));
        double[] state = [0, 0];
        RunStatistics run = system.Run(0, 100, state, 1e-6);
        Assert.Equal([0, 0], state);
        // From the cautious first step of 1e-6 s, growing fivefold: 1e8 = 5^11.4.
        Assert.InRange(run.AcceptedSteps, 1, 15);
    }

    [Fact]
    public void Run_FiniteEscapeTime_StopsThereAndNamesTheState()
    {
        // ẏ2 = y2² from 1 has the solution 1/(1 − t).
        var system = new FunctionSystem(2, (_, y, f) => (f[0], f[1]) = (1, y[1] * y[1]));
        double[] state = [0, 1];
        var stop = Assert.Throws<IntegrationException>(() => system.Run(0, 2, state, 1e-8));
        Assert.Equal("y2", stop.StateName);
        Assert.Equal(1, stop.Time, 1e-6);
        Assert.True(stop.StepSize > 0);
        Assert.Contains("y2", stop.Message, StringComparison.Ordinal);
        Assert.Contains("t = 1 s", stop.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Run_DerivativeBecomesNonFinite_StopsThereAndNamesTheState(double fault)
    {
        var system = new FunctionSystem(3, (t, y, f) => (f[0], f[1], f[2]) = (y[1], t > 0.5 ? fault : -y[0], 1));
        double[] state = [1, 0, 0];
        var stop = Assert.Throws<IntegrationException>(() => system.Run(0, 1, state, 1e-6));
        Assert.Equal("y2", stop.StateName);
        // Steps shrink onto the fault from below, to a few roundings of time.
        Assert.InRange(stop.Time, 0.5 - 1e-12, 0.5);
    }

    [Theory]
    [InlineData(double.NaN, 1)]
    [InlineData(1, double.PositiveInfinity)]
    public void Run_NonFiniteAtTheStart_StopsAtOnce(double initial, double rate)
    {
        var system = new FunctionSystem(2, (_, _, f) => (f[0], f[1]) = (0, rate));
        var stop = Assert.Throws<IntegrationException>(() => system.Run(3, 4, [0, initial], 1e-6));
        Assert.Equal("y2", stop.StateName);
        Assert.Equal(3, stop.Time);
        Assert.Equal(0, stop.StepSize);
    }

    [Fact]
    public void Run_TrialStepLeavesTheDomain_IsRetriedSmaller()
    {
        // ẏ = −10 √y from 1: y = (1 − 5t)², which a long trial step makes negative.
        int outside = 0;
        var system = new FunctionSystem(1, (_, y, f) =>
        {
            if (y[0] < 0) outside++;
            f[0] = -10 * Math.Sqrt(y[0]);
        });
        double[] state = [1];
        var options = FunctionSystem.Tight(1e-9) with { InitialStep = 0.199 };
        RunStatistics run = Integrator.Run(system, 0, 0.199, state, [], options, null, TestContext.Current.CancellationToken);
        Assert.True(outside > 0);
        Assert.True(run.RejectedSteps > 0);
        Assert.Equal(0.005 * 0.005, state[0], run.AcceptedSteps * 1e-9);
    }

    [Fact]
    public void Run_NoStepShortEnough_StopsAndNamesTheStateWithTheLargestError()
    {
        // Noise of 1e20 from one evaluation to the next: not a function of time and state at all.
        int evaluations = 0;
        var system = new FunctionSystem(2, (_, _, f) => (f[0], f[1]) = (1, 1e20 * (evaluations++ % 2 == 0 ? 1 : -1)));
        double[] state = [0, 0];
        var stop = Assert.Throws<IntegrationException>(() => system.Run(0, 1, state, 1e-6));
        Assert.Equal("y2", stop.StateName);
        Assert.Contains("short enough", stop.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_TooManySteps_StopsAndNamesTheStateWithTheLargestError()
    {
        var system = new FunctionSystem(2, (t, _, f) => (f[0], f[1]) = (0, Math.Sin(1000 * t)));
        double[] state = [0, 0];
        var options = FunctionSystem.Tight(1e-8) with { MaximumSteps = 50 };
        var stop = Assert.Throws<IntegrationException>(() => Integrator.Run(system, 0, 10, state, [], options, null, TestContext.Current.CancellationToken));
        Assert.Equal("y2", stop.StateName);
        Assert.Contains("50 steps", stop.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_Cancelled_StopsSoon()
    {
        using var source = new CancellationTokenSource();
        int steps = 0;
        var observer = new StepAction(_ =>
        {
            if (++steps == 250) source.Cancel();
        });
        var options = new IntegratorOptions { MaximumStep = 1e-3 };
        Assert.Throws<OperationCanceledException>(() => Integrator.Run(Decay, 0, 10, new double[] { 1 }, [], options, observer, source.Token));
        Assert.InRange(steps, 250, 350);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(1, 0)]
    [InlineData(double.NaN, 1)]
    [InlineData(0, double.PositiveInfinity)]
    public void Run_SpanNotInOrderOrNotFinite_IsRefused(double start, double end) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Decay.Run(start, end, [1], 1e-6));

    [Fact]
    public void Run_WrongNumberOfStatesOrBreakpointNotANumber_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => Decay.Run(0, 1, [1, 2], 1e-6));
        Assert.Throws<ArgumentException>(() => Integrator.Run(Decay, 0, 1, new double[] { 1 }, [double.NaN], new IntegratorOptions(), null, TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1e-6)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void Options_RelativeToleranceOutOfRange_IsRefused(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new IntegratorOptions { RelativeTolerance = value });

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void Options_OtherLimitsNotPositive_AreRefused(double value)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new IntegratorOptions { AbsoluteTolerance = value });
        Assert.Throws<ArgumentOutOfRangeException>(() => new IntegratorOptions { MaximumStep = value });
        Assert.Throws<ArgumentOutOfRangeException>(() => new IntegratorOptions { InitialStep = value });
    }

    [Fact]
    public void Options_NoStepsAllowed_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new IntegratorOptions { MaximumSteps = 0 });
}
