using System.CommandLine;
using System.Globalization;

namespace RollRide.Cli;

/// <summary>
/// A line on the terminal that tells how far work has come, once it lasts longer than a second; it is wiped out at the end. Where
/// nobody watches, nothing is written. Thread-safe.
/// </summary>
internal sealed class ProgressLine : IProgress<int>, IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(250);

    private readonly Lock _lock = new();
    private readonly Terminal _terminal;
    private readonly string _work;
    private readonly int _total;
    private readonly long _start;
    private readonly ITimer? _timer;
    private int _done;
    private int _width;
    private bool _ended;

    /// <summary>Starts the line.</summary>
    /// <param name="terminal">Where it is shown.</param>
    /// <param name="work">What is counted, such as "Layouts run".</param>
    /// <param name="total">How many there are.</param>
    public ProgressLine(Terminal terminal, string work, int total)
    {
        (_terminal, _work, _total, _start) = (terminal, work, total, terminal.Clock.GetTimestamp());
        if (terminal.ShowsProgress)
            _timer = terminal.Clock.CreateTimer(_ => Show(), null, Patience, Interval);
    }

    /// <summary>Starts the line of a command.</summary>
    public static ProgressLine Of(ParseResult parsed, string work, int total) =>
        new(((TerminalConfiguration)parsed.InvocationConfiguration).Terminal, work, total);

    /// <inheritdoc/>
    public void Report(int value)
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
            var text = string.Create(CultureInfo.InvariantCulture, $"{_work}: {_done} of {_total}, {_terminal.Clock.GetElapsedTime(_start).TotalSeconds:F0} s");
            _terminal.Error.Write($"\r{text.PadRight(_width)}");
            _terminal.Error.Flush();
            _width = text.Length;
        }
    }
}
