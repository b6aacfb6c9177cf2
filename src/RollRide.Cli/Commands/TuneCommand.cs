using System.CommandLine;
using RollRide.Cli.Terminals;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Sweeps;

namespace RollRide.Cli.Commands;

/// <summary>Tunes the dampers of a scenario's layouts.</summary>
internal static class TuneCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layouts = ScenarioInput.Layouts();
        var loads = ScenarioInput.Loads();
        var output = ScenarioInput.Out();
        var noFront = new Option<bool>("--no-front") { Description = "tune for the targets only, without the trade-off front, which takes most of the time" };
        var noPlots = ScenarioInput.NoPlots();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var command = new Command("tune",
            """
            Find the valving that gives each layout of a scenario the damping wanted in heave and in roll (key tuning), and the
            trade-off between ride over the bump and roll in the corner. Writes curves before and after, a scenario with the tuned
            layouts, and figures. If the scenario has load states or its dampers have states, one valving is found for all of them: each
            target is judged in the state that misses it most. Gives the error in damper force at which a target is missed and, if
            tolerances are given (tuning.scatter), the valving that suits the vehicles built with them.

            Example:
              rollride tune scenarios/valving.json --out tuned
            """)
        {
            scenario, layouts, loads, output, noFront, noPlots, json,
        };
        figures.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var path = parsed.GetRequiredValue(scenario);
            var read = ScenarioInput.Read(parsed, scenario, cancellation);
            if (!read.TuningFaults.IsEmpty)
                throw new DataFileException(read.TuningFaults);
            if (read.Tuning is not { } task)
                throw new DataFileException(new DataFileFault(path, null, "tuning", null, "this key is missing: the damping ratios wanted and the limits of the valving; docs/valving.md explains it"));
            var study = ScenarioInput.ChooseLoads(ScenarioInput.ChooseListed(read.Study, parsed.GetValue(layouts) ?? []), parsed.GetValue(loads) ?? []);
            var withPlots = !parsed.GetValue(noPlots);
            if (withPlots && study.Layouts.Length > TuningFigures.MostLayouts)
            {
                throw new DataFileException(new DataFileFault(path, null, "layouts", null,
                    $"the figures take up to {TuningFigures.MostLayouts} layouts, and there are {study.Layouts.Length}; choose with --layouts, or give --no-plots"));
            }

            var scatter = ScatterReader.Read(ScenarioTemplate.Read(path, cancellation));
            var folderPath = parsed.GetValue(output)!;
            using var folder = new OutputFolder(folderPath, cancellation);
            TuningResult result;
            using (var progress = ProgressLine.Of(parsed, "Per cent done", 100))
                result = TuningStudy.Run(study, task, !parsed.GetValue(noFront), () => new HistorySpool(folder.OpenSpool()), new PercentProgress(progress), cancellation);
            var robust = RobustValvings.Find(parsed, path, scatter, result, cancellation);
            var written = WriteFolder(
                folder, folderPath, path, result, robust, read.Warnings,
                () =>
                {
                    if (withPlots)
                        figures.AddFiles(parsed, folder, study.Provenance.Scenario, [.. TuningFigures.All(result, figures.Size(parsed, read.Output)), RobustFigure.Build(robust) with { Size = figures.Size(parsed, read.Output) }], cancellation);
                },
                cancellation);
            if (parsed.GetValue(json))
                parsed.InvocationConfiguration.Output.Write(written.Summary);
            else
                TuningReport.Write(parsed.InvocationConfiguration.Output, result, robust, written);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }

    private static WrittenFolder WriteFolder(
        OutputFolder folder, string path, string scenarioPath, TuningResult result, RobustResult robust, IEnumerable<string> warnings, Action addFigures, CancellationToken cancellation)
    {
        var names = new SafeFileNames();
        var dampers = new List<FurtherDamper>();
        foreach (var (layout, holds) in result.Layouts.Zip(robust.Layouts))
        {
            var name = names.Allocate(layout.Name);
            AddCurve($"curve-before-{name}.csv", layout.Tuned.Before.Damper.AsWritten);
            AddDamper("tuned", "after", layout.Tuned.Drawn, robust.IsOwn ? null : holds.Robust.ForceTolerance);
            if (layout.Front is { } front)
                AddDamper("compromise", "compromise", front.CompromiseLayout.Damper.AsWritten, null);
            if (robust.IsOwn)
                AddDamper("robust", "robust", holds.Robust.Tuned.Drawn, holds.Robust.ForceTolerance);

            void AddDamper(string note, string file, Damper drawn, ForceTolerance? tolerance)
            {
                dampers.Add(new(layout.Name, note, AddCurve($"curve-{file}-{name}.csv", drawn), [.. drawn.States.Select(state =>
                    (state.Name, AddCurve($"curve-{names.Allocate($"{file}-{layout.Name}-{state.Name}")}.csv", drawn.In(state.Name)), state.Temperature))]));
                folder.Add($"sheet-{file}-{name}.csv", new WorkshopSheet($"{drawn.Name}, {note} for {layout.Name}", drawn.Curve, tolerance).Write);
            }
        }

        var tuned = new TunedScenario(scenarioPath, cancellation);
        var copies = new Dictionary<string, string>();
        foreach (var file in tuned.DataFiles)
        {
            copies[file] = $"data-{names.Allocate(Path.GetFileNameWithoutExtension(file))}{Path.GetExtension(file)}";
            folder.AddBytes(copies[file], InputFile.ReadAllBytes(Path.Combine(Path.GetDirectoryName(scenarioPath) ?? "", file), cancellation));
        }

        folder.Add("tuned.json", output => tuned.Write(output, dampers, copies));
        if (result.Layouts.Any(layout => layout.Front is not null))
            folder.Add("trade-off.csv", output => TuningTable.WriteFronts(output, result));
        addFigures();
        var summary = folder.AddSummary("tuning.json", output => TuningSummary.Write(output, result, robust, warnings));
        folder.Commit();
        return new WrittenFolder(path, folder.Names, summary);

        string AddCurve(string file, Damper damper)
        {
            folder.Add(file, output => CurveTable.Write(output, damper.Curve));
            return file;
        }
    }
}
