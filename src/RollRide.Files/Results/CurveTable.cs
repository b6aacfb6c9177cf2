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
    /// <param name="comments">Lines above the header, such as where the curve comes from; each of one line.</param>
    public static void Write(TextWriter output, ForceVelocityCurve curve, params IReadOnlyList<string> comments)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(curve);
        ArgumentNullException.ThrowIfNull(comments);
        foreach (var comment in comments)
            output.Write($"# {comment.ReplaceLineEndings(" ")}\n");
        using var table = new CsvTableWriter(output, ["velocity_m_per_s", "force_N"], Digits);
        foreach (var point in curve.Points)
            table.WriteRow(point.Velocity, point.Force);
    }
}
