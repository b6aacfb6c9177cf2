using RollRide.Metrics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>A movement of the suspension.</summary>
public enum TravelKind
{
    /// <summary>A wheel in bump.</summary>
    Bump,

    /// <summary>A wheel in rebound.</summary>
    Rebound,

    /// <summary>The body in roll against the axle.</summary>
    Roll,
}

/// <summary>A run that goes beyond the travel that the vehicle gives.</summary>
/// <param name="Kind">The movement.</param>
/// <param name="Value">How far it went, m or rad.</param>
/// <param name="Limit">How far the travel goes, m or rad; of a wheel, that of full travel with full roll.</param>
public sealed record TravelOverrun(TravelKind Kind, double Value, double Limit)
{
    /// <summary>Finds where a run goes beyond the travel.</summary>
    /// <param name="vehicle">The vehicle; without a travel nothing is found.</param>
    /// <param name="run">The run.</param>
    public static IEnumerable<TravelOverrun> Of(HalfCar vehicle, PhaseMetrics run)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentNullException.ThrowIfNull(run);
        if (vehicle.Travel is not { } travel)
            return [];
        var byRoll = vehicle.HalfTrack * travel.Roll;
        TravelOverrun[] movements =
        [
            new(TravelKind.Bump, run.BumpTravelPeak, travel.Bump + byRoll),
            new(TravelKind.Rebound, run.ReboundTravelPeak, travel.Rebound + byRoll),
            new(TravelKind.Roll, run.SuspensionRollPeak, travel.Roll),
        ];
        return movements.Where(movement => movement.Value > movement.Limit);
    }
}
