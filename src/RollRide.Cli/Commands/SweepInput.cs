using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Scenarios;
using RollRide.Sweeps;

namespace RollRide.Cli.Commands;

/// <summary>What <c>sweep</c> and <c>merge</c> are asked for: the scenario's sweep, and the options that replace parts of it.</summary>
internal sealed class SweepInput
{
    private readonly Argument<string> _scenario = ScenarioInput.Scenario();
    private readonly Option<string[]> _layouts = ScenarioInput.Layouts();
    private readonly Option<string[]> _loads = ScenarioInput.Loads();
    private readonly Option<string[]> _vary = new("--vary", "-v")
    {
        Description = $"a number of the scenario to vary, as {SweepOptions.VaryForms}; repeat it for more; replaces the scenario's own parameters",
        HelpName = "path=values",
    };

    private static readonly string[] Designs = [.. Enum.GetNames<SweepDesignKind>().Select(name => char.ToLowerInvariant(name[0]) + name[1..])];

    private readonly Option<string> _design = new("--design", "-d")
    {
        Description = $"how variants are made: {string.Join(", ", Designs)}; if left out, as the scenario says, or else every combination (fullFactorial)",
        HelpName = "design",
    };

    private readonly Option<int> _samples = new("--samples", "-n") { Description = "number of samples of a sampled design", HelpName = "count" };
    private readonly Option<int> _seed = new("--seed") { Description = "seed of the samples", HelpName = "number" };
    private readonly Option<string[]> _targets = new("--target", "-t")
    {
        Description = "a limit to keep, such as \"rollOvershoot_percent<=40\" or \"tyreLoadMinimum_N>=500\"; repeat it for more; replaces the scenario's own",
        HelpName = "metric<=value",
    };

    private readonly Option<string[]> _metrics = new("--metric", "-m")
    {
        Description = "a column of sweep.csv to show in figures and conclusions; repeat it, at most three times",
        HelpName = "key",
    };

    private readonly Option<string> _output = ScenarioInput.Out();
    private readonly Option<bool> _noPlots = ScenarioInput.NoPlots();
    private readonly Option<bool> _json = ScenarioInput.Json();
    private readonly Option<bool> _overwrite = new("--overwrite") { Description = "discard the rows of another or unfinished sweep in the folder" };

    public SweepInput()
    {
        _design.AcceptOnlyFromAmong(Designs);
        _samples.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var text }] && !(int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count) && count is >= 1 and <= 100_000_000))
                result.AddError($"--samples: “{text}” is not a whole number from 1 to 100000000.");
        });
        _seed.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var text }] && !int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out _))
                result.AddError($"--seed: “{text}” is not a whole number from 0 to {int.MaxValue}.");
        });
        _vary.Validators.Add(result =>
        {
            foreach (var text in result.Tokens.Select(token => token.Value).Where(text => !SweepOptions.IsVary(text)))
                result.AddError($"--vary: “{text}” is not understood; expected {SweepOptions.VaryForms}, with decimal points.");
        });
        _targets.Validators.Add(result =>
        {
            foreach (var text in result.Tokens.Select(token => token.Value).Where(text => !SweepOptions.IsTarget(text)))
                result.AddError($"--target: “{text}” is not understood; expected {SweepOptions.TargetForms}, in quotes, with a decimal point.");
        });
        _metrics.Validators.Add(result =>
        {
            if (result.Tokens.Count > 3)
                result.AddError("--metric is accepted at most three times.");
        });
    }

    /// <summary>The folder of results.</summary>
    public string Out(ParseResult parsed) => parsed.GetValue(_output)!;

    /// <summary>Whether figures are wanted.</summary>
    public bool WithPlots(ParseResult parsed) => !parsed.GetValue(_noPlots);

    /// <summary>Whether the summary is to be printed instead of tables.</summary>
    public bool AsJson(ParseResult parsed) => parsed.GetValue(_json);

    /// <summary>Whether rows that are there may be thrown away.</summary>
    public bool Overwrites(ParseResult parsed) => parsed.GetValue(_overwrite);

    /// <summary>How figures are written.</summary>
    public FigureOptions Figures { get; } = new();

    /// <summary>Adds the arguments to a command.</summary>
    public void AddTo(Command command)
    {
        command.Add(_scenario);
        foreach (var option in (Option[])[_vary, _design, _samples, _seed, _targets, _metrics, _layouts, _loads, _output, _overwrite, _noPlots, _json])
            command.Add(option);
        Figures.AddTo(command);
    }

    /// <summary>Makes the plan, and says how the scenario wants its results written.</summary>
    /// <exception cref="DataFileException">Something asked for makes no sense.</exception>
    public (SweepPlan Plan, OutputFile Output) Plan(ParseResult parsed, CancellationToken cancellation)
    {
        var template = ScenarioTemplate.Read(parsed.GetRequiredValue(_scenario), cancellation);
        ScenarioInput.ShowWarnings(parsed, template.Scenario.Warnings);
        var study = template.Scenario.Study;
        ImmutableArray<int> layouts = [.. ScenarioInput.ChooseListed(study, parsed.GetValue(_layouts) ?? []).Layouts.Select(layout => study.Layouts.IndexOf(layout))];
        bool IsGiven(Option option) => parsed.GetResult(option) is { Implicit: false };
        var plan = SweepPlanReader.Read(template, new SweepOptions
        {
            Vary = IsGiven(_vary) ? parsed.GetValue(_vary) : null,
            Design = IsGiven(_design) ? Enum.Parse<SweepDesignKind>(parsed.GetValue(_design)!, ignoreCase: true) : null,
            Samples = IsGiven(_samples) ? parsed.GetValue(_samples) : null,
            Seed = IsGiven(_seed) ? parsed.GetValue(_seed) : null,
            Targets = IsGiven(_targets) ? parsed.GetValue(_targets) : null,
            Metrics = IsGiven(_metrics) ? parsed.GetValue(_metrics) : null,
            Layouts = layouts,
            Loads = ScenarioInput.ChooseLoads(study, parsed.GetValue(_loads) ?? []).Loads,
        });
        if (WithPlots(parsed) && layouts.Length > LayoutStyles.Count)
            throw Fault("--layouts", $"a figure can tell {LayoutStyles.Count} layouts apart, and there are {layouts.Length}; choose with --layouts, or give --no-plots");
        return (plan, template.Scenario.Output);
    }

    /// <summary>A fault of an option.</summary>
    public static DataFileException Fault(string option, string reason) => new(new DataFileFault(option, null, null, null, reason));
}
