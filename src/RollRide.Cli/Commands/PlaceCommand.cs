using System.Collections.Immutable;
using System.CommandLine;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Finds where the dampers of a live axle fit.</summary>
internal static class PlaceCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var loads = ScenarioInput.Loads();
        var output = ScenarioInput.Out();
        var noPlots = ScenarioInput.NoPlots();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var command = new Command("place",
            """
            Find every band of lateral positions in which a live axle's dampers clear rail, tyre, brake and each other over the whole
            travel, what limits each band, and the roll damping that it gives; then check whether the scenario's own layouts fit where they
            are drawn. Writes placement.json, placement.csv and figures.

            Example:
              rollride place scenarios/placement.json --out results
            """)
        {
            scenario, loads, output, noPlots, json,
        };
        figures.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.WithWarningsShown(parsed, ScenarioReader.ReadForPlacement(parsed.GetRequiredValue(scenario), cancellation));
            if (read.Study.Placement is null)
                throw new DataFileException(new DataFileFault(read.Study.Provenance.File, null, "packaging", null, "this key is missing: the room around the dampers; docs/mounts-and-packaging.md shows one"));
            // Damper states change no room.
            var states = ScenarioInput.ChooseLoads(read.Study, parsed.GetValue(loads) ?? []).InEachLoad
                .DistinctBy(state => state.Load?.Weights).ToImmutableArray();
            PlacementResult[] results = [.. states.Select(state => PlacementStudy.Run(state, cancellation))];
            ImmutableArray<CommonBand>? common = results.Length > 1 ? CommonBand.Of(results) : null;
            var folder = StudyFolder.Write(
                parsed.GetValue(output)!,
                ("placement.json", writer => PlacementSummary.Write(writer, results, common, read.Warnings)),
                [("placement.csv", writer => PlacementTable.Write(writer, results))],
                folder =>
                {
                    if (!parsed.GetValue(noPlots))
                        figures.AddFiles(parsed, folder, read.Study.Provenance.Scenario, read.Output, [.. StateFigures.Of(states, [.. results.Select(PlacementFigures.All)])], cancellation);
                },
                cancellation);
            if (parsed.GetValue(json))
                parsed.InvocationConfiguration.Output.Write(folder.Summary);
            else
                Write(parsed.InvocationConfiguration.Output, results, common, folder);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }

    private static void Write(TextWriter output, PlacementResult[] states, ImmutableArray<CommonBand>? common, WrittenFolder folder)
    {
        var study = states[0].Study;
        output.WriteLine($"{study.Provenance.Scenario} — {study.Vehicle.Name}");
        if (study.Load is null)
            WriteTravel(output, states[0]);
        StudyReport.WriteStates(output, states, result => result.Study, result => WriteTables(output, result), PlacementConclusions.Of);
        if (common is { } shared)
            WriteCommon(output, states, shared);
        StudyReport.WriteEnd(output, folder);
    }

    private static void WriteCommon(TextWriter output, PlacementResult[] states, ImmutableArray<CommonBand> common)
    {
        output.WriteLine();
        output.WriteLine("Every load state");
        if (!common.IsEmpty)
        {
            var table = new TextTable(["Band", "from [mm]", "to [mm]", "limit inboard", "limit outboard", .. states.Select(state => $"roll damping ratio, {state.Study.Load!.Name}"), "setting window [N·s/m]"]);
            foreach (var shared in common)
            {
                table.Add([
                    PlacementStudy.NameOf(shared.Band.Side), TextTable.Number(Unit.Millimetre.Of(shared.Band.Inner), 1), TextTable.Number(Unit.Millimetre.Of(shared.Band.Outer), 1),
                    Limit(shared.Band.InnerLimit, shared.InnerLoad), Limit(shared.Band.OuterLimit, shared.OuterLoad),
                    .. shared.InEach.Select(placed => TextTable.Number(placed.Modes.Roll.DampingRatio, 3)), Window(shared.Window)]);
            }

            table.Write(output);
        }

        StudyReport.WriteConclusions(output, PlacementConclusions.Of(common));

        static string Limit(Contact? limit, string load) => limit is null ? "–" : $"{limit.Text}, {load}";
    }

    private static void WriteTravel(TextWriter output, PlacementResult result) => output.WriteLine($"Travel: {TravelWords.Of(result.Found.Space.Travel)}");

    private static void WriteTables(TextWriter output, PlacementResult result)
    {
        if (result.Study.Load is not null)
            WriteTravel(output, result);
        var table = new TextTable("Band", "from [mm]", "to [mm]", "limit inboard", "limit outboard", "heave ratio", "roll ratio", "heave damping ratio", "roll damping ratio", "roll damping lost [%]", "setting window [N·s/m]");
        foreach (var band in result.Bands)
        {
            table.Add(
                PlacementStudy.NameOf(band.Band.Side), TextTable.Number(Unit.Millimetre.Of(band.Band.Inner), 1), TextTable.Number(Unit.Millimetre.Of(band.Band.Outer), 1),
                band.Band.InnerLimit?.Text ?? "–", band.Band.OuterLimit?.Text ?? "–",
                TextTable.Number(band.Layout.Fitting.HeaveRatio, 3), TextTable.Number(band.Layout.Fitting.RollRatio, 3),
                TextTable.Number(band.Modes.Heave.DampingRatio, 3), TextTable.Number(band.Modes.Roll.DampingRatio, 3), TextTable.Number(band.RollDampingLost * 100, 1), Window(band.Window));
        }

        table.Write(output);
        output.WriteLine();
        var layouts = new TextTable("Layout", "axle end [mm]", "body end [mm]", "as drawn");
        foreach (var layout in result.Layouts)
            layouts.Add(layout.Name, TextTable.Number(Unit.Millimetre.Of(layout.Place?.AxleEnd), 1), TextTable.Number(Unit.Millimetre.Of(layout.Place?.BodyEnd), 1), Drawn(layout));
        layouts.Write(output);
    }

    private static string Drawn(PlacedLayout layout) =>
        layout.Unplaced is not null ? "no place"
        : layout.Place is not { } place ? "given by ratios: not checked"
        : place.Fits ? "fits"
        : string.Join(", ", place.InTheWay.Select(contact => $"{contact.Text}: {TextTable.Number(Unit.Millimetre.Of(-contact.Margin), 1)} mm missing"));

    private static string Window(SettingWindow? found) =>
        found is not { } window ? "no targets"
        : window.IsOpen ? $"{TextTable.Number(window.Lower.Coefficient, 0)} to {TextTable.Number(window.Upper.Coefficient, 0)}"
        : "closed";
}
