using System.CommandLine;
using System.Globalization;
using RollRide.Cli.Terminals;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Sweeps;

namespace RollRide.Cli.Commands;

/// <summary>Writes what a whole sweep found: the files beside its table, a table on the terminal, and the conclusions.</summary>
internal static class SweepReport
{
    /// <returns>The exit code: a sweep in which nothing ran has failed.</returns>
    public static int Write(ParseResult parsed, SweepInput input, SweepPlan plan, OutputFile output, SweepTable table, CancellationToken cancellation)
    {
        try
        {
            return WriteAll(parsed, input, plan, output, table, cancellation);
        }
        catch (OperationCanceledException)
        {
            parsed.InvocationConfiguration.Error.WriteLine($"Stopped; all variants are in {table.FullPath}, but statistics and figures are not written. The same command writes them{(parsed.CommandResult.Command.Name == "sweep" ? " with --resume, and runs none again" : "")}.");
            return ExitCode.Cancelled;
        }
    }

    private static int WriteAll(ParseResult parsed, SweepInput input, SweepPlan plan, OutputFile output, SweepTable table, CancellationToken cancellation)
    {
        var analysis = table.Analyse(cancellation);
        var folder = StudyFolder.Write(
            input.Out(parsed),
            ("sweep-summary.json", writer => SweepSummary.Write(writer, analysis)),
            [
                ("sweep-statistics.csv", writer => SweepStatisticsTable.Write(writer, analysis)),
                ("sweep-drivers.csv", writer => SweepDriversTable.Write(writer, analysis)),
            ],
            folder =>
            {
                if (input.WithPlots(parsed))
                    input.Figures.AddFiles(parsed, folder, plan.Study.Provenance.Scenario, output, SweepFigures.All(analysis), cancellation);
            },
            cancellation);
        var terminal = parsed.InvocationConfiguration.Output;
        if (input.AsJson(parsed))
        {
            terminal.Write(folder.Summary);
        }
        else
        {
            WriteTable(terminal, analysis);
            StudyReport.WriteEnd(terminal, SweepConclusions.Of(analysis), folder with { Files = [table.FileName, table.RecordName, .. folder.Files] });
        }

        return analysis.Groups.All(group => group.Failed == group.Variants) ? ExitCode.RunFailed : ExitCode.Done;
    }

    private static void WriteTable(TextWriter output, SweepAnalysis analysis)
    {
        var plan = analysis.Plan;
        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{plan.Study.Provenance.Scenario} — {plan.VariantCount} variant{(plan.VariantCount == 1 ? "" : "s")} of {plan.Layouts.Length} layout{(plan.Layouts.Length == 1 ? "" : "s")}"));
        foreach (var parameter in plan.Parameters)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {parameter.Name}: {parameter.Values.Words} (in the scenario {parameter.BaseValue})"));
        foreach (var state in plan.LoadStates)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  load state {state.Name}: {state.BodyMass:0.#} kg, centre of gravity at {Unit.Millimetre.Show(state.CgHeight):0.#}, {state.RollInertia:0.#} kg·m²"));
        output.WriteLine();
        var hasTargets = analysis.Groups.Any(group => group.Metrics.Any(finding => plan.Shown.Contains(finding.Metric) && !finding.Misses.IsEmpty));
        var table = new TextTable(["", "unit", "mean", "deviation", "least", "5 %", "median", "95 %", "greatest", .. hasTargets ? ["miss the target [%]"] : Array.Empty<string>()]);
        foreach (var metric in plan.Shown)
        {
            if (metric != plan.Shown[0])
                table.AddGap();
            table.Add($"[{metric.Label}]");
            foreach (var group in analysis.Groups)
            {
                var found = group.Metrics.First(finding => finding.Metric == metric);
                var s = found.Statistics;
                table.Add([group.Name, metric.Unit, .. new[] { s.Mean, s.Deviation, s.Minimum, s.Percentile5, s.Median, s.Percentile95, s.Maximum }
                    .Select(value => double.IsNaN(value) ? "–" : value.ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture)),
                    .. hasTargets ? [string.Join("; ", found.Misses.Select(miss => Words(miss, plan.Design.IsSampled)))] : Array.Empty<string>()]);
            }
        }

        table.Write(output);
    }

    /// <summary>The share that misses a target, with its 95 % interval where the variants are a sample of many.</summary>
    private static string Words(TargetMiss miss, bool isSampled)
    {
        var (low, high) = ShareInterval.Of(miss.Misses, miss.Of);
        return isSampled
            ? FormattableString.Invariant($"{100 * miss.Share:F1} ({100 * low:F1} to {100 * high:F1})")
            : FormattableString.Invariant($"{100 * miss.Share:F1}");
    }
}
