using System.CommandLine;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>The linear view: modes over damper velocity, measured decays, frequency responses.</summary>
internal static class ModesCommand
{
    public static Command Create() => new StudyCommand<ModesResult>
    {
        Name = "modes",
        Description =
            """
            Find the natural modes of every layout: frequency and damping ratio of heave, roll, hop and tramp over damper velocity, the
            ratio a free-decay test would measure beside the linear one, and the response to road and steering from 0.1 to 50 Hz.

            Example:
              rollride modes scenarios/bump-then-corner.json --out results
            """,
        Run = ModesStudy.Run,
        WriteSummary = ModesSummary.Write,
        Tables = [("modes.csv", ModesSummary.WriteSweep), ("responses.csv", ModesSummary.WriteResponses)],
        Figures = result => [ModesOverVelocityFigure.Build(result), ResponseFigures.ToRoad(result), ResponseFigures.TravelToRoad(result), ResponseFigures.ToLateralAcceleration(result), .. result.Study.Vehicle.SecondAxle is null ? (Plots.Figure[])[] : [FrameFigure.Build(result)]],
        Report = ModesReport.Write,
    }.Create();
}
