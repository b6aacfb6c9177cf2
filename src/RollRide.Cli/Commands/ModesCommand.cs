using System.CommandLine;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>The linear view: modes over damper velocity, measured decays, frequency responses.</summary>
internal static class ModesCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layouts = ScenarioInput.Layouts();
        var output = ScenarioInput.Out();
        var noPlots = ScenarioInput.NoPlots();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var command = new Command("modes",
            """
            Find the natural modes of every layout: frequency and damping ratio of heave, roll, hop and tramp over damper velocity, the
            ratio a free-decay test would measure beside the linear one, and the response to road and steering from 0.1 to 50 Hz.

            Example:
              rollride modes scenarios/bump-then-corner.json --out results
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
            var result = ModesStudy.Run(study, cancellation);
            var folder = StudyFolder.Write(
                parsed.GetValue(output)!,
                [
                    ("modes.json", writer => ModesSummary.Write(writer, result, read.Warnings)),
                    ("modes.csv", writer => ModesSummary.WriteSweep(writer, result)),
                    ("responses.csv", writer => ModesSummary.WriteResponses(writer, result)),
                ],
                folder =>
                {
                    if (withPlots)
                        figures.AddFiles(parsed, folder, study.Provenance.Scenario, read.Output, [ModesOverVelocityFigure.Build(result), ResponseFigures.ToRoad(result), ResponseFigures.ToLateralAcceleration(result)], cancellation);
                },
                cancellation);
            if (parsed.GetValue(json))
                ModesSummary.Write(parsed.InvocationConfiguration.Output, result, read.Warnings);
            else
                ModesReport.Write(parsed.InvocationConfiguration.Output, result, folder);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }
}
