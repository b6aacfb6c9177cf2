using System.Globalization;
using RollRide.Modes;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Prints what many seeds and the linear reference say.</summary>
internal static class RideReport
{
    public static void WriteSeeds(TextWriter output, IReadOnlyList<SeededRuns> layouts)
    {
        output.WriteLine();
        output.WriteLine(Text($"Over {layouts[0].Runs.Length} random roads, seeds {layouts[0].Runs[0].Seed} to {layouts[0].Runs[^1].Seed}: mean ± half of the 95 % interval"));
        output.WriteLine();
        var table = new TextTable(["[ride]", "unit", .. layouts.Select(layout => layout.Layout)]);
        foreach (var metric in MetricCatalogue.Ride)
        {
            table.Add([metric.Label, metric.Unit, .. layouts.Select(layout => layout.Of(run => metric.Value(run.Ride)) is { } interval
                ? string.Create(CultureInfo.InvariantCulture, $"{interval.Mean.ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture)} ± {interval.HalfWidth.ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture)}")
                : "–")]);
        }

        table.Write(output);
        output.WriteLine();
        foreach (var other in layouts.Skip(1))
        {
            // Every layout met the same roads: the differences road by road tell more than the two means.
            var difference = MeanInterval.Of([.. other.Runs.Zip(layouts[0].Runs, (a, b) => a.Ride.WorstSeat.Total - b.Ride.WorstSeat.Total)]);
            output.WriteLine(Math.Abs(difference.Mean) > difference.HalfWidth
                ? Text($"'{other.Layout}' shakes the worst seat {Math.Abs(difference.Mean):F3} ± {difference.HalfWidth:F3} m/s² {(difference.Mean > 0 ? "more" : "less")} than '{layouts[0].Layout}', road by road: more than chance.")
                : Text($"'{other.Layout}' and '{layouts[0].Layout}' differ at the worst seat by {difference.Mean:F3} ± {difference.HalfWidth:F3} m/s², road by road: no more than chance."));
        }
    }

    public static void WriteLinear(TextWriter output, ComparisonResult result)
    {
        output.WriteLine();
        output.WriteLine("Linear reference: each damper as one coefficient fitted to its own velocity on this road, by integrating spectra");
        output.WriteLine();
        var table = new TextTable("Layout", "quantity", "unit", "linear", "simulated", "difference [%]");
        var road = result.Study.Manoeuvre.Road;
        var largest = 0.0;
        foreach (var layout in result.Layouts)
        {
            var (coefficient, linear) = StatisticalLinearisation.OnRoad(layout.Car, road.Unevenness!, road.Speed);
            var ride = layout.Ride!;
            table.Add(layout.Name, "damper coefficient", "N·s/m", Text($"{coefficient:F0}"), "", "");
            void Row(string quantity, string unit, int decimals, double expected, double simulated)
            {
                var difference = expected > 0 ? 100 * ((simulated / expected) - 1) : 0;
                largest = Math.Max(largest, Math.Abs(difference));
                string Show(double value) => value.ToString($"F{decimals}", CultureInfo.InvariantCulture);
                table.Add("", quantity, unit, Show(expected), Show(simulated), Text($"{difference:+0.0;−0.0;0.0}"));
            }

            var staticLoad = ride.Loads[0].Static;
            Row("body acceleration, RMS", "m/s²", 3, linear.BodyAcceleration, ride.BodyAccelerationRms);
            Row("roll acceleration, RMS", "rad/s²", 3, linear.RollAcceleration, ride.RollAccelerationRms);
            Row("wheel travel, RMS", "mm", 2, linear.WheelTravel * 1e3, ride.WheelTravelRms * 1e3);
            Row("damper velocity, RMS", "m/s", 3, linear.DamperVelocity, ride.DamperVelocityRms);
            Row("dynamic load coefficient", "", 3, linear.TyreLoad / staticLoad, ride.DynamicLoadCoefficient);
        }

        table.Write(output);
        output.WriteLine();
        output.WriteLine(largest < 10
            ? Text($"Linear and simulated agree within {largest:F0} %: on this road the bent damper curves and the stops matter little, and the rest is chance of a road of this length.")
            : Text($"Linear and simulated differ by up to {largest:F0} %: bent damper curves, friction, stops, obstacles, or a road too short for an average."));
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
