using System.Runtime.Intrinsics;
using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Numerics;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics.Series;

public sealed class SeriesStepTests
{
    [Fact]
    public void WriteChannels_AnywhereInAnyStep_GivesWhatTheEquationsGive() => StraightCars.Any.SampleSame(15, sample =>
    {
        var simulation = new Simulation(sample.Car, sample.Manoeuvre, Tolerance(1e-7));
        Run(simulation, null, new Comparer(simulation.Equations));
    });

    [Fact]
    public void StateAt_OutsideTheStep_IsRefused()
    {
        var (car, manoeuvre) = StraightCars.Some(1)[0];
        var solver = new SeriesSolver<OneLane>();
        solver.Load(0, SeriesCar.TryCreate(car, manoeuvre)!, new double[8], Tolerance(1e-6));
        solver.Step();
        var step = new SeriesStep(solver, 0);
        Assert.Throws<ArgumentOutOfRangeException>(() => step.StateAt(step.End + 1e-3, new double[8]));
        Assert.Throws<ArgumentOutOfRangeException>(() => step.StateAt(-1e-3, new double[8]));
    }

    private sealed class Comparer(HalfCarEquations equations) : IStepObserver
    {
        private readonly double[] _rows = new double[ChannelTable.Count * GaussLobatto.Lanes];
        private readonly double[] _state = new double[8];
        private readonly double[] _expected = new double[ChannelTable.Count];

        public void Observe(IDenseStep step)
        {
            var block = (IChannelStep)step;
            var times = Vector512.Create(step.Start) + ((step.End - step.Start) * block.Rule.Places);
            block.WriteChannels(Vector512.Min(times, Vector512.Create(step.End)), _rows);
            for (var lane = 0; lane < GaussLobatto.Lanes; lane++)
            {
                var time = Math.Min(times[lane], step.End);
                step.StateAt(time, _state);
                equations.WriteChannels(time, _state, _expected);
                foreach (var channel in Enum.GetValues<Channel>())
                {
                    // Rounding of forces of some 10 kN, over masses and inertias; and at a kink the step's own piece, a hair beyond its end.
                    Assert.Equal(_expected[(int)channel], _rows[((int)channel * GaussLobatto.Lanes) + lane], 1e-7 * Math.Max(1, Math.Abs(_expected[(int)channel])));
                }
            }
        }
    }
}
