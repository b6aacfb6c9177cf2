using System.CommandLine;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Runs all layouts of a scenario and sets them side by side.</summary>
internal static class CompareCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layouts = new Option<string[]>("--layouts", "-l")
        {
            Description = "only these layouts, in this order; repeat the option or separate names by commas",
            HelpName = "names",
            AllowMultipleArgumentsPerToken = true,
        };
        var output = ScenarioInput.Out();
        var noPlots = new Option<bool>("--no-plots") { Description = "write the numbers only" };
        var ride = new RideOptions();
        var command = new Command("compare",
            """
            Run the layouts of a scenario, side by side: tables on the terminal, and summary.json, metrics.csv, a time history and
            figures in a folder.

            Example:
              rollride compare scenarios/bump-then-corner.json --out results
            """)
        {
            scenario, layouts, output, noPlots, ride.Seeds, ride.Linear,
        };
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.Read(parsed, scenario);
            var names = (parsed.GetValue(layouts) ?? []).SelectMany(name => name.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)).ToArray();
            var study = ScenarioInput.Choose(read.Study, names);
            var withPlots = !parsed.GetValue(noPlots);
            if (withPlots && study.Layouts.Length > Theme.LayoutCount)
            {
                throw new DataFileException(new DataFileFault(
                    study.Provenance.File, null, "layouts", null,
                    $"a figure can tell {Theme.LayoutCount} layouts apart, and there are {study.Layouts.Length}; choose with --layouts, or give --no-plots"));
            }

            var result = Comparison.Run(study, cancellation: cancellation);
            var seeds = ride.Run(parsed, study, cancellation);
            var folder = ComparisonFolder.Write(parsed.GetValue(output)!, result, read, seeds, withPlots, cancellation);
            ComparisonReport.Write(parsed.InvocationConfiguration.Output, result, folder);
            ride.Write(parsed, result, seeds);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }
}
