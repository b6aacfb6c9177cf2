using System.Text;
using RollRide.Cli.Terminals;

namespace RollRide.Tests.Cli;

public class TerminalWriterTests
{
    [Fact]
    public async Task Lines_pass_no_control_characters_on_and_other_text_stays_as_it_is()
    {
        using var shown = new StringWriter { NewLine = "\n" };
        using var writer = new TerminalWriter(shown, mustBeHeard: true);

        writer.WriteLine("a\u001b[31m\nb");
        await writer.WriteLineAsync("c\rd");
        writer.WriteLine();
        writer.Write("{\n}\u001b");
        writer.Write('x');
        writer.WriteLine((string?)null);

        Assert.Equal("a�[31m�b\nc�d\n\n{\n}\u001bx\n", shown.ToString());
    }

    [Theory]
    [InlineData(true, "at a terminal a sentence\nbreaks between its words\n\nverylongwordsstaywhole\n")]
    [InlineData(false, "at a terminal a sentence breaks between its words\n\nverylongwordsstaywhole\n")] // to a file it stays one line
    public void Lines_break_between_words_where_they_are_to(bool breaksLines, string expected)
    {
        using var shown = new StringWriter { NewLine = "\n" };
        using var writer = new TerminalWriter(shown, mustBeHeard: true) { Width = 24, BreaksLines = breaksLines };

        writer.WriteLine("at a terminal a sentence breaks between its words");
        writer.WriteLine("");
        writer.WriteLine("verylongwordsstaywhole");

        Assert.Equal(expected, shown.ToString());
    }

    [Fact]
    public void Errors_that_cannot_be_written_go_unheard()
    {
        using var full = new TerminalWriter(new FullWriter(), mustBeHeard: false);
        full.WriteLine("fault");
        full.Write("\rprogress");
        full.Flush();
        using var closed = new TerminalWriter(() => throw new UnauthorizedAccessException(), mustBeHeard: false);
        closed.WriteLine("fault");
    }

    [Fact]
    public void Results_that_cannot_be_written_end_the_command()
    {
        using var full = new TerminalWriter(new FullWriter(), mustBeHeard: true);
        Assert.Equal("The standard output cannot be written: no room.", Assert.Throws<UnwritableOutputException>(() => full.WriteLine("result")).Message);
        using var closed = new TerminalWriter(() => throw new UnauthorizedAccessException(), mustBeHeard: true);
        Assert.Equal("The standard output is closed.", Assert.Throws<UnwritableOutputException>(() => closed.Write("result")).Message);
    }

    private sealed class FullWriter : TextWriter
    {
        public override Encoding Encoding => Encoding.UTF8;

        public override void Write(char value) => throw new IOException("no room");

        public override void Write(string? value) => throw new IOException("no room");

        public override void WriteLine(string? value) => throw new IOException("no room");

        public override void Flush() => throw new IOException("no room");
    }
}
