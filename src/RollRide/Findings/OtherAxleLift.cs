using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Vehicle;

namespace RollRide.Findings;

/// <summary>What must be known of the other axle of a vehicle before its numbers are trusted.</summary>
internal static class OtherAxleLift
{
    /// <summary>Says where a side of the other axle left the road; null where none did, or there is no other axle.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="manoeuvre">The manoeuvre.</param>
    /// <param name="metrics">The figures of the run.</param>
    public static string? Of(HalfCar vehicle, Manoeuvre manoeuvre, RunMetrics metrics)
    {
        static bool Lifts(PhaseMetrics of) => PhaseMetric.OtherAxleTyreLoadMinimum.Of(of) <= 0;
        if (!Lifts(metrics.Whole))
            return null;
        string[] phases = [.. manoeuvre.Phases.Zip(metrics.Phases).Where(part => Lifts(part.Second)).Select(part => $"“{part.First.Name}”")];
        var where = phases.Length == 0 ? "" : $", in {string.Join(", ", phases)}";
        return $"A side of the {VehicleConclusions.OtherAxle(vehicle)} left the road{where}. In a corner that is a ROLLOVER RISK; on a straight road it is a hop, in which that side neither steers nor brakes.";
    }
}
