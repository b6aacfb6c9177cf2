using System.CommandLine;
using System.Globalization;

namespace RollRide.Cli.Commands;

/// <summary>Shows on a terminal how much is done; writes nothing where the messages go to a file.</summary>
internal sealed class ProgressLine : IProgress<double>
{
    private readonly TextWriter _error;
    private readonly Lock _lock = new();
    private int _shown = -1;

    private ProgressLine(TextWriter error) => _error = error;

    /// <summary>The progress of one command; null where nobody looks at it.</summary>
    public static ProgressLine? To(ParseResult parsed) =>
        parsed.InvocationConfiguration.Error == Console.Error && !Console.IsErrorRedirected ? new ProgressLine(Console.Error) : null;

    /// <inheritdoc/>
    public void Report(double value)
    {
        lock (_lock)
        {
            var percent = (int)(100 * value);
            if (percent <= _shown)
                return;
            _shown = percent;
            _error.Write(string.Create(CultureInfo.InvariantCulture, $"\r{percent,3} % of the runs done{(percent == 100 ? "\n" : "")}"));
        }
    }
}
