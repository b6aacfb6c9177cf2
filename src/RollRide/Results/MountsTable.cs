using RollRide.DataFiles;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes the dampers' motion over the travel as CSV: one row a layout and position.</summary>
public static class MountsTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="result">What was found.</param>
    public static void Write(TextWriter output, MountsResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        using var table = new CsvTableWriter(output, ["layout", "heave_mm", "roll_deg", "heaveRatio", "rollRatio", "compression_mm", "length_mm"]);
        foreach (var layout in result.Layouts)
        {
            foreach (var at in layout.InHeave.Concat(layout.InRoll))
            {
                table.WriteRow(
                    [layout.Layout.Name],
                    [
                        at.Heave * 1e3, at.Roll * 180 / Math.PI, at.HeaveRatio, at.RollRatio, at.Compression * 1e3,
                        layout.Length is { } length ? (length - at.Compression) * 1e3 : double.NaN,
                    ]);
            }
        }
    }
}
