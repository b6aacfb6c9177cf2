using RollRide.Metrics;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>A damper that runs out of its stroke.</summary>
/// <param name="Side">The side of the damper.</param>
/// <param name="IsCompression">Whether it closes, or else is pulled to its end.</param>
/// <param name="Travel">How far it moved from ride height, m.</param>
/// <param name="Limit">How far it can move, m.</param>
public sealed record StrokeOverrun(Side Side, bool IsCompression, double Travel, double Limit)
{
    /// <summary>Finds which dampers run out of their stroke.</summary>
    /// <param name="layout">The layout that was driven: of a mirrored run the mirrored one.</param>
    /// <param name="run">The run.</param>
    public static IEnumerable<StrokeOverrun> Of(DamperLayout layout, PhaseMetrics run)
    {
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(run);
        foreach (var side in (Side[])[Side.Left, Side.Right])
        {
            var (damper, peaks) = (layout.On(side), run.DamperOn(side));
            if (peaks.CompressionTravel > damper.CompressionTravel)
                yield return new StrokeOverrun(side, true, peaks.CompressionTravel, damper.CompressionTravel.Value);
            if (peaks.ReboundTravel > damper.ReboundTravel)
                yield return new StrokeOverrun(side, false, peaks.ReboundTravel, damper.ReboundTravel.Value);
        }
    }
}
