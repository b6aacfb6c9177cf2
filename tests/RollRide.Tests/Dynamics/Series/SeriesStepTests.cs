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
    public void Channels_InFourLanesAndInEight_AreTheSameToTheLastDigit() => StraightCars.Any.SampleSame(5, sample =>
        Run(new Simulation(sample.Car, sample.Manoeuvre, Tolerance(1e-4)), null, new Widths()));

    [Fact]
    public void WriteMotions_AnywhereInAnyStep_GivesWhatTheChannelsGive() => StraightCars.Any.SampleSame(5, sample =>
        Run(new Simulation(sample.Car, sample.Manoeuvre, Tolerance(1e-7)), null, new Motions()));

    [Fact]
    public void History_OfSomeChannels_HasTheDigitsOfTheHistoryOfAll()
    {
        var (car, manoeuvre) = StraightCars.Some(1)[0];
        Channel[] some = [Channel.BodyRoll, Channel.UnsprungHeaveRate, Channel.BodyAcceleration, Channel.SeatAcceleration, Channel.TyreLoadLeft];
        var (all, few) = (Record(null), Record(some));
        foreach (var channel in some)
            Assert.Equal(all[channel].ToArray(), few[channel].ToArray());
        Assert.Throws<InvalidOperationException>(() => few[Channel.BodyHeave].Length);

        TimeHistory Record(Channel[]? channels)
        {
            var simulation = new Simulation(car, manoeuvre, Tolerance(1e-4));
            var recorder = new TimeHistoryRecorder(simulation.Equations, manoeuvre.Duration, 1000, channels);
            Run(simulation, null, recorder);
            return recorder.ToHistory();
        }
    }

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

    /// <summary>Instants of a step: more than a vector, and no whole number of pairs of them.</summary>
    private static double[] SinceStart(IDenseStep step) => [.. Enumerable.Range(0, 24).Select(i => (step.End - step.Start) * i / 24)];

    private static double[][] NewMotions() => [.. Enumerable.Range(0, ChannelTable.Count).Select(_ => new double[26])];

    private sealed class Widths : IStepObserver
    {
        private readonly double[] _four = new double[ChannelTable.Count * GaussLobatto.Lanes];
        private readonly double[] _eight = new double[ChannelTable.Count * GaussLobatto.Lanes];

        public void Observe(IDenseStep step)
        {
            var series = (SeriesStep)step;
            var times = Octet.All(step.Start) + (Octet.All(step.End - step.Start) * series.Rule.Places);
            series.WriteChannels(new EightLanes(Vector512.Create(times.Lower, times.Upper)), _eight);
            series.WriteChannels(new FourLanes(times.Lower), _four);
            series.WriteChannels(new FourLanes(times.Upper), _four.AsSpan(4));
            Assert.Equal(_eight, _four);

            var (four, eight) = (NewMotions(), NewMotions());
            series.WriteMotions<FourLanes>(SinceStart(step), four, 1);
            series.WriteMotions<EightLanes>(SinceStart(step), eight, 1);
            Assert.Equal(eight, four);
        }
    }

    private sealed class Motions : IStepObserver
    {
        private readonly double[] _rows = new double[ChannelTable.Count * GaussLobatto.Lanes];

        public void Observe(IDenseStep step)
        {
            var (block, motions, sinceStart) = ((IChannelStep)step, NewMotions(), SinceStart(step));
            block.WriteMotions(sinceStart, motions, 2);
            for (var i = 0; i < sinceStart.Length; i++)
            {
                block.WriteChannels(Octet.All(step.Start + sinceStart[i]), _rows);
                for (var row = 0; row <= (int)IChannelStep.LastMotion; row++)
                {
                    var (expected, found) = (_rows[row * GaussLobatto.Lanes], motions[row][2 + i]);

                    // Rounding of the time; of an acceleration also the terms left out.
                    Assert.Equal(expected, found, (row < 8 ? 1e-12 : 1e-5) * Math.Max(1, Math.Abs(expected)));
                }
            }
        }
    }

    private sealed class Comparer(HalfCarEquations equations) : IStepObserver
    {
        private readonly double[] _rows = new double[ChannelTable.Count * GaussLobatto.Lanes];
        private readonly double[] _state = new double[8];
        private readonly double[] _expected = new double[ChannelTable.Count];

        public void Observe(IDenseStep step)
        {
            var block = (IChannelStep)step;
            var times = Octet.All(step.Start) + (Octet.All(step.End - step.Start) * block.Rule.Places);
            block.WriteChannels(Octet.Min(times, Octet.All(step.End)), _rows);
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
