using RollRide.DataFiles;
using RollRide.Sweeps;

namespace RollRide.Plots.Figures;

/// <summary>What the figures of a sweep share.</summary>
internal static class SweepFigureParts
{
    /// <summary>A file name with the metric and the load state where there are several.</summary>
    public static string FileName(SweepAnalysis analysis, string kind, int? shown, int state)
    {
        var metric = shown is { } place ? "-" + SafeFileNames.Clean(analysis.Plan.Shown[place].Key) : "";
        var load = analysis.Plan.LoadStates.IsEmpty ? "" : $"-{state + 1}-{SafeFileNames.Clean(analysis.Plan.LoadStates[state].Name)}";
        return $"sweep-{kind}{metric}{load}.png";
    }

    /// <summary>Provenance, the size of the sweep and the caution.</summary>
    public static string Footer(SweepAnalysis analysis)
    {
        var lines = FigureParts.Footer(analysis.Plan.Study).Split('\n');
        return FigureParts.Text($"{lines[0]} · {analysis.Plan.VariantCount} variants\n{lines[1]}");
    }

    /// <summary>The load state as a subtitle ends.</summary>
    public static string In(SweepAnalysis analysis, int state) => analysis.Plan.LoadStates.IsEmpty ? "" : $" Load state: {analysis.Plan.LoadStates[state].Name}.";

    /// <summary>A parameter's name without its unit, and the unit, as far as its key tells it: the last words of its path.</summary>
    public static (string Quantity, string Unit) AxisOf(SweepParameter parameter)
    {
        var key = parameter.Name;
        var at = key.IndexOf('_', Math.Max(0, key.LastIndexOf('.')));
        return at < 0 ? (Short(key), "") : (Short(key[..at] + key[UnitEnd(key, at)..]), key[(at + 1)..UnitEnd(key, at)].Replace("_per_", "/", StringComparison.Ordinal).Replace('_', '·'));
    }

    /// <summary>A parameter's name for the side of a chart: the last two words of its path, and the unit.</summary>
    public static string NameOf(SweepParameter parameter)
    {
        var (quantity, unit) = ShortAxisOf(parameter);
        return quantity + (unit.Length == 0 ? "" : $" [{unit}]");
    }

    /// <summary>As <see cref="AxisOf"/>, with only the last two words of the path.</summary>
    public static (string Quantity, string Unit) ShortAxisOf(SweepParameter parameter)
    {
        var (quantity, unit) = AxisOf(parameter);
        var words = quantity.Split('.');
        return (string.Join('.', words[^Math.Min(2, words.Length)..]), unit);
    }

    /// <summary>A metric's value with its unit.</summary>
    public static string Value(SweepMetric metric, double value) => PlotText.Value(value, metric.Decimals, metric.Unit);

    /// <summary>The targets on a metric as lines across its axis.</summary>
    public static IReadOnlyList<ReferenceLine> TargetLines(SweepAnalysis analysis, SweepMetric metric) =>
        [.. analysis.Plan.Targets.Where(target => target.Metric == metric.Key).Select(target => new ReferenceLine(target.Limit, $"target {target.Words}"))];

    // An index may follow the unit: axleEnd_mm[1].
    private static int UnitEnd(string key, int from) => key.IndexOf('[', from) is >= 0 and var bracket ? bracket : key.Length;

    private static string Short(string path)
    {
        const int longest = 34;
        return path.Length <= longest ? path : "…" + path[^(longest - 1)..];
    }
}
