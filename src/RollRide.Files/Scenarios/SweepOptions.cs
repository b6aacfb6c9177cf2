using System.Collections.Immutable;
using System.Globalization;
using RollRide.DataFiles;
using RollRide.Sweeps;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>What a command line asks of a sweep, in its own words: each replaces what the scenario says, and null keeps that.</summary>
public sealed record SweepOptions
{
    /// <summary>The forms in which a number can be varied.</summary>
    public const string VaryForms =
        "path=1,2,3 or path=lin:from:to:count, path=log:from:to:count, path=normal:mean:deviation, path=uniform:from:to, path=triangular:from:mode:to";

    /// <summary>The forms in which a target can be given.</summary>
    public const string TargetForms = "metric<=value or metric>=value";

    /// <summary>The option <c>--vary</c>: numbers of the scenario that are varied, each of which <see cref="IsVary"/> accepts.</summary>
    public IReadOnlyList<string>? Vary { get; init; }

    /// <summary>The option <c>--design</c>.</summary>
    public SweepDesignKind? Design { get; init; }

    /// <summary>The option <c>--samples</c>: 1 or more.</summary>
    public int? Samples { get; init; }

    /// <summary>The option <c>--seed</c>: 0 or more.</summary>
    public int? Seed { get; init; }

    /// <summary>The option <c>--target</c>: limits, each of which <see cref="IsTarget"/> accepts.</summary>
    public IReadOnlyList<string>? Targets { get; init; }

    /// <summary>The option <c>--metric</c>: columns that are shown.</summary>
    public IReadOnlyList<string>? Metrics { get; init; }

    /// <summary>Places of the layouts that run.</summary>
    public ImmutableArray<int>? Layouts { get; init; }

    /// <summary>The load states of the scenario in which every variant runs, in this order.</summary>
    public ImmutableArray<LoadState>? Loads { get; init; }

    /// <summary>Whether a text says how a number is varied, in one of <see cref="VaryForms"/>.</summary>
    /// <param name="text">The text.</param>
    public static bool IsVary(string text) => ParameterOf(text) is not null;

    /// <summary>Whether a text says a target, in one of <see cref="TargetForms"/>.</summary>
    /// <param name="text">The text.</param>
    public static bool IsTarget(string text) => TargetOf(text) is not null;

    /// <summary>For each key of a sweep that these replace, the option that does: faults name it.</summary>
    internal IReadOnlyDictionary<string, string> ByKey => new (string Key, string Option, object? Given)[]
    {
        ("parameters", "--vary", Vary), ("design", "--design", Design), ("samples", "--samples", Samples), ("seed", "--seed", Seed),
        ("targets", "--target", Targets), ("metrics", "--metric", Metrics),
    }.Where(option => option.Given is not null).ToDictionary(option => option.Key, option => option.Option);

    /// <summary>The scenario's sweep with what these replace.</summary>
    /// <exception cref="DataFileException">The design draws no samples, and a number or seed of samples is given.</exception>
    internal SweepFile In(SweepFile own)
    {
        var design = Design ?? own.Design;
        if (design is SweepDesignKind.FullFactorial or SweepDesignKind.OneAtATime && (Samples ?? Seed) is not null)
        {
            throw new DataFileException(new DataFileFault(
                Samples is null ? "--seed" : "--samples", null, null, null,
                "the design takes the levels given and draws no samples: choose latinHypercube, sobol or sensitivity with --design, or leave this option out"));
        }

        return own with
        {
            Parameters = Vary is null ? own.Parameters : [.. Vary.Select(text => ParameterOf(text) ?? throw new ArgumentException($"“{text}” is not {VaryForms}."))],
            Design = design,
            Samples = Samples ?? own.Samples,
            Seed = Seed ?? own.Seed,
            Targets = Targets is null ? own.Targets : [.. Targets.Select(text => TargetOf(text) ?? throw new ArgumentException($"“{text}” is not {TargetForms}."))],
            Metrics = Metrics ?? own.Metrics,
        };
    }

    private static SweepParameterFile? ParameterOf(string text)
    {
        // A name in a path may hold an equals sign; the values do not.
        var split = text.LastIndexOf('=');
        return split > 0 ? ParameterOf(text[..split].Trim(), text[(split + 1)..].Split(':', StringSplitOptions.TrimEntries)) : null;
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

    private static SweepTargetFile? TargetOf(string text)
    {
        foreach (var sign in (string[])["<=", ">="])
        {
            if (text.Split(sign, StringSplitOptions.TrimEntries) is [{ Length: > 0 } metric, var limit] && NumberOf(limit) is { } value)
                return sign == "<=" ? new SweepTargetFile { Metric = metric, AtMost = value } : new SweepTargetFile { Metric = metric, AtLeast = value };
        }

        return null;
    }

    private static double? NumberOf(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;
}
