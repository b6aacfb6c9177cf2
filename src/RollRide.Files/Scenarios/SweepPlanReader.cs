using System.Collections.Immutable;
using System.Globalization;
using RollRide.DataFiles;
using RollRide.Sweeps;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Turns what is asked for into a plan, and refuses what makes no sense before anything runs.</summary>
public sealed class SweepPlanReader
{
    // More than any study needs; up to here rows can be counted and their statistics taken.
    private const double MostRows = 1e9;

    private readonly ScenarioTemplate _template;
    private readonly SweepFile _sweep;
    private readonly IReadOnlyDictionary<string, string> _options;
    private readonly FaultList _faults = new();

    private readonly ImmutableArray<LoadState> _loads;

    private SweepPlanReader(ScenarioTemplate template, SweepFile sweep, IReadOnlyDictionary<string, string>? options = null, ImmutableArray<LoadState>? loads = null) =>
        (_template, _sweep, _options, _loads) = (template, sweep, options ?? ImmutableDictionary<string, string>.Empty, loads ?? template.Scenario.Study.Loads);

    /// <summary>Path of the key in the scenario that holds what is asked for.</summary>
    private string Root { get; init; } = "sweep";

    /// <summary>Makes the plan of the scenario's own sweep, or what else is asked for.</summary>
    /// <param name="template">The scenario.</param>
    /// <param name="options">What replaces parts of its sweep.</param>
    /// <exception cref="DataFileException">A path, range, target or metric makes no sense; all such faults.</exception>
    public static SweepPlan Read(ScenarioTemplate template, SweepOptions options)
    {
        ArgumentNullException.ThrowIfNull(template);
        ArgumentNullException.ThrowIfNull(options);
        return Read(template, options.In(template.Sweep ?? new SweepFile()), options);
    }

    /// <summary>Makes the plan of a sweep of which options say the rest.</summary>
    internal static SweepPlan Read(ScenarioTemplate template, SweepFile sweep, SweepOptions? options = null) =>
        new SweepPlanReader(template, sweep, options?.ByKey, options?.Loads).Read(options?.Layouts ?? [.. Enumerable.Range(0, template.Scenario.Study.Layouts.Length)]);

    /// <summary>Makes the plan of what another key of the scenario asks for, of all layouts and load states.</summary>
    internal static SweepPlan Read(ScenarioTemplate template, SweepFile sweep, string root) =>
        new SweepPlanReader(template, sweep) { Root = root }.Read([.. Enumerable.Range(0, template.Scenario.Study.Layouts.Length)]);

    /// <summary>Refuses what <c>sweep</c> would refuse of the scenario's own sweep, whatever its options add; does nothing where there is none.</summary>
    /// <param name="template">The scenario.</param>
    /// <exception cref="DataFileException">A path, range, target or metric makes no sense; all such faults.</exception>
    public static void Check(ScenarioTemplate template)
    {
        ArgumentNullException.ThrowIfNull(template);
        if (template.Sweep is { } sweep)
            new SweepPlanReader(template, sweep).Read([.. Enumerable.Range(0, template.Scenario.Study.Layouts.Length)], mustVary: false);
    }

    /// <summary>Refuses parameters of the scenario's own sweep that <c>sweep</c> would refuse; does nothing where there is none.</summary>
    /// <param name="template">The scenario.</param>
    /// <exception cref="DataFileException">A path or range makes no sense; all such faults.</exception>
    public static void CheckParameters(ScenarioTemplate template)
    {
        ArgumentNullException.ThrowIfNull(template);
        if (template.Sweep is not { } sweep)
            return;
        var reader = new SweepPlanReader(template, sweep);
        reader.ReadParameters();
        reader._faults.ThrowIfAny();
    }

    private SweepPlan Read(ImmutableArray<int> layouts, bool mustVary = true)
    {
        var metrics = SweepMetric.Of(_template.Scenario.Study);
        var parameters = ReadParameters();
        var targets = ReadTargets(metrics);
        var shown = ReadShown(metrics, targets);
        if (mustVary && parameters.IsEmpty && _loads.IsEmpty && _faults.Count == 0)
            Refuse("parameters", "", "nothing is varied: give parameters in the scenario's sweep or load states in the scenario, or --vary path=values");
        _faults.ThrowIfAny();
        var design = MakeDesign(parameters, layouts.Length);
        _faults.ThrowIfAny();
        return new SweepPlan
        {
            Study = _template.Scenario.Study,
            Make = new SweptScenario(_template, parameters, _sweep.Preload == SweepPreload.Kept).CaseOf,
            Design = design!,
            LoadStates = _loads,
            Layouts = layouts,
            Metrics = metrics,
            Targets = targets,
            Shown = shown,
            Request = new SweepRequest(_sweep.Design, _sweep.Samples, _sweep.Seed, _sweep.Preload),
        };
    }

