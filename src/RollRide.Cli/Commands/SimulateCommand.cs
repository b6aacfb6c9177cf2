using System.CommandLine;

namespace RollRide.Cli.Commands;

/// <summary>Runs one layout of a scenario.</summary>
internal static class SimulateCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layout = ScenarioInput.Layout();
        var output = ScenarioInput.Out();
        var noPlots = new Option<bool>("--no-plots") { Description = "write the numbers only" };
        var command = new Command("simulate",
            """
            Run one layout of a scenario.

            Example:
              rollride simulate scenarios/bump-then-corner.json --layout Outboard --out results
            """)
        {
            scenario, layout, output, noPlots,
        };
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.Read(parsed, scenario);
            var study = ScenarioInput.Choose(read.Study, [parsed.GetValue(layout) ?? read.Study.Layouts[0].Name]);
            var result = ScenarioInput.Run(parsed, study, cancellation);
            var folder = ComparisonFolder.Write(parsed.GetValue(output)!, result, read, !parsed.GetValue(noPlots), cancellation);
            ComparisonReport.Write(parsed.InvocationConfiguration.Output, result, folder);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }
}
