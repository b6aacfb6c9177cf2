using System.Text;
using RollRide.DataFiles;

namespace RollRide.Cli.Terminals;

/// <summary>
/// Writes to one of the program's two standard streams. A line stays a line and passes no control characters on, whatever a name in
/// it holds. Where the stream cannot be written, errors go unheard and results end the command with <see cref="UnwritableOutputException"/>.
/// </summary>
/// <remarks><see cref="Write(string)"/> passes text on as it is: files, and the program's own control of the terminal.</remarks>
/// <param name="open">Opens the stream, when the first text is written.</param>
/// <param name="mustBeHeard">Whether what is written must arrive.</param>
internal sealed class TerminalWriter(Func<TextWriter> open, bool mustBeHeard) : TextWriter
{
    private readonly Lazy<TextWriter> _stream = new(open);

    /// <summary>Wraps a writer that is open.</summary>
    public TerminalWriter(TextWriter stream, bool mustBeHeard)
        : this(() => stream, mustBeHeard)
    {
    }

    /// <summary>How many characters a line of a table or of the help may have: those of the terminal where it has fewer than usual.</summary>
    public int Width { get; init; } = TextTable.UsualWidth;

    /// <summary>Whether longer lines are broken between words, as for a reader at a terminal; to a file or another program a sentence stays one line.</summary>
    public bool BreaksLines { get; init; }

    public override Encoding Encoding => Encoding.UTF8;

    public override void Write(char value) => Try(stream => stream.Write(value));

    public override void Write(char[] buffer, int index, int count) => Write(new string(buffer, index, count));

    public override void Write(string? value) => Try(stream => stream.Write(value));

    public override void WriteLine() => Try(stream => stream.WriteLine());

    public override void WriteLine(string? value) => Try(stream =>
    {
        var line = OneLine.Of(value ?? "");
        foreach (var part in BreaksLines ? TextTable.Break(line, Width) : [line])
            stream.WriteLine(part);
    });

    public override void Flush() => Try(stream => stream.Flush());

    public override Task WriteLineAsync(string? value)
    {
        WriteLine(value);
        return Task.CompletedTask;
    }

    private void Try(Action<TextWriter> write)
    {
        try
        {
            write(_stream.Value);
        }
        catch (Exception e) when (WriteFault.Is(e) || e is ObjectDisposedException)
        {
            if (mustBeHeard)
                throw new UnwritableOutputException(e is IOException ? WriteFault.Of("The standard output", e).Message : "The standard output is closed.", e);
        }
    }
}

/// <summary>The standard output cannot be written; files are not concerned.</summary>
/// <param name="message">Why.</param>
/// <param name="cause">The exception behind it.</param>
internal sealed class UnwritableOutputException(string message, Exception cause) : Exception(message, cause);
