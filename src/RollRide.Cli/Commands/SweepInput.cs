using System.Collections.Immutable;
using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Scenarios;
using RollRide.Sweeps;

namespace RollRide.Cli.Commands;

/// <summary>What <c>sweep</c> and <c>merge</c> are asked for: the scenario's sweep, and the options that replace parts of it.</summary>
internal sealed class SweepInput
{
    private const string VaryForms =
        "path=1,2,3 or path=lin:from:to:count, path=log:from:to:count, path=normal:mean:deviation, path=uniform:from:to, path=triangular:from:mode:to";

    private readonly Argument<string> _scenario = ScenarioInput.Scenario();
    private readonly Option<string[]> _layouts = ScenarioInput.Layouts();
    private readonly Option<string[]> _loads = ScenarioInput.Loads();
    private readonly Option<SweepParameterFile[]> _vary = new("--vary", "-v")
    {
        Description = $"a number of the scenario to vary, as {VaryForms}; repeat it for more; replaces the scenario's own parameters",
        HelpName = "path=values",
        CustomParser = result => [.. result.Tokens.Select(token => ParameterOf(token.Value, result)).OfType<SweepParameterFile>()],
    };

    private readonly Option<string> _design = new("--design", "-d")
    {
        Description = "how variants are made; if left out, as the scenario says, or else every combination (fullFactorial)",
    };

    private readonly Option<int> _samples = new("--samples", "-n") { Description = "number of samples of a sampled design", HelpName = "count" };
    private readonly Option<int> _seed = new("--seed") { Description = "seed of the samples", HelpName = "number" };
    private readonly Option<SweepTargetFile[]> _targets = new("--target", "-t")
    {
        Description = "a limit to keep, such as \"rollOvershoot_percent<=40\" or \"tyreLoadMinimum_N>=500\"; repeat it for more; replaces the scenario's own",
        HelpName = "metric<=value",
        CustomParser = result => [.. result.Tokens.Select(token => TargetOf(token.Value, result)).OfType<SweepTargetFile>()],
    };

    private readonly Option<string[]> _metrics = new("--metric", "-m")
    {
        Description = "a column of sweep.csv to show in figures and conclusions; repeat it, at most three times",
        HelpName = "key",
    };

    private readonly Option<string> _output = ScenarioInput.Out();
    private readonly Option<bool> _noPlots = ScenarioInput.NoPlots();
    private readonly Option<bool> _json = ScenarioInput.Json();
    private readonly Option<bool> _overwrite = new("--overwrite") { Description = "throw away the rows of another or an unfinished sweep that are in the folder" };

    public SweepInput()
    {
        _design.AcceptOnlyFromAmong([.. Enum.GetNames<SweepDesignKind>().Select(name => char.ToLowerInvariant(name[0]) + name[1..])]);
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
        var sweep = template.Sweep ?? new SweepFile();
        var options = new Dictionary<string, string>();
        T Chosen<T>(string key, Option option, T own, Func<T> given)
        {
            if (parsed.GetResult(option) is not { Implicit: false })
                return own;
            options[key] = option.Name;
            return given();
        }

        sweep = sweep with
        {
            Parameters = Chosen("parameters", _vary, sweep.Parameters, () => parsed.GetValue(_vary)!),
            Design = Chosen("design", _design, sweep.Design, () => Enum.Parse<SweepDesignKind>(parsed.GetValue(_design)!, ignoreCase: true)),
            Samples = Chosen("samples", _samples, sweep.Samples, () => parsed.GetValue(_samples)),
            Seed = Chosen("seed", _seed, sweep.Seed, () => parsed.GetValue(_seed)),
            Targets = Chosen("targets", _targets, sweep.Targets, () => parsed.GetValue(_targets)!),
            Metrics = Chosen("metrics", _metrics, sweep.Metrics, () => parsed.GetValue(_metrics)!),
        };
        if (sweep.Design is SweepDesignKind.FullFactorial or SweepDesignKind.OneAtATime)
        {
            foreach (var option in ((Option[])[_samples, _seed]).Where(option => options.ContainsValue(option.Name)))
                throw Fault(option.Name, "the design takes the levels given and draws no samples: choose latinHypercube, sobol or sensitivity with --design, or leave this option out");
        }

        var study = template.Scenario.Study;
        ImmutableArray<int> layouts = [.. ScenarioInput.ChooseListed(study, parsed.GetValue(_layouts) ?? []).Layouts.Select(layout => study.Layouts.IndexOf(layout))];
        var plan = SweepPlanReader.Read(template, sweep, layouts, options, ScenarioInput.ChooseLoads(study, parsed.GetValue(_loads) ?? []).Loads);
        if (WithPlots(parsed) && layouts.Length > LayoutStyles.Count)
            throw Fault("--layouts", $"a figure can tell {LayoutStyles.Count} layouts apart, and there are {layouts.Length}; choose with --layouts, or give --no-plots");
        return (plan, template.Scenario.Output);
    }

    /// <summary>A fault of an option.</summary>
    public static DataFileException Fault(string option, string reason) => new(new DataFileFault(option, null, null, null, reason));

    private static SweepParameterFile? ParameterOf(string text, ArgumentResult result)
    {
        // A name in a path may hold an equals sign; the values do not.
        var split = text.LastIndexOf('=');
        var file = split > 0 ? ParameterOf(text[..split].Trim(), text[(split + 1)..].Split(':', StringSplitOptions.TrimEntries)) : null;
        if (file is null)
            result.AddError($"--vary: “{text}” is not understood; expected {VaryForms}, with decimal points.");
        return file;
    }

    private static SweepParameterFile? ParameterOf(string path, string[] parts)
    {
        var kind = parts.Length == 1 ? "" : parts[0];
        var texts = parts.Length == 1 ? parts[0].Split(',', StringSplitOptions.TrimEntries) : parts[1..];
        var numbers = texts.Select(NumberOf).ToArray();
        if (numbers.Any(number => number is null))
            return null;
        double[] n = [.. numbers.Select(number => number!.Value)];
        SweepRangeFile? Range() => n is [_, _, >= 2 and <= 1_000_000] && double.IsInteger(n[2]) ? new SweepRangeFile { From = n[0], To = n[1], Count = (int)n[2] } : null;
        var file = new SweepParameterFile { Path = path };
        return kind switch
        {
            "" => file with { Values = n },
            "lin" when Range() is { } range => file with { Linear = range },
            "log" when Range() is { } range => file with { Logarithmic = range },
            "normal" when n is [var mean, var deviation] => file with { Normal = new NormalFile { Mean = mean, Deviation = deviation } },
            "uniform" when n is [var from, var to] => file with { Uniform = new UniformFile { From = from, To = to } },
            "triangular" when n is [var from, var mode, var to] => file with { Triangular = new TriangularFile { From = from, Mode = mode, To = to } },
            _ => null,
        };
    }

    private static SweepTargetFile? TargetOf(string text, ArgumentResult result)
    {
        foreach (var sign in (string[])["<=", ">="])
        {
            if (text.Split(sign, StringSplitOptions.TrimEntries) is [{ Length: > 0 } metric, var limit] && NumberOf(limit) is { } value)
                return sign == "<=" ? new SweepTargetFile { Metric = metric, AtMost = value } : new SweepTargetFile { Metric = metric, AtLeast = value };
        }

        result.AddError($"--target: “{text}” is not understood; expected metric<=value or metric>=value, in quotes, with a decimal point.");
        return null;
    }

    private static double? NumberOf(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;
}
