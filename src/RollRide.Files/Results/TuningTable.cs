using RollRide.DataFiles;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes a trade-off front as a table: one row per point. With load states both objectives are those of the worst one, which is named.</summary>
public static class TuningTable
{
    /// <summary>Writes the fronts of all layouts.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="result">What tuning found.</param>
    public static void WriteFronts(TextWriter output, TuningResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var hasLoads = !result.Study.Loads.IsEmpty;
        using var table = new CsvTableWriter(output,
        [
            "layout", "compromise", .. hasLoads ? ["rideLoadState", "overshootLoadState"] : Array.Empty<string>(), "weightedAcceleration_m_per_s2", "overshoot_percent", "kneeVelocity_m_per_s",
            "compressionBleed_N_s_per_m", "compressionHighSpeed_N_s_per_m", "reboundBleed_N_s_per_m", "reboundHighSpeed_N_s_per_m",
        ]);
        foreach (var front in result.Layouts.Select(layout => layout.Front).OfType<TradeOffFront>())
        {
            for (var i = 0; i < front.Points.Length; i++)
            {
                var (point, compression, rebound) = (front.Points[i], front.Points[i].Valving.Compression, front.Points[i].Valving.Rebound);
                table.WriteRow(
                    [front.Layout, i == front.CompromiseIndex ? "best" : "", .. hasLoads ? [point.RideLoad!, point.RollLoad!] : Array.Empty<string>()],
                    [
                        point.WeightedAcceleration, 100 * point.Overshoot, compression.KneeVelocity,
                        compression.BleedSlope, compression.HighSpeedSlope, rebound.BleedSlope, rebound.HighSpeedSlope,
                    ]);
            }
        }
    }
}
