using System.CommandLine;
using System.Globalization;

namespace RollRide.Cli.Terminals;

/// <summary>
/// A line on the terminal that tells how far work has come, once it lasts longer than a second; it is wiped out at the end. Where
/// nobody watches, nothing is written. Thread-safe.
/// </summary>
internal sealed class ProgressLine : IProgress<int>, IProgress<long>, IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(250);

    private readonly Lock _lock = new();
    private readonly Terminal _terminal;
    private readonly string _work;
    private readonly long _total;
    private readonly long? _before;
    private readonly long _start;
    private readonly ITimer? _timer;
    private long _done;
    private int _width;
    private bool _ended;

    /// <summary>Starts the line.</summary>
    /// <param name="terminal">Where it is shown.</param>
    /// <param name="work">What is counted, such as "Layouts run".</param>
    /// <param name="total">How many there are.</param>
    /// <param name="before">How many were done before the program started; if given, rate and time left are shown too.</param>
    public ProgressLine(Terminal terminal, string work, long total, long? before = null)
    {
        (_terminal, _work, _total, _before, _start) = (terminal, work, total, before, terminal.Clock.GetTimestamp());
        _done = before ?? 0;
        if (terminal.ShowsProgress)
            _timer = terminal.Clock.CreateTimer(_ => Show(), null, Patience, Interval);
    }

    /// <summary>Starts the line of a command.</summary>
    public static ProgressLine Of(ParseResult parsed, string work, long total, long? before = null) =>
        new(((TerminalConfiguration)parsed.InvocationConfiguration).Terminal, work, total, before);

    /// <inheritdoc/>
    public void Report(int value) => Report((long)value);

    /// <inheritdoc/>
    public void Report(long value)
    {
        lock (_lock)
            _done = Math.Max(_done, value);
    }

    /// <summary>Wipes the line out.</summary>
    public void Dispose()
    {
        _timer?.Dispose();
        lock (_lock)
        {
            _ended = true;
            if (_width > 0)
                _terminal.Error.Write($"\r{new string(' ', _width)}\r");
        }
    }

    private void Show()
    {
        lock (_lock)
        {
            if (_ended)
                return;
            var seconds = _terminal.Clock.GetElapsedTime(_start).TotalSeconds;
            var text = string.Create(CultureInfo.InvariantCulture, $"{_work}: {_done} of {_total}, {seconds:F0} s");
            if (_done > _before)
            {
                var rate = (_done - _before.Value) / seconds;
                text += string.Create(CultureInfo.InvariantCulture, $", {rate:G3} a second, {(_total - _done) / rate:F0} s left");
            }

            _terminal.Error.Write($"\r{text.PadRight(_width)}");
            _terminal.Error.Flush();
            _width = text.Length;
        }
    }
}
