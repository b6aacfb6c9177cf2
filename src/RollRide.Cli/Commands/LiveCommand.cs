using System.CommandLine;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;

namespace RollRide.Cli.Commands;

/// <summary>Opens the live page of a scenario.</summary>
internal static class LiveCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var port = new Option<int>("--port")
        {
            Description = "port of the page's address; a free one if left out",
            CustomParser = result => Number.Parse(result, 1, ushort.MaxValue) is { } value ? (int)value : 0,
            HelpName = "number",
        };
        var noBrowser = new Option<bool>("--no-browser") { Description = "only print the page's address; open no browser" };
        var command = new Command("live",
            """
            Open a scenario as a page in the browser: drag the dampers, their curves and the vehicle's numbers, see at once what changes, and
            save it as a scenario. Nothing leaves this machine. To end it, close the page or press Ctrl-C.

            Example:
              rollride live scenarios/bump-then-corner.json
            """)
        {
            scenario, port, noBrowser,
        };
        command.SetAction((parsed, cancellation) => Serve(parsed, parsed.GetRequiredValue(scenario), parsed.GetValue(port), !parsed.GetValue(noBrowser), cancellation));
        return command;
    }

    private static async Task<int> Serve(ParseResult parsed, string scenario, int port, bool opensBrowser, CancellationToken cancellation)
    {
        // A scenario with faults opens too: the page shows them until the file is mended.
        InputFile.Open(scenario, cancellation).Dispose();
        var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
        using var server = LiveServerProcess.Start(scenario, port);
        try
        {
            if (await server.Address(cancellation) is { } address)
            {
                if (opensBrowser)
                    output.WriteLine($"The page of {scenario} (to end it, close it or press Ctrl-C):");
                output.WriteLine(address);
                if (opensBrowser && !await Browser.Open(address, cancellation))
                    error.WriteLine($"No browser could be opened from here: open {address} in one on this machine.");
            }

            return await server.End(error, cancellation);
        }
        catch (OperationCanceledException)
        {
            error.WriteLine("Stopped; what was saved stays.");
            return ExitCode.Cancelled;
        }
    }
}
