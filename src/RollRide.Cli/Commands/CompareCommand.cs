using System.CommandLine;
using RollRide.Plots.Figures;

namespace RollRide.Cli.Commands;

/// <summary>Runs all layouts of a scenario and sets them side by side.</summary>
internal static class CompareCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layouts = ScenarioInput.Layouts();
        var output = ScenarioInput.Out();
        var noPlots = ScenarioInput.NoPlots();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var ride = new RideOptions();
        var command = new Command("compare",
            """
            Run the layouts of a scenario, side by side: tables on the terminal, and summary.json, metrics.csv, a time history and
            figures in a folder.

            Example:
              rollride compare scenarios/bump-then-corner.json --out results
            """)
        {
            scenario, layouts, output, noPlots, ride.Seeds, ride.Linear, json,
        };
        figures.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.Read(parsed, scenario);
            var study = ScenarioInput.ChooseListed(read.Study, parsed.GetValue(layouts) ?? []);
            var withPlots = !parsed.GetValue(noPlots);
            if (withPlots)
                ScenarioInput.RequireDrawable(study);
            var size = figures.Size(parsed, read.Output);
            ride.RequireRandomRoad(parsed, study);
            var result = ScenarioInput.Run(parsed, study, cancellation);
            var seeds = ride.Run(parsed, study, cancellation);
            var folder = ComparisonFolder.Write(
                parsed.GetValue(output)!, result, read, seeds,
                withPlots ? folder => figures.AddFiles(parsed, folder, study.Provenance.Scenario, ComparisonFigures.All(result, size), cancellation) : null,
                cancellation);
            ComparisonReport.Answer(parsed, json, result, read, folder);
            if (!parsed.GetValue(json))
                ride.Write(parsed, result, seeds);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }
}
