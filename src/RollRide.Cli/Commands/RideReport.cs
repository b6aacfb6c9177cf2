using System.Globalization;
using RollRide.Cli.Terminals;
using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Prints what many seeds and the linear reference say.</summary>
internal static class RideReport
{
    public static void WriteSeeds(TextWriter output, IReadOnlyList<SeededRuns> layouts, int baseline)
    {
        output.WriteLine();
        output.WriteLine($"Over {SeedConclusions.Roads(layouts)}: mean ± half of the 95 % interval");
        output.WriteLine();
        var table = new TextTable(["[ride]", "unit", .. layouts.Select(layout => layout.Layout)]);
        void Row<T>(MetricDefinition<T> metric, Func<SeededRun, T> of) =>
            table.Add([metric.Label, metric.Unit.Symbol, .. layouts.Select(layout => layout.Of(run => metric.Shown(of(run))) is { } interval
                ? string.Create(CultureInfo.InvariantCulture, $"{interval.Mean.ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture)} ± {interval.HalfWidth.ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture)}")
                : "–")]);

        foreach (var metric in RideMetric.All)
            Row(metric, run => run.Ride);
        table.Write(output);
        if (layouts.Any(layout => layout.Runs[0].Mirrored is not null))
            output.WriteLine("The sides of the vehicle differ: these values are for the roads as given. The decision takes the worse of each road and its mirror image, and seeds.csv has both.");
        output.WriteLine();
        foreach (var sentence in SeedConclusions.Of(layouts, baseline))
            output.WriteLine(sentence);
    }

    public static void WriteLinear(TextWriter output, ComparisonFindings found)
    {
        var layouts = found.Linear;
        output.WriteLine();
        output.WriteLine("Linear reference: each damper as one coefficient fitted to its own velocity on this road, by integrating spectra");
        var isWhite = !layouts[0].OnWhiteRoad.IsEmpty;
        if (isWhite)
            output.WriteLine("Lyapunov: the same on a road of that roughness whose velocity is white noise (all wavelengths, point contact), for uncorrelated and for identical tracks");
        output.WriteLine();
        var table = new TextTable(["Layout", "quantity", "unit", "linear", .. isWhite ? ["Lyapunov"] : Array.Empty<string>(), "simulated", "difference [%]"]);
        var largest = 0.0;
        foreach (var layout in layouts)
        {
            table.Add([layout.Simulated.Name, "damper coefficient", "N·s/m", Text($"{layout.DamperCoefficient:F0}"), .. isWhite ? [""] : Array.Empty<string>(), "", ""]);
            foreach (var quantity in LinearTable.Quantities)
            {
                var (expected, simulated) = (quantity.Linear(layout), quantity.Simulated(layout));
                var difference = expected > 0 ? 100 * ((simulated / expected) - 1) : 0;
                largest = Math.Max(largest, Math.Abs(difference));
                string Show(double value) => double.IsInfinity(value) ? "∞" : value.ToString($"F{quantity.Decimals}", CultureInfo.InvariantCulture);
                string[] range = [.. quantity.OnWhiteRoad(layout).Select(Show)];
                table.Add([
                    "", quantity.Label, quantity.Unit.Symbol, Show(expected), .. range.Length == 0 ? Array.Empty<string>() : [range[0] == range[1] ? range[0] : $"{range[0]} to {range[1]}"],
                    Show(simulated), Text($"{difference:+0.0;−0.0;0.0}")]);
            }
        }

        table.Write(output);
        output.WriteLine();
        output.WriteLine(Text($"Linear and simulated differ by up to {largest:F0} %. Damper curves that are not straight, friction, stops and obstacles contribute, and so does chance on one road of this length{(found.Seeds.Count == 0 ? "; --seeds tells how large chance is" : ": the intervals above tell how large")}."));
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
