using System.CommandLine;
using RollRide.DataFiles;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Whether one setting can serve heave and roll.</summary>
internal static class WindowCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layouts = ScenarioInput.Layouts();
        var output = ScenarioInput.Out();
        var noPlots = ScenarioInput.NoPlots();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var command = new Command("window",
            """
            Find the damper settings that meet the scenario's targets for heave and roll at once, for every layout and from the centre
            of the axle to the tyre; where no setting does, say what would change that.

            Example:
              rollride window scenarios/bump-then-corner.json --out results
            """)
        {
            scenario, layouts, output, noPlots, json,
        };
        figures.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.Read(parsed, scenario);
            var withPlots = !parsed.GetValue(noPlots);
            var study = ScenarioInput.ChooseListed(read.Study, parsed.GetValue(layouts) ?? []);
            if (withPlots)
                ScenarioInput.RequireDrawable(study);
            if (study.Targets is null)
            {
                throw new DataFileException(new DataFileFault(
                    study.Provenance.File, null, "targets", null,
                    "a window needs the damping ratios asked for; add targets with rollDampingRatioMinimum, heaveDampingRatioMinimum and heaveDampingRatioMaximum"));
            }

            var result = Run(study, cancellation);
            var folder = StudyFolder.Write(
                parsed.GetValue(output)!,
                [
                    ("window.json", writer => WindowSummary.Write(writer, result, read.Warnings)),
                    ("window.csv", writer => WindowSummary.WriteByPosition(writer, result)),
                ],
                folder =>
                {
                    if (withPlots)
                        figures.AddFiles(parsed, folder, study.Provenance.Scenario, read.Output, [SettingWindowFigure.Build(result)], cancellation);
                },
                cancellation);
            if (parsed.GetValue(json))
                WindowSummary.Write(parsed.InvocationConfiguration.Output, result, read.Warnings);
            else
                WindowReport.Write(parsed.InvocationConfiguration.Output, result, folder);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }

    private static SettingWindowResult Run(StudyCase study, CancellationToken cancellation)
    {
        try
        {
            return SettingWindowStudy.Run(study, cancellation);
        }
        catch (StudyException e) when (e.InnerException is NoDampingException)
        {
            throw new DataFileException(new DataFileFault(study.Provenance.File, null, "layouts", null, e.Message), e);
        }
    }
}
