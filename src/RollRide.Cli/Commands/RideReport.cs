using System.Globalization;
using RollRide.Modes;
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
        foreach (var metric in MetricCatalogue.Ride)
        {
            table.Add([metric.Label, metric.Unit, .. layouts.Select(layout => layout.Of(run => metric.Value(run.Ride)) is { } interval
                ? string.Create(CultureInfo.InvariantCulture, $"{interval.Mean.ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture)} ± {interval.HalfWidth.ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture)}")
                : "–")]);
        }

        table.Write(output);
        output.WriteLine();
        foreach (var sentence in SeedConclusions.Of(layouts, baseline))
            output.WriteLine(sentence);
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
