using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class TrajectoryTests
{
    [Fact]
    public void StateAt_AnywhereInTheRun_IsTheExactSolutionToTheTolerance()
    {
        Trajectory orbit = RecordKepler();
        Assert.Equal(0, orbit.Start);
        Assert.Equal(20, orbit.End);
        double[] state = new double[4];
        for (int i = 0; i <= 1000; i++)
        {
            double time = 20 * i / 1000.0;
            orbit.StateAt(time, state);
            // The continuous solution is of one order less than the steps that 1e-9 was asked of.
            Assert.True(ReferenceProblems.Distance(ReferenceProblems.KeplerAt(0.3, time), state) < 1e-6);
        }
    }

    [Fact]
    public void StateAt_WithAnyRememberedStep_GivesTheSame()
    {
        Trajectory orbit = RecordKepler();
        double[] plain = new double[4], remembered = new double[4];
        int step = 12345;
        foreach (double time in (double[])[0, 3.1, 3.1001, 19.9, 0.2, 20, 0])
        {
            orbit.StateAt(time, plain);
            orbit.StateAt(time, remembered, ref step);
            Assert.Equal(plain, remembered);
        }
    }

    [Theory]
    [InlineData(-1e-9)]
    [InlineData(20.000001)]
    [InlineData(double.NaN)]
    public void StateAt_OutsideTheRun_IsRefused(double time)
    {
        Trajectory orbit = RecordKepler();
        Assert.Throws<ArgumentOutOfRangeException>(() => orbit.StateAt(time, new double[4]));
    }

    [Fact]
    public void Members_NothingRecorded_SaySo()
    {
        Assert.Throws<InvalidOperationException>(() => new Trajectory().Start);
        Assert.Throws<InvalidOperationException>(() => new Trajectory().End);
        Assert.Throws<InvalidOperationException>(() => new Trajectory().StateAt(0, new double[1]));
    }

    [Fact]
    public void Observe_StepThatDoesNotFollow_IsRefused()
    {
        Trajectory orbit = RecordKepler();
        double[] state = ReferenceProblems.KeplerAt(0.3, 0);
        Assert.Throws<ArgumentException>(() => ReferenceProblems.Kepler.Run(0, 1, state, 1e-6, orbit));
    }

    private static Trajectory RecordKepler()
    {
        var trajectory = new Trajectory();
        double[] state = ReferenceProblems.KeplerAt(0.3, 0);
        ReferenceProblems.Kepler.Run(0, 20, state, 1e-9, trajectory);
        return trajectory;
    }
}
