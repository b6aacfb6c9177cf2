using RollRide.DataFiles;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes the dampers' motion over the travel as CSV: one row per layout and position.</summary>
public static class MountsTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">What was found in each load state, or for the vehicle as written alone.</param>
    public static void Write(TextWriter output, IReadOnlyList<MountsResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        using var table = new CsvTableWriter(output, [.. LoadStates.Columns(states[0].Study), "layout", "heave_mm", "roll_deg", "heaveRatio", "rollRatio", "compression_mm", "length_mm"]);
        foreach (var (study, layout) in states.SelectMany(result => result.Layouts.Select(layout => (result.Study, layout))))
        {
            foreach (var at in layout.InHeave.Concat(layout.InRoll))
            {
                table.WriteRow(
                    [.. LoadStates.Fields(study), layout.Name],
                    [
                        Unit.Millimetre.Of(at.Heave), Unit.Degree.Of(at.Roll), at.HeaveRatio, at.RollRatio, Unit.Millimetre.Of(at.Compression),
                        layout.Length is { } length ? Unit.Millimetre.Of(length - at.Compression) : double.NaN,
                    ]);
            }
        }
    }
}
