using RollRide.Cli.Terminals;

namespace RollRide.Tests.Cli;

public class ProgressLineTests
{
    [Fact]
    public void Line_appears_after_a_second_and_is_wiped_out()
    {
        var clock = new ManualClock();
        using var error = new StringWriter();
        var line = new ProgressLine(new Terminal(TextWriter.Null, error, ShowsProgress: true, clock), "Runs", 8);

        line.Report(3);
        Assert.Equal("", error.ToString());
        clock.Advance(TimeSpan.FromSeconds(2));
        Assert.Equal("\rRuns: 3 of 8, 2 s", error.ToString());
        line.Dispose();

        var shown = error.ToString();
        Assert.EndsWith("\r                 \r", shown, StringComparison.Ordinal);
        clock.Advance(TimeSpan.FromSeconds(1));
        Assert.Equal(shown, error.ToString());
    }

    [Fact]
    public void Rate_and_time_left_count_what_this_program_did_itself()
    {
        var clock = new ManualClock();
        using var error = new StringWriter();
        using var line = new ProgressLine(new Terminal(TextWriter.Null, error, ShowsProgress: true, clock), "Variants run", 1000, before: 500);

        line.Report(600);
        clock.Advance(TimeSpan.FromSeconds(4));

        // 100 in 4 s, and 400 to go.
        Assert.Equal("\rVariants run: 600 of 1000, 4 s, 25 a second, 16 s left", error.ToString());
    }

    [Fact]
    public void Nothing_is_written_where_nobody_watches()
    {
        var clock = new ManualClock();
        using var error = new StringWriter();
        using (var line = new ProgressLine(new Terminal(TextWriter.Null, error, ShowsProgress: false, clock), "Runs", 8))
        {
            line.Report(1);
            clock.Advance(TimeSpan.FromSeconds(5));
        }

        Assert.Equal("", error.ToString());
    }

    /// <summary>A clock that stands still until told; its timers fire once at each advance past their due time.</summary>
    private sealed class ManualClock : TimeProvider
    {
        private readonly List<(Action Fire, TimeSpan Due)> _timers = [];
        private TimeSpan _now;

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => _now.Ticks;

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
        {
            _timers.Add((() => callback(state), _now + dueTime));
            return new Handle();
        }

        public void Advance(TimeSpan by)
        {
            _now += by;
            foreach (var (fire, due) in _timers)
            {
                if (_now >= due)
                    fire();
            }
        }

        private sealed class Handle : ITimer
        {
            public bool Change(TimeSpan dueTime, TimeSpan period) => true;

            public void Dispose()
            {
            }

            public ValueTask DisposeAsync() => ValueTask.CompletedTask;
        }
    }
}
