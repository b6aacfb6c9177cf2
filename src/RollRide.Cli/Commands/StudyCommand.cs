using System.CommandLine;
using RollRide.Cli.Terminals;
using RollRide.Plots;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>A command that looks at the layouts of a scenario in each of its load states, and writes a summary, tables and figures.</summary>
/// <typeparam name="TResult">What it finds in one load state, or for the vehicle as written.</typeparam>
internal sealed class StudyCommand<TResult>
{
    /// <summary>Its name; the summary is this with the ending <c>.json</c>.</summary>
    public required string Name { get; init; }

    /// <summary>What it does, with an example.</summary>
    public required string Description { get; init; }

    /// <summary>Does it.</summary>
    public required Func<StudyCase, CancellationToken, TResult> Run { get; init; }

    /// <summary>Writes the summary, given the warnings of the scenario.</summary>
    public required Action<TextWriter, IReadOnlyList<TResult>, IReadOnlyList<string>> WriteSummary { get; init; }

    /// <summary>The tables by the names of their files.</summary>
    public required IReadOnlyList<(string Name, Action<TextWriter, IReadOnlyList<TResult>> Write)> Tables { get; init; }

    /// <summary>Makes the figures of one load state.</summary>
    public required Func<TResult, IReadOnlyList<Figure>> Figures { get; init; }

    /// <summary>Makes the figures of what several load states say together.</summary>
    public Func<IReadOnlyList<TResult>, IReadOnlyList<Figure>> FiguresTogether { get; init; } = _ => [];

    /// <summary>Tells the result on the terminal.</summary>
    public required Action<TextWriter, IReadOnlyList<TResult>, WrittenFolder> Report { get; init; }

    /// <summary>Makes the command.</summary>
    public Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var layouts = ScenarioInput.Layouts();
        var loads = ScenarioInput.Loads();
        var output = ScenarioInput.Out();
        var noPlots = ScenarioInput.NoPlots();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var command = new Command(Name, Description) { scenario, layouts, loads, output, noPlots, json };
        figures.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.Read(parsed, scenario, cancellation);
            var study = ScenarioInput.ChooseLoads(ScenarioInput.ChooseListed(read.Study, parsed.GetValue(layouts) ?? []), parsed.GetValue(loads) ?? []);
            var withPlots = !parsed.GetValue(noPlots);
            if (withPlots)
                ScenarioInput.RequireDrawable(study);
            var states = study.InEachLoad;
            TResult[] results = [.. states.Select(state => Run(state, cancellation))];
            var folder = StudyFolder.Write(
                parsed.GetValue(output)!,
                ($"{Name}.json", writer => WriteSummary(writer, results, read.Warnings)),
                [.. Tables.Select(table => (table.Name, (Action<TextWriter>)(writer => table.Write(writer, results))))],
                folder =>
                {
                    if (withPlots)
                        figures.AddFiles(parsed, folder, study.Provenance.Scenario, read.Output, [.. StateFigures.Of(states, [.. results.Select(Figures)]), .. results.Length > 1 ? FiguresTogether(results) : []], cancellation);
                },
                cancellation);
            if (parsed.GetValue(json))
                parsed.InvocationConfiguration.Output.Write(folder.Summary);
            else
                Report(parsed.InvocationConfiguration.Output, results, folder);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }
}
