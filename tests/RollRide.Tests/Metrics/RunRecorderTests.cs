using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Tests.Numerics;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Metrics;

public sealed class RunRecorderTests
{
    [Theory]
    [InlineData("ratios")]
    [InlineData("mounts, gas, friction, stops")]
    [InlineData("top mount")]
    [InlineData("duals")]
    public void Observe_AnyStep_AllocatesNothing(string name)
    {
        var car = Find(name);

        // After 20 s all is as good as at rest, so that hardly a peak or crossing is left to be searched.
        var (shortRun, longRun) = (BumpThenTurn(RoadSide.Left, 0.05, 3, 20), BumpThenTurn(RoadSide.Left, 0.05, 3, 30));
        var steps = Steps(longRun) - Steps(shortRun);
        Assert.True(steps > 400);

        // An object takes 24 bytes at least: were there one a step, or one in four, it would show. A search now and then may leave its own.
        Assert.InRange(Allocation.Of(() => Measured(longRun)) - Allocation.Of(() => Measured(shortRun)), long.MinValue, 6 * steps);

        long Steps(Manoeuvre manoeuvre) => Measured(manoeuvre).AcceptedSteps;

        RunStatistics Measured(Manoeuvre manoeuvre)
        {
            var simulation = new Simulation(car, manoeuvre, new IntegratorOptions());
            return Run(simulation, null, new RunRecorder(simulation.Equations, manoeuvre));
        }
    }
}
