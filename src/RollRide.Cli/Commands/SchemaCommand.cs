using System.CommandLine;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Scenarios;

namespace RollRide.Cli.Commands;

/// <summary>Prints the JSON Schema of a scenario file.</summary>
internal static class SchemaCommand
{
    public static Command Create()
    {
        var output = new Option<string?>("--out", "-o") { Description = "write it to this file instead of the terminal", HelpName = "file" };
        var command = new Command("schema",
            """
            Print the JSON Schema of a scenario file, so that an editor can complete and check keys. Name it in a scenario as "$schema".

            Example:
              rollride schema --out scenario.schema.json
            """)
        {
            output,
        };
        command.SetAction(parsed =>
        {
            var text = ScenarioReader.Schema();
            if (parsed.GetValue(output) is { } path)
                AtomicFile.Write(path, writer => writer.Write(text));
            else
                parsed.InvocationConfiguration.Output.Write(text);
            return ExitCode.Done;
        });
        return command;
    }
}
