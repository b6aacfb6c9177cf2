using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Roads;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

public sealed class TimeHistoryTests
{
    // More than two blocks, and not a whole number of them.
    private const double LongRate = 30_000;

    [Fact]
    public void Long_history_in_a_spool_has_the_bits_of_one_in_memory()
    {
        var spool = new MemorySpool();
        var (held, spooled) = (Recorded(LongRate, null), Recorded(LongRate, () => spool));

        Assert.True(spool.Values.Count > 2 * HistorySamples.BlockLength * ChannelTable.Count);
        Assert.Equal(held.Count, spooled.Count);
        foreach (var channel in Enum.GetValues<Channel>())
        {
            Assert.Equal(held[channel], spooled[channel]);
            var slices = (Held: held.Slice(channel, Unit.One, 0.9, 2.2), Spooled: spooled.Slice(channel, Unit.One, 0.9, 2.2));
            Assert.Equal(slices.Held.Time, slices.Spooled.Time);
            Assert.Equal(slices.Held.Value, slices.Spooled.Value);
        }

        // Across the end of a block.
        var (there, here) = (new double[100], new double[100]);
        held.Read(Channel.BodyRoll, HistorySamples.BlockLength - 50, there);
        spooled.Read(Channel.BodyRoll, HistorySamples.BlockLength - 50, here);
        Assert.Equal(there, here);
    }

    [Fact]
    public void Short_history_opens_no_spool() =>
        Assert.Equal(3001, Recorded(1000, () => throw new InvalidOperationException("It was opened.")).Count);

    [Fact]
    public void Slice_of_a_long_span_keeps_its_extremes_and_its_ends()
    {
        var history = Recorded(LongRate, null);
        var all = history[Channel.BodyAcceleration].ToArray();

        var (time, value) = history.Slice(Channel.BodyAcceleration, Unit.MetrePerSecondSquared, 0, 3);

        Assert.InRange(time.Length, 2, 4 * Thinning.DefaultColumns);
        Assert.Equal((all.Min(), all.Max(), all[0], all[^1]), (value.Min(), value.Max(), value[0], value[^1]));
        Assert.Equal((0, 3), (time[0], time[^1]));
    }

    [Fact]
    public void Channel_that_was_not_recorded_is_refused()
    {
        var history = Recorded(1000, null, Channel.BodyRoll);

        Assert.Throws<InvalidOperationException>(() => history.Read(Channel.BodyHeave, 0, new double[1]));
    }

    private static TimeHistory Recorded(double rate, Func<IHistorySpool>? spool, params Channel[] channels)
    {
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.08, 3);
        var simulation = new Simulation(Find("top mount"), manoeuvre, Tolerance(1e-4));
        var recorder = new TimeHistoryRecorder(simulation.Equations, manoeuvre.Duration, rate, channels is [] ? null : channels, spool);
        Run(simulation, null, recorder);
        return recorder.ToHistory();
    }
}
