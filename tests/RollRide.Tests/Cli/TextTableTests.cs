using RollRide.Cli;

namespace RollRide.Tests.Cli;

public class TextTableTests
{
    [Fact]
    public void Table_is_aligned_and_breaks_long_names_in_its_header()
    {
        var table = new TextTable("", "unit", "Outboard of the rail, softer", "B");
        table.Add("Roll", "deg", "1.25", "-10.5");
        table.AddGap();
        table.Add("[end]");
        using var output = new StringWriter { NewLine = "\n" };

        table.Write(output);

        Assert.Equal(
            """
                         Outboard of the
                   unit     rail, softer      B
            ───────────────────────────────────
            Roll    deg             1.25  -10.5

            [end]

            """.ReplaceLineEndings("\n"),
            output.ToString());
    }
}
