using System.CommandLine;
using RollRide.DataFiles;
using RollRide.Plots;

namespace RollRide.Cli.Commands;

/// <summary>Runs all layouts of a scenario and sets them side by side.</summary>
internal static class CompareCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layouts = ScenarioInput.Layouts();
        var output = ScenarioInput.Out();
        var noPlots = new Option<bool>("--no-plots") { Description = "write the numbers only" };
        var command = new Command("compare",
            """
            Run the layouts of a scenario, side by side: tables on the terminal, and summary.json, metrics.csv, a time history and
            figures in a folder.

            Example:
              rollride compare scenarios/bump-then-corner.json --out results
            """)
        {
            scenario, layouts, output, noPlots,
        };
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.Read(parsed, scenario);
            var study = ScenarioInput.ChooseListed(read.Study, parsed.GetValue(layouts) ?? []);
            var withPlots = !parsed.GetValue(noPlots);
            if (withPlots && study.Layouts.Length > Theme.LayoutCount)
            {
                throw new DataFileException(new DataFileFault(
                    study.Provenance.File, null, "layouts", null,
                    $"a figure can tell {Theme.LayoutCount} layouts apart, and there are {study.Layouts.Length}; choose with --layouts, or give --no-plots"));
            }

            var result = ScenarioInput.Run(parsed, study, cancellation);
            var folder = ComparisonFolder.Write(parsed.GetValue(output)!, result, read, withPlots, cancellation);
            ComparisonReport.Write(parsed.InvocationConfiguration.Output, result, folder);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }
}
