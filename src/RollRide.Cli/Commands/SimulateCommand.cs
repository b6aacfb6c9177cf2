using System.CommandLine;
using RollRide.Cli.Terminals;

namespace RollRide.Cli.Commands;

/// <summary>Runs one layout of a scenario.</summary>
internal static class SimulateCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layout = ScenarioInput.Layout();
        var options = new ComparisonOptions();
        var command = new Command("simulate",
            """
            Run one layout of a scenario.

            Example:
              rollride simulate scenarios/bump-then-corner.json --layout Outboard --out results
            """)
        {
            scenario, layout,
        };
        options.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var read = options.Read(parsed, scenario, cancellation);
            var name = parsed.GetValue(layout);
            var study = ScenarioInput.Choose(read.Study, [name ?? read.Study.Layouts[0].Name]);
            var remark = name is null && read.Study.Layouts.Length > 1
                ? $"Layout “{study.Layouts[0].Name}”, the first of {read.Study.Layouts.Length}; --layout chooses another."
                : null;
            options.Run(parsed, read, study, remark, cancellation);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }
}
