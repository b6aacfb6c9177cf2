using RollRide.DataFiles;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes the bands of a placement as CSV: one row per band.</summary>
public static class PlacementTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">What was found in each load state, or for the vehicle as written alone.</param>
    public static void Write(TextWriter output, IReadOnlyList<PlacementResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        using var table = new CsvTableWriter(output, [.. LoadStates.Columns(states[0].Study), "band", "limitInboard", "limitOutboard", "from_mm", "to_mm", "heaveRatio", "rollRatio", "heaveDampingRatio", "rollDampingRatio", "rollDampingLost_percent", "windowFrom_N_s_per_m", "windowTo_N_s_per_m"]);
        foreach (var (study, band) in states.SelectMany(result => result.Bands.Select(band => (result.Study, band))))
        {
            table.WriteRow(
                [.. LoadStates.Fields(study), PlacementStudy.NameOf(band.Band.Side), band.Band.InnerLimit?.Text ?? "", band.Band.OuterLimit?.Text ?? ""],
                [
                    Unit.Millimetre.Of(band.Band.Inner), Unit.Millimetre.Of(band.Band.Outer), band.Layout.Fitting.HeaveRatio, band.Layout.Fitting.RollRatio,
                    band.Modes.Heave.DampingRatio, band.Modes.Roll.DampingRatio, band.RollDampingLost * 100,
                    band.Window is { IsOpen: true } open ? open.Lower.Coefficient : double.NaN,
                    band.Window is { IsOpen: true } window ? window.Upper.Coefficient : double.NaN,
                ]);
        }
    }
}
