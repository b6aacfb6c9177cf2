using RollRide.DataFiles;
using RollRide.Findings;
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

    /// <summary>The styles of the layouts.</summary>
    public static LayoutStyles Styles(SweepAnalysis analysis) =>
        new([.. analysis.Plan.Study.ScenarioLayouts], [.. analysis.Plan.LayoutNames]);

    /// <summary>Provenance, the size of the sweep and the caution.</summary>
    public static string Footer(SweepAnalysis analysis)
    {
        var lines = FigureParts.Footer(analysis.Plan.Study).Split('\n');
        return FigureParts.Text($"{lines[0]} · {analysis.Plan.VariantCount} variants\n{lines[1]}");
    }

    /// <summary>The load state as a subtitle ends.</summary>
    public static string In(SweepAnalysis analysis, int state) => analysis.Plan.LoadStates.IsEmpty ? "" : $" Load state: {analysis.Plan.LoadStates[state].Name}.";

    /// <summary>The parameters in words.</summary>
    public static ParameterNames Names(SweepAnalysis analysis) => new(analysis.Plan.Parameters);

    /// <summary>The unit of a metric behind a number; "" for none.</summary>
    public static string Unit(SweepMetric metric) => metric.Unit.Length == 0 ? "" : " " + metric.Unit;

    /// <summary>A metric's value with its unit.</summary>
    public static string Value(SweepMetric metric, double value) => PlotText.Value(value, metric.Decimals, metric.Unit);

    /// <summary>The targets on a metric as lines across its axis.</summary>
    public static IReadOnlyList<ReferenceLine> TargetLines(SweepAnalysis analysis, SweepMetric metric) =>
        [.. analysis.Plan.Targets.Where(target => target.Metric == metric.Key).Select(target => new ReferenceLine(target.Limit, $"target {target.Words}"))];
}
