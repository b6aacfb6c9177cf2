using System.CommandLine;
using RollRide.DataFiles;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Finds where the dampers of a live axle fit.</summary>
internal static class PlaceCommand
{
    private const double Mm = 1e3;

    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var output = ScenarioInput.Out();
        var noPlots = ScenarioInput.NoPlots();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var command = new Command("place",
            """
            Find every band of lateral positions in which a live axle's dampers clear rail, tyre, brake and each other over the whole
            travel, what limits each band, and what each is worth in roll damping; and say whether the scenario's own layouts can stand
            where they are drawn. Writes placement.json, placement.csv and figures.

            Example:
              rollride place scenarios/placement.json --out results
            """)
        {
            scenario, output, noPlots, json,
        };
        figures.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.WithWarningsShown(parsed, ScenarioReader.ReadForPlacement(parsed.GetRequiredValue(scenario), cancellation));
            if (read.Study.Placement is null)
                throw new DataFileException(new DataFileFault(read.Study.Provenance.File, null, "packaging", null, "this key is missing: the room around the dampers; docs/mounts-and-packaging.md shows one"));
            var result = PlacementStudy.Run(read.Study, cancellation);
            var folder = StudyFolder.Write(
                parsed.GetValue(output)!,
                ("placement.json", writer => PlacementSummary.Write(writer, result, read.Warnings)),
                [("placement.csv", writer => PlacementTable.Write(writer, result))],
                folder =>
                {
                    if (!parsed.GetValue(noPlots))
                        figures.AddFiles(parsed, folder, read.Study.Provenance.Scenario, read.Output, PlacementFigures.All(result), cancellation);
                },
                cancellation);
            if (parsed.GetValue(json))
                parsed.InvocationConfiguration.Output.Write(folder.Summary);
            else
                Write(parsed.InvocationConfiguration.Output, result, folder);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }

    private static void Write(TextWriter output, PlacementResult result, WrittenFolder folder)
    {
        output.WriteLine($"{result.Study.Provenance.Scenario} — {result.Study.Vehicle.Name}");
        output.WriteLine($"Travel: {TravelWords.Of(result.Found.Space.Travel)}");
        output.WriteLine();
        var table = new TextTable("Band", "from [mm]", "to [mm]", "limit inboard", "limit outboard", "heave ratio", "roll ratio", "heave damping ratio", "roll damping ratio", "roll damping lost [%]", "setting window [N·s/m]");
        foreach (var band in result.Bands)
        {
            table.Add(
                PlacementStudy.NameOf(band.Band.Side), TextTable.Number(band.Band.Inner * Mm, 1), TextTable.Number(band.Band.Outer * Mm, 1),
                band.Band.InnerLimit?.Text ?? "–", band.Band.OuterLimit?.Text ?? "–",
                TextTable.Number(band.Layout.Fitting.HeaveRatio, 3), TextTable.Number(band.Layout.Fitting.RollRatio, 3),
                TextTable.Number(band.Modes.Heave.DampingRatio, 3), TextTable.Number(band.Modes.Roll.DampingRatio, 3), TextTable.Number(band.RollDampingLost * 100, 1), Window(band));
        }

        table.Write(output);
        output.WriteLine();
        var layouts = new TextTable("Layout", "axle end [mm]", "body end [mm]", "as drawn");
        foreach (var layout in result.Layouts)
            layouts.Add(layout.Name, TextTable.Number(layout.Place?.AxleEnd * Mm, 1), TextTable.Number(layout.Place?.BodyEnd * Mm, 1), Drawn(layout));
        layouts.Write(output);
        StudyReport.WriteEnd(output, PlacementConclusions.Of(result), folder);
    }

    private static string Drawn(PlacedLayout layout) =>
        layout.Unplaced is not null ? "no place"
        : layout.Place is not { } place ? "given by ratios: not checked"
        : place.Fits ? "fits"
        : string.Join(", ", place.InTheWay.Select(contact => $"{contact.Text}: {TextTable.Number(-contact.Margin * Mm, 1)} mm missing"));

    private static string Window(PlacedBand band) =>
        band.Window is not { } window ? "no targets"
        : window.IsOpen ? $"{TextTable.Number(window.Lower.Coefficient, 0)} to {TextTable.Number(window.Upper.Coefficient, 0)}"
        : "closed";
}