    private ImmutableArray<SweepParameter> ReadParameters()
    {
        var parameters = ImmutableArray.CreateBuilder<SweepParameter>();
        for (var i = 0; i < _sweep.Parameters.Count; i++)
        {
            var file = _sweep.Parameters[i];
            var key = string.Create(CultureInfo.InvariantCulture, $"[{i}]");
            if (Find("parameters", key + ".path", file.Path) is not { } address)
                continue;
            if (parameters.Any(earlier => earlier.Path == address.Path))
                Refuse("parameters", key + ".path", $"“{file.Path}” is varied twice; give it once");
            else if (LoadLeftOut(address.Path) is { } other)
                Refuse("parameters", key + ".path", $"“{file.Path}” is varied, but load state “{other}” is not among those chosen, so this changes nothing");
            else if (LoadSetting(address.Path) is { } set)
                Refuse("parameters", key + ".path", $"“{file.Path}” is varied, and {set} sets it outright: they contradict each other. Vary {set} instead, or let the load state add payload");
            else if (Make("parameters", key, file.Path, () => ValuesOf(file)) is { } values)
                parameters.Add(new SweepParameter(file.Path, address.Path, address.Value!.Value, values));
        }

        return parameters.ToImmutable();
    }

    /// <summary>Where a load state sets a number of the body, so that varying the body's own would change nothing; null where none does.</summary>
    private string? LoadSetting(string path)
    {
        const string body = "vehicle.body.";
        return path.StartsWith(body, StringComparison.Ordinal)
            ? _loads
                .Select(load => _template.Find($"{LoadStateReader.PathOf(load.Name)}.{path[body.Length..]}"))
                .FirstOrDefault(number => number?.Value is not null)?.ReadablePath
            : null;
    }

    /// <summary>The load state that a number belongs to, where that is not looked at; otherwise null.</summary>
    private string? LoadLeftOut(string path) => _template.Scenario.Study.Loads
        .FirstOrDefault(load => path.StartsWith(LoadStateReader.PathOf(load.Name) + ".", StringComparison.Ordinal) && !_loads.Contains(load))?.Name;

    /// <summary>What a parameter takes.</summary>
    /// <exception cref="ArgumentException">It takes nothing, or a range or distribution makes no sense.</exception>
    internal static SweptValues ValuesOf(SweepParameterFile file) => file switch
    {
        { Values: { } values } => new ListedValues([.. values]),
        { Linear: { } range } => new RangeOfValues(range.From, range.To, range.Count),
        { Logarithmic: { } range } => new RangeOfValues(range.From, range.To, range.Count, logarithmic: true),
        { Normal: { } normal } => new NormalValues(normal.Mean, normal.Deviation),
        { Uniform: { } uniform } => new UniformValues(uniform.From, uniform.To),
        { Triangular: { } triangular } => new TriangularValues(triangular.From, triangular.Mode, triangular.To),
        _ => throw new ArgumentException("it has no values; give a list, a range or a distribution"),
    };

    private ImmutableArray<SweepTarget> ReadTargets(ImmutableArray<SweepMetric> metrics)
    {
        var targets = ImmutableArray.CreateBuilder<SweepTarget>();
        for (var i = 0; i < _sweep.Targets.Count; i++)
        {
            var file = _sweep.Targets[i];
            if (FindMetric("targets", string.Create(CultureInfo.InvariantCulture, $"[{i}].metric"), file.Metric, metrics) is { } metric)
                targets.Add(new SweepTarget(metric.Key, (file.AtMost ?? file.AtLeast)!.Value, file.AtMost is not null));
        }

        return targets.ToImmutable();
    }

