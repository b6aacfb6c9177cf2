using System.Collections.Immutable;
using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Scenarios;

/// <summary>Turns the manoeuvre of a file into its record.</summary>
internal static class ManoeuvreReader
{
    private const string Path = "manoeuvre";

    // A shorter phase holds no step of the integration, and so no peak.
    private const double ShortestPhase = 1e-9;

    /// <summary>Whether the vehicle decides about it too: the track of two random wheel paths, the mass that is steered.</summary>
    public static bool DependsOnVehicle(ScenarioFile scenario) =>
        scenario.Manoeuvre is var file && (file.Road.Random is not null || file.Cornering?.Steering is not null || scenario.WholeVehicle is not null);

    /// <summary>Reads the manoeuvre; null after a fault.</summary>
    public static Manoeuvre? Read(ReadingContext context)
    {
        var file = context.File.Manoeuvre;
        var before = context.Faults.Count;
        var road = RoadReader.Read(context, $"{Path}.road", file.Road, file.SpeedKmPerH * Unit.KilometrePerHour.InSi, file.Duration);
        var cornering = CorneringReader.Read(context, $"{Path}.cornering", file.Cornering, file.SpeedKmPerH * Unit.KilometrePerHour.InSi, file.Duration);
        if (road is not null && context.File.WholeVehicle is { } whole)
            road = WithSecondAxle(context, file, road, whole);
        var given = ReadPhases(context, file);
        if (road is null || cornering is null || context.Faults.Count > before)
            return null;
        if (road.Unevenness is { } random && RideRecorder.StartTime(road, file.Duration) is var settled && settled >= file.Duration)
        {
            context.Refuse($"{Path}.road.random.leadIn_m", $"leaves nothing to measure: after {random.LeadIn} m at {file.SpeedKmPerH} km/h the ride has settled at {settled:F1} s, and the run ends at {file.Duration} s");
            return null;
        }

        return new Manoeuvre
        {
            Road = road,
            Cornering = cornering,
            Duration = file.Duration,
            Phases = given ?? DefaultPhases(road, file.Road is not { Measured: not null } and not { Profile: not null } ? "bump" : Phase.MeasuredRoad, cornering, file.Duration),
        };
    }

    /// <summary>The road as both axles meet it.</summary>
    private static Road? WithSecondAxle(ReadingContext context, ManoeuvreFile file, Road road, WholeVehicleFile whole)
    {
        var wheelbase = whole.WheelbaseMm * Unit.Millimetre.InSi;
        if (!road.IsFlat && road.Speed * file.Duration <= wheelbase)
        {
            context.Refuse($"{Path}.duration_s", $"at {file.SpeedKmPerH} km/h the run covers {road.Speed * file.Duration:F2} m, less than the wheelbase of {wheelbase:F2} m: the rear axle would never reach the road; a longer run is needed");
            return null;
        }

        return road with { Wheelbase = wheelbase };
    }

    private static ImmutableArray<Phase>? ReadPhases(ReadingContext context, ManoeuvreFile file)
    {
        if (file.Phases is null)
            return null;
        var phases = ImmutableArray.CreateBuilder<Phase>();
        for (var i = 0; i < file.Phases.Count; i++)
        {
            var (path, phase) = ($"{Path}.phases[{i}]", file.Phases[i]);
            if (file.Phases.Take(i).Any(other => IsSameName(other.Name, phase.Name)) || IsSameName(phase.Name, "run"))
                context.Refuse($"{path}.name", $"each phase needs its own name, and “run” is the name of the whole run");
            if (phase.End > file.Duration)
                context.Refuse($"{path}.end_s", $"the phase ends after the run ({file.Duration} s)");
            else if (phase.End < phase.Start + ShortestPhase)
                context.Refuse($"{path}.end_s", $"the phase must end after its start ({phase.Start} s), by a nanosecond at least");
            else
                phases.Add(new Phase(phase.Name, phase.Start, phase.End));
        }

        return phases.ToImmutable();
    }

    private static bool IsSameName(string one, string other) => string.Equals(one.Trim(), other.Trim(), StringComparison.OrdinalIgnoreCase);

    /// <summary>
    /// 'bump' from the first road event ('measured road' where one is given) to the cornering or the end, 'rough road' on a random road from where the ride is measured to the
    /// cornering or the end, 'corner' from the start of the cornering to the end. A road that is still growing when the corner begins
    /// has no phase.
    /// </summary>
    private static ImmutableArray<Phase> DefaultPhases(Road road, string events, ICorneringInput cornering, double duration)
    {
        var phases = ImmutableArray.CreateBuilder<Phase>();
        var obstacles = road with { Unevenness = null };
        var bump = obstacles.Breakpoints is [var first, ..] ? Math.Max(0, first) : double.PositiveInfinity;
        var corner = Math.Max(0, cornering.StartTime);
        var rough = RideRecorder.StartTime(road, duration);
        if (road.Unevenness is null || rough >= corner)
            rough = double.PositiveInfinity;
        foreach (var (name, start) in new[] { ("rough road", rough), (events, bump) })
        {
            var end = corner > start ? Math.Min(corner, duration) : duration;
            if (end >= start + ShortestPhase)
                phases.Add(new Phase(name, start, end));
        }

        if (duration >= corner + ShortestPhase)
            phases.Add(new Phase("corner", corner, duration));
        return phases.ToImmutable();
    }
}
