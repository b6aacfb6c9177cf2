using RollRide.Damping;
using RollRide.DataFiles;

namespace RollRide.Results;

/// <summary>Writes a force–velocity curve in the form that a scenario reads as <c>dyno</c>.</summary>
public static class CurveTable
{
    // Far finer than any dynamometer, and short enough to read.
    private const int Digits = 8;

    /// <summary>Writes the curve.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="curve">The curve.</param>
    public static void Write(TextWriter output, ForceVelocityCurve curve)
    {
        ArgumentNullException.ThrowIfNull(curve);
        using var table = new CsvTableWriter(output, ["velocity_m_per_s", "force_N"], Digits);
        foreach (var point in curve.Points)
            table.WriteRow(point.Velocity, point.Force);
    }
}