    private ImmutableArray<SweepMetric> ReadShown(ImmutableArray<SweepMetric> metrics, ImmutableArray<SweepTarget> targets)
    {
        if (_sweep.Metrics.Count > 0)
        {
            return [.. _sweep.Metrics
                .Select((key, i) => FindMetric("metrics", string.Create(CultureInfo.InvariantCulture, $"[{i}]"), key, metrics))
                .OfType<SweepMetric>()
                .Distinct()];
        }

        const int mostShown = 3;
        var wanted = targets.Select(target => target.Metric).Distinct().Take(mostShown).ToList();
        if (wanted.Count == 0)
        {
            var turns = _template.Scenario.Study.Manoeuvre.HasCorner;
            wanted = [.. turns ? ["rollOvershoot_percent"] : Array.Empty<string>(), "bodyAccelerationRms_m_per_s2"];
        }

        return [.. wanted.Select(key => metrics.First(metric => metric.Key == key))];
    }

    private SweepDesign? MakeDesign(ImmutableArray<SweepParameter> parameters, int layouts)
    {
        var kind = parameters.IsEmpty ? SweepDesignKind.FullFactorial : _sweep.Design;
        if (kind == SweepDesignKind.FullFactorial)
        {
            foreach (var parameter in parameters.Where(parameter => parameter.Values.Levels.IsEmpty))
                Refuse("design", "", $"“{parameter.Name}” has a distribution, and so no levels to combine: choose a sampled design (latinHypercube, sobol, sensitivity) or give it values");
        }

        var points = kind switch
        {
            SweepDesignKind.FullFactorial => parameters.Aggregate(1.0, (count, parameter) => count * parameter.Values.Levels.Length),
            SweepDesignKind.OneAtATime => parameters.Sum(parameter => (double)parameter.Values.OneAtATimeLevels.Length),
            SweepDesignKind.Sensitivity => _sweep.Samples * (parameters.Length + 2.0),
            _ => _sweep.Samples,
        };
        var rows = points * Math.Max(1, _loads.Length) * layouts;
        if (rows > MostRows)
            Refuse("design", "", string.Create(CultureInfo.InvariantCulture, $"this makes {rows:G3} runs; at most {MostRows:G1} are accepted: give fewer levels or samples"));

        var most = kind switch
        {
            SweepDesignKind.Sobol => Numerics.SobolSequence.MostDimensions,
            SweepDesignKind.Sensitivity => SensitivitySamples.MostParameters,
            _ => int.MaxValue,
        };
        if (parameters.Length > most)
            Refuse("design", "", string.Create(CultureInfo.InvariantCulture, $"this design takes at most {most} parameters, and there are {parameters.Length}"));
        if (kind == SweepDesignKind.Sensitivity && _sweep.Samples < 2)
            Refuse("samples", "", "a sensitivity design needs at least 2 samples");
        if (_faults.Count > 0)
            return null;
        return kind switch
        {
            SweepDesignKind.FullFactorial => new FullFactorial(parameters),
            SweepDesignKind.OneAtATime => new OneAtATime(parameters),
            SweepDesignKind.LatinHypercube => new LatinHypercubeSamples(parameters, _sweep.Samples, _sweep.Seed),
            SweepDesignKind.Sobol => new SobolSamples(parameters, _sweep.Samples, _sweep.Seed),
            _ => new SensitivitySamples(parameters, _sweep.Samples, _sweep.Seed),
        };
    }

    private NumberAddress? Find(string key, string place, string path)
    {
        var address = _template.Find(path);
        if (address is null)
            Refuse(key, place, $"the scenario has no number “{path}”; {_template.NearestTo(path) ?? "paths are those of the keys, such as vehicle.springs.rate_N_per_mm"}");
        else if (address.Value is null)
            Refuse(key, place, $"“{path}” has no value in the scenario and no default; give it one there first");
        return address?.Value is null ? null : address;
    }

    private SweepMetric? FindMetric(string key, string place, string name, ImmutableArray<SweepMetric> metrics)
    {
        var metric = metrics.FirstOrDefault(metric => metric.Key == name);
        if (metric is null)
            Refuse(key, place, $"there is no metric “{name}”; {NearestName.Ask(name, metrics.Select(known => known.Key)) ?? "docs/metrics.md lists them; those of a phase begin with its name, such as bump.bodyAccelerationRms_m_per_s2"}");
        return metric;
    }

    private SweptValues? Make(string key, string place, string path, Func<SweptValues> make)
    {
        try
        {
            return make();
        }
        catch (ArgumentException e)
        {
            Refuse(key, place, $"“{path}”: {e.Message}");
            return null;
        }
    }

    private void Refuse(string key, string place, string reason) => _faults.Add(_options.TryGetValue(key, out var option)
        ? new DataFileFault(option, null, null, null, reason)
        : _template.FaultAt($"{Root}.{key}{place}", reason));
}
