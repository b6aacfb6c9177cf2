using System.CommandLine;
using System.Globalization;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Studies;
using RollRide.Sweeps;

namespace RollRide.Cli.Commands;

/// <summary>Writes what a whole sweep found: the files beside its table, a table on the terminal, and the conclusions.</summary>
internal static class SweepReport
{
    /// <returns>The exit code: a sweep in which nothing ran has failed.</returns>
    public static int Write(ParseResult parsed, SweepInput input, SweepPlan plan, SweepTable table, CancellationToken cancellation)
    {
        var analysis = SweepAnalysis.Of(plan, table, cancellation);
        using var folder = new OutputFolder(input.Out(parsed));
        folder.Add("sweep-summary.json", output => SweepSummary.Write(output, analysis));
        folder.Add("sweep-statistics.csv", output => SweepStatisticsTable.Write(output, analysis));
        folder.Add("sweep-drivers.csv", output => SweepDriversTable.Write(output, analysis));
        if (input.WithPlots(parsed))
        {
            var settings = plan.Template.Scenario.Output;
            foreach (var figure in SweepFigures.All(analysis, new PlotSize(settings.ImageWidthPx, settings.ImageHeightPx)))
            {
                cancellation.ThrowIfCancellationRequested();
                folder.AddBytes(figure.FileName, PngRenderer.Render(figure));
            }
        }

        folder.Commit();
        var output = parsed.InvocationConfiguration.Output;
        WriteTable(output, analysis);
        output.WriteLine();
        foreach (var sentence in SweepConclusions.Of(analysis))
            output.WriteLine(sentence);
        output.WriteLine();
        output.WriteLine(string.Join(' ', Cautions.All));
        output.WriteLine();
        output.WriteLine($"Written to {input.Out(parsed)}: {table.FileName}, {table.RecordName}, {string.Join(", ", folder.Names)}");
        return analysis.Groups.All(group => group.Failed == group.Variants) ? ExitCode.RunFailed : ExitCode.Done;
    }

    private static void WriteTable(TextWriter output, SweepAnalysis analysis)
    {
        var plan = analysis.Plan;
        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{plan.Template.Scenario.Study.Provenance.Scenario} — {plan.VariantCount} variant{(plan.VariantCount == 1 ? "" : "s")} of {plan.Layouts.Length} layout{(plan.Layouts.Length == 1 ? "" : "s")}"));
        foreach (var parameter in plan.Parameters)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {parameter.Name}: {parameter.Values.Words} (in the scenario {parameter.BaseValue})"));
        foreach (var state in plan.LoadStates)
            output.WriteLine($"  load state {state.Name}: {string.Join(", ", state.Numbers.Select(number => string.Create(CultureInfo.InvariantCulture, $"{number.Key} = {number.Value}")))}");
        output.WriteLine();
        var table = new TextTable("", "unit", "mean", "deviation", "least", "5 %", "median", "95 %", "greatest");
        foreach (var metric in plan.Shown)
        {
            if (metric != plan.Shown[0])
                table.AddGap();
            table.Add($"[{metric.Label}]");
            foreach (var group in analysis.Groups)
            {
                var s = group.Metrics.First(finding => finding.Metric == metric).Statistics;
                table.Add([group.Name, metric.Unit, .. new[] { s.Mean, s.Deviation, s.Minimum, s.Percentile5, s.Median, s.Percentile95, s.Maximum }
                    .Select(value => double.IsNaN(value) ? "–" : value.ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture))]);
            }
        }

        table.Write(output);
    }
}
