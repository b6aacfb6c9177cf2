using System.Collections.Immutable;
using System.CommandLine;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>What compare and simulate share: their options, the runs, the files and the answer. They differ in which layouts they run.</summary>
internal sealed class ComparisonOptions
{
    private readonly Option<string[]> _loads = ScenarioInput.Loads();
    private readonly Option<string> _output = ScenarioInput.Out();
    private readonly Option<bool> _noPlots = ScenarioInput.NoPlots();
    private readonly Option<bool> _noHistory = new("--no-history")
    {
        Description = "metrics only: no time history is written and no figure drawn, which saves most of the time and disk of a long run",
    };

    private readonly RideOptions _ride = new();
    private readonly Option<bool> _json = ScenarioInput.Json();
    private readonly FigureOptions _figures = new();

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        command.Add(_loads);
        command.Add(_output);
        command.Add(_noPlots);
        command.Add(_noHistory);
        command.Add(_ride.Seeds);
        command.Add(_ride.Linear);
        command.Add(_json);
        _figures.AddTo(command);
        command.Validators.Add(result =>
        {
            if (!result.GetValue(_noHistory))
                return;
            foreach (var name in _figures.Given(result))
                result.AddError($"{name} is for figures, and --no-history draws none: give one of them.");
        });
    }

    /// <summary>Reads the scenario and shows its warnings; those on the time history only where there is to be one.</summary>
    public Scenario Read(ParseResult parsed, Argument<string> scenario, CancellationToken cancellation) =>
        ScenarioInput.Read(parsed, scenario, cancellation, isRecorded: !parsed.GetValue(_noHistory));

    /// <summary>Runs the layouts of a study, writes the folder and tells what was found.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="read">The scenario.</param>
    /// <param name="study">Its case, with the layouts to run.</param>
    /// <param name="remark">What is told above the tables; null for nothing.</param>
    /// <param name="cancellation">Stops the runs.</param>
    public void Run(ParseResult parsed, Scenario read, StudyCase study, string? remark, CancellationToken cancellation)
    {
        study = ScenarioInput.ChooseLoads(study, parsed.GetValue(_loads) ?? []);
        _ride.RequireRandomRoad(parsed, study);
        if (parsed.GetValue(_noHistory))
        {
            var results = ScenarioInput.Run(parsed, study, cancellation);
            using var tables = new OutputFolder(parsed.GetValue(_output)!, cancellation);
            Finish(parsed, read, results, remark, tables, () => { }, cancellation);
            return;
        }

        var withPlots = !parsed.GetValue(_noPlots);
        if (withPlots)
            ScenarioInput.RequireDrawable(study);
        var size = _figures.Size(parsed, read.Output);
        using var folder = new OutputFolder(parsed.GetValue(_output)!, cancellation);
        var recorded = ScenarioInput.Record(parsed, study, folder, cancellation);
        Finish(parsed, read, recorded.Select(state => state.Result), remark, folder, () =>
        {
            ComparisonFolder.AddHistories(folder, recorded, cancellation);
            if (withPlots)
                _figures.AddFiles(parsed, folder, study.Provenance.Scenario, Figures(recorded, size), cancellation);
        }, cancellation);
    }

    private static Figure[] Figures(ImmutableArray<RecordedComparison> states, PlotSize size) =>
        [.. states.Zip(LoadStates.FilePrefixes(states.Select(state => state.Study)))
            .SelectMany(state => ComparisonFigures.All(state.First, size).Select(figure => figure with { FileName = state.Second + figure.FileName }))];

    private void Finish(ParseResult parsed, Scenario read, IEnumerable<ComparisonResult> results, string? remark, OutputFolder folder, Action addMore, CancellationToken cancellation)
    {
        ComparisonFindings[] states = [.. results.Select(result => _ride.Run(parsed, result, cancellation))];
        var verdict = Verdict.Of(states, cancellation);
        ComparisonFolder.AddTables(folder, states);
        addMore();
        var written = ComparisonFolder.Finish(folder, parsed.GetValue(_output)!, verdict, read);
        var isTable = !parsed.GetValue(_json);
        if (isTable && remark is not null)
            parsed.InvocationConfiguration.Output.WriteLine(remark);
        ComparisonReport.Answer(parsed, _json, verdict, read.AsksForTuning, written);
        if (isTable)
            RideOptions.Write(parsed, states);
    }
}
