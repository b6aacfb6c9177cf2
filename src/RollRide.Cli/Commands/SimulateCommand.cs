using System.CommandLine;
using RollRide.Plots.Figures;

namespace RollRide.Cli.Commands;

/// <summary>Runs one layout of a scenario.</summary>
internal static class SimulateCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layout = ScenarioInput.Layout();
        var output = ScenarioInput.Out();
        var noPlots = ScenarioInput.NoPlots();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var ride = new RideOptions();
        var command = new Command("simulate",
            """
            Run one layout of a scenario.

            Example:
              rollride simulate scenarios/bump-then-corner.json --layout Outboard --out results
            """)
        {
            scenario, layout, output, noPlots, ride.Seeds, ride.Linear, json,
        };
        figures.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.Read(parsed, scenario);
            var study = ScenarioInput.Choose(read.Study, [parsed.GetValue(layout) ?? read.Study.Layouts[0].Name]);
            var size = figures.Size(parsed, read.Output);
            ride.RequireRandomRoad(parsed, study);
            var result = ScenarioInput.Run(parsed, study, cancellation);
            var seeds = ride.Run(parsed, study, cancellation);
            var folder = ComparisonFolder.Write(
                parsed.GetValue(output)!, result, read, seeds,
                parsed.GetValue(noPlots) ? null : folder => figures.AddFiles(parsed, folder, study.Provenance.Scenario, ComparisonFigures.All(result, size), cancellation),
                cancellation);
            if (parsed.GetValue(layout) is null && read.Study.Layouts.Length > 1 && !parsed.GetValue(json))
                parsed.InvocationConfiguration.Output.WriteLine($"Layout '{study.Layouts[0].Name}', the first of {read.Study.Layouts.Length}; --layout chooses another.");
            ComparisonReport.Answer(parsed, json, result, read, folder);
            if (!parsed.GetValue(json))
                ride.Write(parsed, result, seeds);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }
}
