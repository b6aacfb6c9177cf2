using System.CommandLine;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Plots.Figures;
using RollRide.Report;
using RollRide.Report.Chapters;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Runs the layouts of a scenario and writes the report for a meeting.</summary>
internal static class ReportCommand
{
    private const string PageName = "report.html";
    private const int Positions = 17;

    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layouts = ScenarioInput.Layouts();
        var baseline = new Option<string?>("--baseline", "-b") { Description = "the layout with which the others are compared; the first if left out", HelpName = "name" };
        var load = ScenarioInput.Load();
        var output = ScenarioInput.Out();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var ride = new RideOptions();
        var command = new Command("report",
            """
            Write a report for a meeting: report.html, a single file to show or print, with the decision on page one, a slider that moves
            the dampers and a readout of every curve. The figures and all numbers are written beside it.

            Example:
              rollride report scenarios/bump-then-corner.json --out report
            """)
        {
            scenario, layouts, baseline, load, output, ride.Seeds, json,
        };
        figures.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.Read(parsed, scenario, cancellation);
            var study = ScenarioInput.ChooseListed(read.Study, parsed.GetValue(layouts) ?? []);
            ScenarioInput.RequireDrawable(study, "choose with --layouts");
            var size = figures.Size(parsed, read.Output);
            var reference = PlaceOf(study, parsed.GetValue(baseline));
            ride.RequireRandomRoad(parsed, study);
            var shown = Shown(study, parsed.GetValue(load));
            var folderPath = parsed.GetValue(output)!;
            using var folder = new OutputFolder(folderPath, cancellation);
            var recorded = ScenarioInput.Record(parsed, shown, folder, cancellation)[0];
            var found = ride.Run(parsed, recorded.Result, cancellation);
            ComparisonFindings[] states =
                [.. study.InEachLoad.Select(state => state.Load == shown.Load ? found : new ComparisonFindings(ScenarioInput.Run(parsed, state, cancellation)[0]))];
            var verdict = Verdict.Of(states, cancellation);
            var (path, template) = (parsed.GetRequiredValue(scenario), ScenarioTemplate.Read(parsed.GetRequiredValue(scenario), cancellation));
            SweepPlanReader.CheckParameters(template);
            var scatter = ScatterReader.Read(template);
            var studies = ReportStudies.Run(shown, shown.Layouts.Length > TuningFigures.MostLayouts ? null : read.Tuning, () => new HistorySpool(folder.OpenSpool()), cancellation);
            var input = new ReportInput
            {
                Scenario = read,
                Verdict = verdict,
                Changes = verdict.AllChanges(cancellation),
                Comparison = recorded,
                Studies = studies,
                Robust = studies.Tuning?.Found is { } tuning ? StudyAnswer.Of(() => RobustValvings.Find(parsed, path, scatter, tuning, cancellation)) : null,
                Baseline = reference,
                Positions = Sweep(parsed, shown, Moved(verdict, parsed.GetValue(baseline) is null ? null : reference), folder, cancellation),
                Seeds = found.Seeds,
                LoadStates = shown.Load is null ? [] : states,
                Size = size,
            };
            var report = ReportPage.Write(input, ChapterList.FirstPage, ChapterList.InOrderOfArgument, cancellation);
            folder.Add(PageName, page => page.Write(report.Page));
            ComparisonFolder.AddTables(folder, states);
            var sheets = new SafeFileNames();
            foreach (var sheet in ValvingSheet.Of(verdict, input.Studies.Tuning?.Found, input.Robust?.Found))
                folder.Add($"sheet-{sheets.Allocate(sheet.Name)}.csv", sheet.Write);
            ComparisonFolder.AddHistories(folder, [recorded], cancellation);
            var prefix = LoadStates.FilePrefixes([shown])[0];
            figures.AddFiles(
                parsed, folder, study.Provenance.Scenario, [.. report.Figures.Select(figure => figure.FileName == RobustFigure.FileName || figure.FileName.EndsWith(LoadWindowsFigure.Together, StringComparison.Ordinal) ? figure : figure with { FileName = prefix + figure.FileName })], cancellation);
            ComparisonReport.Answer(parsed, json, verdict, read.AsksForTuning, ComparisonFolder.Finish(folder, folderPath, verdict, read));
            if (!parsed.GetValue(json))
                RideOptions.Write(parsed, states, reference);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }

    private static int PlaceOf(StudyCase study, string? baseline)
    {
        if (baseline is null)
            return 0;
        return ScenarioInput.Find(study, baseline) is { } layout
            ? study.Layouts.IndexOf(layout)
            : throw new DataFileException(new DataFileFault(
                study.Provenance.File, null, null, null,
                $"the baseline “{baseline}” is not one of the layouts; known: {string.Join(", ", study.Layouts.Select(known => known.Name))}"));
    }

    /// <summary>The case in the load state that the chapters show: the one named, or the heaviest; the case itself where it has none.</summary>
    private static StudyCase Shown(StudyCase study, string? name)
    {
        if (name is not null)
            return study with { Load = ScenarioInput.ChooseLoad(study, name) };
        return study.InEachLoad.MaxBy(state => state.Load?.Of(study.Vehicle.Body).Mass ?? 0)!;
    }

    /// <summary>Which layout's dampers are moved sideways: those of a baseline that was named; otherwise of the layout chosen, or of the one that comes nearest.</summary>
    private static int Moved(Verdict verdict, int? baseline) => baseline ?? verdict.Named?.Index ?? 0;

    /// <summary>A layout moved sideways, or the first that can be.</summary>
    private static PositionSweepResult? Sweep(ParseResult parsed, StudyCase study, int moved, OutputFolder folder, CancellationToken cancellation)
    {
        var layout = study.Layouts.Skip(moved).Take(1).Concat(study.Layouts).FirstOrDefault(candidate => PositionSweep.Applies(study, candidate));
        if (layout is null)
            return null;
        using var progress = ProgressLine.Of(parsed, "Positions run", PositionSweep.Count(study, layout, Positions));
        return PositionSweep.Run(study, layout, Positions, () => new HistorySpool(folder.OpenSpool()), progress, cancellation);
    }
}
