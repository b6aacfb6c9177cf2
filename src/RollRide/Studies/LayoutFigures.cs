using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Numerics;

namespace RollRide.Studies;

/// <summary>The figures of one layout's run alone: <see cref="LayoutResult"/> without what the layout is by itself.</summary>
/// <param name="Car">Vehicle and layout.</param>
/// <param name="Metrics">The figures of the run.</param>
/// <param name="Ride">The ride on a random road; null where there is none.</param>
/// <param name="ReferenceModes">The modes at the reference damper velocity.</param>
/// <param name="Statistics">What the integration cost.</param>
public sealed record LayoutFigures(
    AssembledHalfCar Car, RunMetrics Metrics, RideMetrics? Ride, ModeSet ReferenceModes, RunStatistics Statistics)
{
    /// <summary>Where the vehicle stands under its load; null where it stands as written.</summary>
    public LoadedHalfCar? Loaded { get; init; }
}
