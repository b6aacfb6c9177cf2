using System.Globalization;

namespace RollRide.Cli;

/// <summary>Shows the share done on one line of the terminal; nothing where errors do not go to a terminal.</summary>
internal sealed class TerminalProgress(TextWriter error) : IProgress<double>
{
    private readonly bool _shown = !Console.IsErrorRedirected;
    private int _last = -1;

    public void Report(double value)
    {
        var percent = (int)(100 * value);
        if (!_shown || percent == _last)
            return;
        _last = percent;
        error.Write(string.Create(CultureInfo.InvariantCulture, $"\r{percent,3} %{(percent >= 100 ? "\n" : "")}"));
    }
}
