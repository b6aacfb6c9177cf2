using RollRide.Cli;
using RollRide.Cli.Terminals;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Cli;

/// <summary>The help of every command, approved against a stored file; ROLLRIDE_UPDATE_DOCS=1 writes the files anew.</summary>
public class HelpTests
{
    [Fact]
    public void A_command_asked_for_is_made_alone_and_is_the_same_as_among_all() => Assert.All(
        CommandLine.Root().Subcommands,
        command => Assert.Equal(
            Described(command),
            Described(Assert.Single(CommandLine.Root(command.Name).Subcommands))));

    private static string Described(System.CommandLine.Command command) =>
        $"{command.Name}: {command.Description} {string.Join(' ', command.Arguments.Select(argument => argument.Name))} {string.Join(' ', command.Options.Select(option => option.Name))}";

    public static TheoryData<string> Commands => [.. CommandLine.Root().Subcommands.Select(command => command.Name).Prepend("rollride")];

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Help_is_as_approved(string command)
    {
        var help = await Invocation.Of(command == "rollride" ? ["--help"] : [command, "--help"]);

        Assert.Equal(ExitCode.Done, help.ExitCode);
        Assert.Equal("", help.Error);
        var text = help.Output.ReplaceLineEndings("\n");
        StoredText.Check(text, Shipped.PathOf("tests", "RollRide.Tests", "Cli", "Help", $"{command}.txt"));
    }

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Help_of_a_command_has_an_example_that_parses(string command)
    {
        if (command == "rollride")
            return;
        var help = await Invocation.Of(command, "--help");

        var example = Assert.Single(help.Output.Split('\n'), line => line.TrimStart().StartsWith($"rollride {command} ", StringComparison.Ordinal) && !line.Contains('[', StringComparison.Ordinal));
        Assert.Empty(CommandLine.Root().Parse(example.Trim()["rollride ".Length..]).Errors);
    }
}
