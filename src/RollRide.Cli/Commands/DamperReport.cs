using System.Globalization;
using RollRide.Cli.Terminals;
using RollRide.Damping;
using RollRide.Findings;
using RollRide.Numerics;

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
            output.WriteLine($"outlier: {outlier.Run}, cycle {outlier.Cycle}: {TextTable.Number(outlier.Force, 1)} N at {TextTable.Number(outlier.Velocity, 3)} m/s; the median is {TextTable.Number(outlier.Median, 1)} N");
        foreach (var warning in reduction.Warnings)
            output.WriteLine($"warning: {warning}");
        foreach (var sentence in DamperConclusions.Of(reduction, fit))
            output.WriteLine(sentence);
        output.WriteLine();
        output.WriteLine($"Written to {folder.Path}: {string.Join(", ", folder.Files)}");
    }

    private static void WriteSlowForces(TextWriter output, DynoReduction reduction)
    {
        output.WriteLine($"Friction {Quantity(reduction.Friction, 1, "N")}, gas force {Quantity(reduction.GasForce, 1, "N")} at mid-stroke, gas rate {Quantity(Unit.NewtonPerMillimetre.Of(reduction.GasRate), 3, Unit.NewtonPerMillimetre.Symbol)}");
        output.WriteLine((reduction.Friction, reduction.GasForce) switch
        {
            (null, null) => "These data show neither friction nor gas force: any friction or gas force is still in the curve.",
            (null, _) => "The gas force is taken out of the curve; friction is still in it.",
            _ => "Friction and gas force are taken out of the curve.",
        });
    }

    private static string Quantity(double? value, int decimals, string unit) => value is null ? "–" : $"{TextTable.Number(value, decimals)} {unit}";

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
                TextTable.Number(Unit.Millimetre.Of(speed.Stroke), 1),
                TextTable.Number(c?.Velocity, 3),
                TextTable.Number(c?.Force, 1),
                TextTable.Number(r?.Velocity, 3),
                TextTable.Number(r?.Force, 1),
                TextTable.Number(speed.EnergyPerCycle, 2),
                TextTable.Number(speed.Hysteresis, 1),
                TextTable.Number(compression, 0),
                TextTable.Number(rebound, 0),
                TextTable.Number(rebound / compression, 2));
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
                TextTable.Number(valve.BleedSlope, 0),
                TextTable.Number(valve.KneeVelocity, 3),
                TextTable.Number(valve.KneeForce, 0),
                TextTable.Number(valve.HighSpeedSlope, 0),
                TextTable.Number(valve.BlowOff?.Velocity, 3),
                TextTable.Number(valve.BlowOff?.Slope, 0),
                TextTable.Number(valve.Rounding, 2));
        }

        table.Write(output);
    }

    private static void WriteTestPoints(TextWriter output, Valving valving)
    {
        var points = valving.ForcesAt(Valving.StandardTestVelocities);
        var table = new TextTable(["Valving at", .. points.Select(p => $"{TextTable.Number(p.Velocity, 3)} m/s")]);
        table.Add(["Compression [N]", .. points.Select(p => TextTable.Number(p.Compression, 0))]);
        table.Add(["Rebound [N]", .. points.Select(p => TextTable.Number(p.Rebound, 0))]);
        table.Add(["Rebound/compression", .. points.Select(p => TextTable.Number(p.ReboundToCompression, 2))]);
        table.Write(output);
    }
}
