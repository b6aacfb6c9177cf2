using RollRide.Cli;
using RollRide.Cli.Terminals;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Cli;

/// <summary>Every table of the shipped scenarios stays whole on a terminal of 80 columns.</summary>
public class NarrowTerminalTests
{
    public static TheoryData<string> Scenarios => [.. Shipped.Scenarios];

    [Theory]
    [MemberData(nameof(Scenarios))]
    public Task Check_has_no_table_wider_than_the_terminal(string scenario) => NoTableIsWiderAsync("check", Shipped.Scenario(scenario));

    [Theory]
    [InlineData("lorry.json")] // two axles
    [InlineData("independent-front.json")] // long names
    public async Task Compare_has_no_table_wider_than_the_terminal(string scenario)
    {
        using var folder = new TemporaryFolder();
        await NoTableIsWiderAsync("compare", Shipped.Scenario(scenario), "--no-plots", "--no-history", "--out", folder["out"]);
    }

    private static async Task NoTableIsWiderAsync(params string[] arguments)
    {
        using var text = new StringWriter { NewLine = "\n" };
        await using var output = new TerminalWriter(text, mustBeHeard: true) { Width = TextTable.NarrowWidth };
        Assert.Equal(ExitCode.Done, await CommandLine.RunAsync(arguments, new Terminal(output, TextWriter.Null, ShowsProgress: false, TimeProvider.System), TestContext.Current.CancellationToken));

        // Columns stand two spaces apart; a sentence has none such, and the terminal breaks it.
        var rows = text.ToString().Split('\n').Where(line => line.Trim().Contains("  ", StringComparison.Ordinal) || line.Contains('─', StringComparison.Ordinal)).ToArray();
        Assert.True(rows.Length > 10, $"{rows.Length} lines of tables were looked at.");
        Assert.All(rows, row => Assert.InRange(row.Length, 0, TextTable.NarrowWidth));
    }
}
