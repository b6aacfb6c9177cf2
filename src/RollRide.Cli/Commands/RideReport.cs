using RollRide.Metrics;
using System.Globalization;
using RollRide.Modes;
using RollRide.Roads;
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
        if (layouts[0].Runs[0].Metrics.RollResponse is not null)
        {
            table.AddGap();
            table.Add("[corner]");
            foreach (var metric in RollMetric.All)
                Row(metric, run => run.Metrics.RollResponse!);
        }

        table.Write(output);
        output.WriteLine();
        foreach (var sentence in SeedConclusions.Of(layouts, baseline))
            output.WriteLine(sentence);
    }

    public static void WriteLinear(TextWriter output, ComparisonResult result)
    {
        output.WriteLine();
        var road = result.Study.Manoeuvre.Road;
        var random = road.Unevenness!;
        output.WriteLine("Linear reference: each damper as one coefficient fitted to its own velocity on this road, by integrating spectra");

        // Only a road of all wavelengths that matter is near one of all there are.
        var isWhite = random.Spectrum is { Waviness: 2, BreakWavenumber: null, LowestWavenumber: <= RoadClasses.LowestWavenumber, HighestWavenumber: >= RoadClasses.HighestWavenumber };
        if (isWhite)
            output.WriteLine("Lyapunov: the same on a white road velocity of that roughness (all wavelengths, a point of contact), between tracks that are unrelated and alike");
        output.WriteLine();
        var table = new TextTable(["Layout", "quantity", "unit", "linear", .. isWhite ? ["Lyapunov"] : Array.Empty<string>(), "simulated", "difference [%]"]);
        var largest = 0.0;
        foreach (var layout in result.Layouts)
        {
            var (coefficient, linear) = StatisticalLinearisation.OnRoad(layout.Car, random, road.Speed);
            var ride = layout.Ride!;
            var model = new RandomResponse(layout.Car, coefficient);
            LinearRideResponse[] white = isWhite
                ? [model.OnWhiteVelocity(random.Spectrum.VelocityIntensity(road.Speed), 0), model.OnWhiteVelocity(random.Spectrum.VelocityIntensity(road.Speed), 1)]
                : [];
            table.Add([layout.Name, "damper coefficient", "N·s/m", Text($"{coefficient:F0}"), .. isWhite ? [""] : Array.Empty<string>(), "", ""]);
            var staticLoad = ride.Loads[0].Static;
            void Row(string quantity, string unit, int decimals, double scale, Func<LinearRideResponse, double> reference, double simulated)
            {
                var expected = scale * reference(linear);
                var difference = expected > 0 ? 100 * ((scale * simulated / expected) - 1) : 0;
                largest = Math.Max(largest, Math.Abs(difference));
                string Show(double value) => double.IsInfinity(value) ? "∞" : value.ToString($"F{decimals}", CultureInfo.InvariantCulture);
                string[] range = [.. white.Select(reference).Order().Select(value => Show(scale * value))];
                table.Add([
                    "", quantity, unit, Show(expected), .. range.Length == 0 ? Array.Empty<string>() : [range[0] == range[1] ? range[0] : $"{range[0]} to {range[1]}"],
                    Show(scale * simulated), Text($"{difference:+0.0;−0.0;0.0}")]);
            }

            Row("body acceleration, RMS", "m/s²", 3, 1, response => response.BodyAcceleration, ride.BodyAccelerationRms);
            Row("roll acceleration, RMS", "rad/s²", 3, 1, response => response.RollAcceleration, ride.RollAccelerationRms);
            Row("wheel travel, RMS", "mm", 2, 1e3, response => response.WheelTravel, ride.WheelTravelRms);
            Row("damper velocity, RMS", "m/s", 3, 1, response => response.DamperVelocity, ride.DamperVelocityRms);
            Row("dynamic load coefficient", "", 3, 1, response => response.TyreLoad / staticLoad, ride.DynamicLoadCoefficient);
        }

        table.Write(output);
        output.WriteLine();
        output.WriteLine(Text($"Linear and simulated differ by up to {largest:F0} %. Bent damper curves, friction, stops and obstacles have a part in that, and so has chance on one road of this length; --seeds tells how large chance is."));
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
