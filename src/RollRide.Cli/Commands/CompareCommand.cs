using System.CommandLine;
using RollRide.Cli.Terminals;

namespace RollRide.Cli.Commands;

/// <summary>Runs all layouts of a scenario and sets them side by side.</summary>
internal static class CompareCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layouts = ScenarioInput.Layouts();
        var options = new ComparisonOptions();
        var command = new Command("compare",
            """
            Run the layouts of a scenario and recommend one: decision, tables and conclusions on the terminal; summary.json, metrics.csv,
            time histories and figures in a folder.

            Example:
              rollride compare scenarios/bump-then-corner.json --out results
            """)
        {
            scenario, layouts,
        };
        options.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var read = options.Read(parsed, scenario, cancellation);
            var study = ScenarioInput.ChooseListed(read.Study, parsed.GetValue(layouts) ?? []);
            options.Run(parsed, read, study, remark: null, cancellation);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }
}
