using System.Globalization;
using RollRide.Damping;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Prints a reduced dynamometer record: what was measured, the valving, and the conclusions.</summary>
internal static class DamperReport
{
    public static void Write(TextWriter output, DynoReduction reduction, ValvingFit fit, WrittenFolder folder)
    {
        WriteSpeeds(output, reduction);
        output.WriteLine();
        WriteSlowForces(output, reduction);
        output.WriteLine();
        WriteValving(output, fit);
        output.WriteLine();
        WriteTestPoints(output, fit.Valving);
        output.WriteLine();
        foreach (var outlier in reduction.Outliers)
            output.WriteLine($"outlier: {outlier.Run}, cycle {outlier.Cycle}: {Number(outlier.Force, 1)} N at {Number(outlier.Velocity, 3)} m/s; the median is {Number(outlier.Median, 1)} N");
        foreach (var warning in reduction.Warnings)
            output.WriteLine($"warning: {warning}");
        foreach (var sentence in DamperConclusions.Of(reduction, fit))
            output.WriteLine(sentence);
        output.WriteLine();
        output.WriteLine($"Written to {folder.Path}: {string.Join(", ", folder.Files)}");
    }

    private static void WriteSlowForces(TextWriter output, DynoReduction reduction)
    {
        output.WriteLine($"Friction {Quantity(reduction.Friction, 1, "N")}, gas force {Quantity(reduction.GasForce, 1, "N")} at mid-stroke, gas rate {Quantity(reduction.GasRate * 1e-3, 3, "N/mm")}");
        output.WriteLine((reduction.Friction, reduction.GasForce) switch
        {
            (null, null) => "The data tell neither friction nor gas force: whatever there is of them is still in the curve.",
            (null, _) => "The gas force is taken out of the curve; friction is still in it.",
            _ => "Friction and gas force are taken out of the curve.",
        });
    }

    private static string Quantity(double? value, int decimals, string unit) => value is null ? "–" : $"{Number(value, decimals)} {unit}";

    private static void WriteSpeeds(TextWriter output, DynoReduction reduction)
    {
        var table = new TextTable("Measured", "cycles", "stroke [mm]", "compression [m/s]", "[N]", "rebound [m/s]", "[N]", "energy [J/cycle]", "hysteresis [N]", "curve: F/v compression", "rebound [N·s/m]", "rebound/compression");
        foreach (var speed in reduction.Speeds)
        {
            var (c, r) = (speed.Compression, speed.Rebound);

            // The coefficients are those of the curve, which friction and gas are not in as far as the data tell them.
            var compression = c is { } fast ? reduction.Curve.Force(fast.Velocity) / fast.Velocity : (double?)null;
            var rebound = r is { } back ? reduction.Curve.Force(back.Velocity) / back.Velocity : (double?)null;
            table.Add(
                speed.Name,
                speed.Cycles.ToString(CultureInfo.InvariantCulture),
                Number(speed.Stroke * 1e3, 1),
                Number(c?.Velocity, 3),
                Number(c?.Force, 1),
                Number(r?.Velocity, 3),
                Number(r?.Force, 1),
                Number(speed.EnergyPerCycle, 2),
                Number(speed.Hysteresis, 1),
                Number(compression, 0),
                Number(rebound, 0),
                Number(rebound / compression, 2));
        }

        table.Write(output);
    }

    private static void WriteValving(TextWriter output, ValvingFit fit)
    {
        var table = new TextTable("Valving fitted", "bleed [N·s/m]", "knee [m/s]", "knee [N]", "high speed [N·s/m]", "blow-off [m/s]", "beyond [N·s/m]", "rounding");
        foreach (var (name, valve) in new[] { ("Compression", fit.Valving.Compression), ("Rebound", fit.Valving.Rebound) })
        {
            table.Add(
                name,
                Number(valve.BleedSlope, 0),
                Number(valve.KneeVelocity, 3),
                Number(valve.KneeForce, 0),
                Number(valve.HighSpeedSlope, 0),
                Number(valve.BlowOff?.Velocity, 3),
                Number(valve.BlowOff?.Slope, 0),
                Number(valve.Rounding, 2));
        }

        table.Write(output);
    }

    private static void WriteTestPoints(TextWriter output, Valving valving)
    {
        var points = valving.ForcesAt(Valving.StandardTestVelocities);
        var table = new TextTable(["Valving at", .. points.Select(p => $"{Number(p.Velocity, 3)} m/s")]);
        table.Add(["Compression [N]", .. points.Select(p => Number(p.Compression, 0))]);
        table.Add(["Rebound [N]", .. points.Select(p => Number(p.Rebound, 0))]);
        table.Add(["Rebound/compression", .. points.Select(p => Number(p.ReboundToCompression, 2))]);
        table.Write(output);
    }

    private static string Number(double? value, int decimals) =>
        value is { } number ? number.ToString($"F{decimals}", CultureInfo.InvariantCulture) : "–";
}
