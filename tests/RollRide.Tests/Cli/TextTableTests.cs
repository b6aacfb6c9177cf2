using RollRide.Cli.Terminals;

namespace RollRide.Tests.Cli;

public class TextTableTests
{
    [Theory]
    [InlineData(-0.004, 2, "0.00")]
    [InlineData(-0.006, 2, "-0.01")]
    [InlineData(-10.0, 0, "-10")]
    [InlineData(-0.2, 0, "0")]
    [InlineData(null, 2, "–")]
    public void Number_that_rounds_to_zero_has_no_sign(double? value, int decimals, string shown) => Assert.Equal(shown, TextTable.Number(value, decimals));

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

    [Fact]
    public void Table_that_is_too_wide_for_the_terminal_is_turned()
    {
        var table = new TextTable("Layout", "spring preload [N]", "compression left [mm]", "rebound left [mm]", "roll ratio");
        table.Add("Outboard", "6619", "140.4", "99.6", "0.770");
        table.Add("Inboard", "6619", "140.4", "99.6", "0.505");

        Assert.Equal(
            """
            Layout                 Outboard  Inboard
            ────────────────────────────────────────
            spring preload [N]         6619     6619
            compression left [mm]     140.4    140.4
            rebound left [mm]          99.6     99.6
            roll ratio                0.770    0.505

            """.ReplaceLineEndings("\n"),
            Written(table, 42));
    }

    [Fact]
    public void Texts_that_leave_no_room_are_broken()
    {
        var table = new TextTable("", "unit", "limit outboard");
        table.Add("Outboard of the rail", "", "upper tube against the brake");
        table.Add("Inboard", "", "rail");

        Assert.Equal(
            """
                              unit    limit outboard
            ────────────────────────────────────────
            Outboard of the               upper tube
            rail                         against the
                                               brake
            Inboard                             rail

            """.ReplaceLineEndings("\n"),
            Written(table, 40));
    }

    [Fact]
    public void Headings_need_no_room_and_numbers_stay_on_one_line()
    {
        var table = new TextTable("", "unit", "mean", "misses [%]");
        table.Add("[Body acceleration over the bump]");
        table.Add("Inboard of the rail, kerb", "m/s²", "0.878", "21.0 (15.6 to 27.3)");

        Assert.Equal(
            """
                              unit   mean           misses [%]
            ──────────────────────────────────────────────────
            [Body acceleration over the bump]
            Inboard of the    m/s²  0.878  21.0 (15.6 to 27.3)
            rail, kerb

            """.ReplaceLineEndings("\n"),
            Written(table, 50));
    }

    [Fact]
    public void Columns_that_do_not_fit_beside_each_other_stand_in_blocks()
    {
        var table = new TextTable("", "unit", "First", "Second", "Third");
        table.Add("Roll", "deg", "1.25", "2.50", "3.75");

        Assert.Equal(
            """
                  unit  First  Second
            ─────────────────────────
            Roll   deg   1.25    2.50

                  unit  Third
            ─────────────────
            Roll   deg   3.75

            """.ReplaceLineEndings("\n"),
            Written(table, 26));
    }

    private static string Written(TextTable table, int width)
    {
        using var text = new StringWriter { NewLine = "\n" };
        using var terminal = new TerminalWriter(text, mustBeHeard: true) { Width = width };
        table.Write(terminal);
        return text.ToString();
    }
}
