using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Scenarios;

/// <summary>Turns the road of a file into its record.</summary>
internal static class RoadReader
{
    private const string Distance = "distance_m";
    private const string LeftColumn = "left_mm";
    private const string RightColumn = "right_mm";

    // A step of more than this in a 'road' is most often millimetres taken for metres; common practice, no source.
    private const double ImplausibleHeight = 1;

    /// <summary>Reads the road; null after a fault.</summary>
    public static Road? Read(ReadingContext context, string path, RoadFile file, double speed, double duration)
    {
        var before = context.Faults.Count;
        var road = Road.Flat(speed);
        for (var i = 0; i < file.Events.Count; i++)
        {
            var (eventPath, roadEvent) = ($"{path}.events[{i}]", file.Events[i]);
            if (roadEvent.Lag != 0 && roadEvent.Side != RoadSide.Both)
                context.Refuse($"{eventPath}.lag_m", $"a lag between left and right needs side both");
            if (roadEvent.Start + Math.Min(0, roadEvent.Lag) < 0)
                context.Refuse($"{eventPath}.lag_m", $"with this lag the obstacle would start before the run");
            if (roadEvent.Start >= speed * duration)
                context.Warn($"{eventPath}.start_m", $"the run ends after {speed * duration:F1} m, before this obstacle");
            var signal = context.Make(eventPath, () => Shape(roadEvent, speed));
            if (signal is null)
                continue;
            if (signal.Breakpoints.Length > 0 && Math.Abs(PeakOf(signal)) > ImplausibleHeight)
                context.Warn(eventPath, $"the obstacle is {PeakOf(signal):F1} m high");
            road = road.With(signal, roadEvent.Side, roadEvent.Lag);
        }

        if (file.Profile is { } profile)
            road = ReadProfile(context, $"{path}.profile", profile, road, speed * duration);
        return context.Faults.Count > before ? null : road;
    }

    private static PiecewiseSignal Shape(RoadEventFile file, double speed) => file switch
    {
        { Bump: { } bump } => RoadEvents.HaversineBump(file.Start, bump.Length, bump.HeightMm * Units.MetresPerMm),
        { Ramp: { } ramp } => RoadEvents.Ramp(file.Start, ramp.Length, ramp.HeightMm * Units.MetresPerMm),
        { Step: { } step } => RoadEvents.Step(file.Start, step.HeightMm * Units.MetresPerMm, step.EdgeLength),
        { Pothole: { } hole } => RoadEvents.Pothole(file.Start, hole.Length, hole.DepthMm * Units.MetresPerMm, hole.EdgeLength),
        { Sine: { } sine } => RoadEvents.Sine(file.Start, sine.Wavelength, sine.AmplitudeMm * Units.MetresPerMm, sine.Cycles),
        { SweptSine: { } swept } => RoadEvents.SweptSine(
            file.Start, swept.StartFrequency, swept.EndFrequency, swept.AmplitudeMm * Units.MetresPerMm, swept.Cycles, speed),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    private static double PeakOf(PiecewiseSignal signal)
    {
        var (start, end) = (signal.Breakpoints[0], signal.Breakpoints[^1]);
        return Enumerable.Range(0, 201).Select(i => signal.Value(start + ((end - start) * i / 200))).MaxBy(Math.Abs);
    }

    private static Road ReadProfile(ReadingContext context, string path, string name, Road road, double length)
    {
        var table = context.Table(path, name, [Distance], [LeftColumn, RightColumn]);
        if (table is null)
            return road;
        return context.Make(path, () =>
        {
            table.RequireStrictlyAscending(Distance);
            var distance = table.Column(Distance);
            if (!table.HasColumn(LeftColumn) && !table.HasColumn(RightColumn))
                context.Refuse(path, $"the file has neither column {LeftColumn} nor {RightColumn}; at least one is needed");
            if (distance[^1] < length)
                context.Warn(path, $"the profile ends at {distance[^1]:F1} m and the run at {length:F1} m; its last height is held");
            foreach (var (column, side) in new[] { (LeftColumn, RoadSide.Left), (RightColumn, RoadSide.Right) })
            {
                if (!table.HasColumn(column))
                    continue;

                // The vehicle starts at rest on the first sample, so heights count from there.
                var values = table.Column(column);
                var elevations = values.Select(z => (z - values[0]) * Units.MetresPerMm).ToArray();
                var highest = elevations.Max(Math.Abs);
                if (highest > ImplausibleHeight)
                    context.Warn(path, $"column {column} departs from its start by {highest:F1} m; is the unit right?");
                road = road.With(RoadEvents.Sampled(distance, elevations), side, 0);
            }

            return road;
        }) ?? road;
    }
}
