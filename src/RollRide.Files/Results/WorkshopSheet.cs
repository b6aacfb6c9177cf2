using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Numerics;

namespace RollRide.Results;

/// <summary>The valving sheet that goes to the damper workshop, in the form that a scenario reads as <c>dyno</c>.</summary>
/// <param name="Name">What the damper is called.</param>
/// <param name="Curve">The force of its valves.</param>
/// <param name="Tolerance">By how much the forces may differ; null where nothing is agreed.</param>
public sealed record WorkshopSheet(string Name, ForceVelocityCurve Curve, ForceTolerance? Tolerance)
{
    // Far finer than any dynamometer, and short enough to read.
    private const int Digits = 8;

    /// <summary>
    /// The speeds of the rows, m/s, ascending: the usual test velocities, and the speeds of the curve's own points, so that the sheet read
    /// back is the curve.
    /// </summary>
    public IReadOnlyList<double> Speeds =>
        [.. Valving.StandardTestVelocities.Concat(Curve.Points.Select(point => Math.Abs(point.Velocity))).Where(speed => speed > 0).Distinct().Order()];

    /// <summary>Writes the sheet: both directions as positive numbers.</summary>
    /// <param name="output">Where it goes.</param>
    public void Write(TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write($"# Valving sheet of {Name.ReplaceLineEndings(" ")}: force of the valves, without friction and gas; both directions positive\n");
        output.Write(FormattableString.Invariant($"# Measured or set up to {Curve.MaximumVelocity:0.###} m/s in compression and {-Curve.MinimumVelocity:0.###} m/s in rebound; beyond, extended straight\n"));
        using var table = new CsvTableWriter(output, ["speed_m_per_s", "compression_N", "rebound_N", .. Tolerance is null ? [] : (string[])["tolerance_percent"]], Digits);
        foreach (var speed in Speeds)
            table.WriteRow([speed, Curve.Force(speed), -Curve.Force(-speed), .. Tolerance is { } tolerance ? (double[])[Unit.Percent.Of(tolerance.At(speed))] : []]);
    }
}
