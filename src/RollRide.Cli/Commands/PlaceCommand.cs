using System.CommandLine;
using System.Globalization;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Results;
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
        var noPlots = new Option<bool>("--no-plots") { Description = "write the numbers only" };
        var command = new Command("place",
            """
            Find every band of lateral positions in which a live axle's dampers clear rail, tyre, brake and each other over the whole
            travel, what limits each band, and what each is worth in roll damping. Writes placement.csv and figures.

            Example:
              rollride place scenarios/placement.json --out results
            """)
        {
            scenario, output, noPlots,
        };
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.Read(parsed, scenario);
            if (read.Placement is not { } placement)
                throw new DataFileException(new DataFileFault(read.Study.Provenance.File, null, "packaging", null, "this key is missing: the room around the dampers; docs/mounts-and-packaging.md shows one"));
            var result = PlacementStudy.Run(read.Study, placement);
            var figures = parsed.GetValue(noPlots) ? [] : PlacementFigures.All(result, new PlotSize(read.Output.ImageWidthPx, read.Output.ImageHeightPx));
            var folder = FigureFolder.Write(parsed.GetValue(output)!, figures, cancellation, ("placement.csv", writer => PlacementTable.Write(writer, result)));
            Write(parsed.InvocationConfiguration.Output, result, folder);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }

    private static void Write(TextWriter output, PlacementResult result, WrittenFolder folder)
    {
        output.WriteLine($"{result.Study.Provenance.Scenario} — {result.Study.Vehicle.Name}");
        output.WriteLine();
        var table = new TextTable("Band", "from [mm]", "to [mm]", "limit inboard", "limit outboard", "heave ratio", "roll ratio", "heave damping ratio", "roll damping ratio", "roll damping lost [%]", "setting window [N·s/m]");
        foreach (var band in result.Bands)
        {
            table.Add(
                PlacementStudy.NameOf(band.Band.Side), Number(band.Band.Inner * Mm, 2), Number(band.Band.Outer * Mm, 2),
                band.Band.InnerLimit?.Text ?? "–", band.Band.OuterLimit?.Text ?? "–",
                Number(band.Layout.Fitting.HeaveRatio, 3), Number(band.Layout.Fitting.RollRatio, 3),
                Number(band.Modes.Heave.DampingRatio, 3), Number(band.Modes.Roll.DampingRatio, 3), Number(band.RollDampingLost * 100, 1), Window(band));
        }

        table.Write(output);
        output.WriteLine();
        foreach (var sentence in PlacementConclusions.Of(result))
            output.WriteLine(sentence);
        output.WriteLine();
        output.WriteLine(string.Join(' ', Cautions.All));
        output.WriteLine();
        output.WriteLine($"Written to {folder.Path}: {string.Join(", ", folder.Files)}");
    }

    private static string Window(PlacedBand band) =>
        band.Window is not { } window ? "no targets"
        : window.IsOpen ? $"{Number(window.Lower.Coefficient, 0)} to {Number(window.Upper.Coefficient, 0)}"
        : "closed";

    private static string Number(double value, int decimals) => value.ToString($"F{decimals}", CultureInfo.InvariantCulture);
}
