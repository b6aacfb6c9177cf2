using System.CommandLine;
using RollRide.DataFiles;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Whether one setting can serve heave and roll.</summary>
internal static class WindowCommand
{
    public static Command Create() => new StudyCommand<SettingWindowResult>
    {
        Name = "window",
        Description =
            """
            Find the damper settings that meet the scenario's targets for heave and roll at once, for every layout and from the centre
            of the axle to the tyre; where no setting does, say what would change that. With load states also say which setting serves
            all of them.

            Example:
              rollride window scenarios/bump-then-corner.json --out results
            """,
        Run = Run,
        WriteSummary = WindowSummary.Write,
        Tables = [("window.csv", WindowSummary.WriteByPosition)],
        Figures = result => [SettingWindowFigure.Build(result)],
        FiguresTogether = states => [LoadWindowsFigure.Build(states)],
        Report = WindowReport.Write,
    }.Create();

    private static SettingWindowResult Run(StudyCase study, CancellationToken cancellation)
    {
        if (study.Targets is null)
        {
            throw new DataFileException(new DataFileFault(
                study.Provenance.File, null, "targets", null,
                "a window needs the damping ratios asked for; add targets with rollDampingRatioMinimum, heaveDampingRatioMinimum and heaveDampingRatioMaximum"));
        }

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
