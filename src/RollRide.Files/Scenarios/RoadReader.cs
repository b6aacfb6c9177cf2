using RollRide.DataFiles;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Scenarios;

/// <summary>Turns the road of a file into its record.</summary>
internal static class RoadReader
{
    private const string Distance = MeasuredProfileReader.Distance;
    private const string LeftColumn = MeasuredProfileReader.Left;
    private const string RightColumn = MeasuredProfileReader.Right;

    // Heights, m, beyond which a slip between metres and millimetres is the likely reason; common practice, no source.
    private const double ImplausiblyHigh = 1;
    private const double ImplausiblyLow = 0.001;

    // Of a resampled road: some hundred megabytes.
    private const int MostSamples = 10_000_000;

    // An edge of a kerb's height over less than a millimetre, and what is higher than a house and steeper than stairs, is no road.
    private const double SteepestEdge = 1000;
    private const double SteepestHill = 1;
    private const double HighestObstacle = 10;

    // A bump higher than this, m, and higher than this share of its length is an obstacle and no road; common practice, no source.
    private const double HighestBump = 0.2;
    private const double SteepestBump = 0.15;

    /// <summary>Reads the road; null after a fault.</summary>
    public static Road? Read(ReadingContext context, string path, RoadFile file, double speed, double duration)
    {
        var before = context.Faults.Count;
        var road = Road.Flat(speed);
        for (var i = 0; i < file.Events.Count; i++)
        {
            var (eventPath, roadEvent) = ($"{path}.events[{i}]", file.Events[i]);
            var isLagged = roadEvent.Lag != 0 && roadEvent.Side != RoadSide.Both;
            if (isLagged)
                context.Refuse($"{eventPath}.lag_m", $"a lag between left and right needs \"side\": \"both\"");
            var signal = context.Make(eventPath, () => Shape(roadEvent, speed));
            if (signal is null || isLagged)
                continue;
            if (!CheckFollowable(context, eventPath, signal))
                continue;
            CheckPlausible(context, eventPath, roadEvent, signal, speed * duration);
            road = road.With(signal, roadEvent.Side, roadEvent.Lag);
        }

        if (file.Profile is { } profile)
            road = ReadProfile(context, $"{path}.profile", profile, road, speed * duration);
        if (file.Measured is { } measured)
            road = ReadMeasured(context, $"{path}.measured", measured, road, speed * duration);
        if (file.Random is { } random)
            road = road with { Unevenness = RandomRoadReader.Read(context, $"{path}.random", random, context.File.Vehicle.TrackMm * Unit.Millimetre.InSi) };
        return context.Faults.Count > before ? null : road;
    }

    private static string SteepnessAccepted { get; } = FormattableString.Invariant(
        $"a slope of {SteepestEdge} is the steepest accepted, and {SteepestHill} where it is higher than {HighestObstacle} m: no wheel follows more");

    /// <summary>Whether a wheel could follow a rise at all.</summary>
    /// <param name="slope">Its steepest slope, 0 or more.</param>
    /// <param name="rise">Its height, m, 0 or more.</param>
    private static bool IsFollowable(double slope, double rise) => slope <= SteepestEdge && (slope <= SteepestHill || rise <= HighestObstacle);

    /// <summary>Refuses an obstacle that no wheel could follow.</summary>
    /// <returns>Whether a wheel could.</returns>
    private static bool CheckFollowable(ReadingContext context, string path, PiecewiseSignal signal)
    {
        const int Samples = 200;
        var steepest = signal.Pieces.Where(piece => double.IsFinite(piece.Start) && double.IsFinite(piece.End))
            .SelectMany(piece => EvenSteps.Of(0, piece.End - piece.Start, Samples).Select(u => Math.Abs(piece.Shape.Rate(u)))).DefaultIfEmpty(0).Max();
        var peak = Math.Abs(PeakOf(signal));
        if (IsFollowable(steepest, peak))
            return true;
        context.Refuse(path, $"the road rises or falls by {peak:G3} m with a slope of {steepest:G3}; {SteepnessAccepted}. Heights are in mm and lengths in m");
        return false;
    }

    /// <summary>Refuses a profile that no wheel could follow from one row to the next; its distances ascend.</summary>
    private static void RequireFollowable(NumericTable table, string column)
    {
        var (distance, height) = (table.Column(Distance), table.Column(column));
        for (var row = 1; row < height.Length; row++)
        {
            var rise = Math.Abs(height[row] - height[row - 1]) * Unit.Millimetre.InSi;
            var slope = rise / (distance[row] - distance[row - 1]);
            if (!IsFollowable(slope, rise))
                throw new DataFileException(table.FaultAt(row, column, FormattableString.Invariant($"from the row before the road rises or falls by {rise:G3} m with a slope of {slope:G3}; {SteepnessAccepted}")));
        }
    }

    private static void CheckPlausible(ReadingContext context, string path, RoadEventFile file, PiecewiseSignal signal, double length)
    {
        var end = signal.Breakpoints[^1] + Math.Abs(file.Lag);
        if (file.Start >= length)
            context.Warn($"{path}.start_m", $"the run ends after {length:F1} m, before this obstacle");
        else if (end > length)
            context.Warn($"{path}.start_m", $"the run ends after {length:F1} m, before the end of this obstacle at {end:F1} m");
        var peak = Math.Abs(PeakOf(signal));
        if (peak > ImplausiblyHigh)
            context.Warn(path, $"the obstacle is {peak:F1} m high; heights are in mm");
        else if (file.Bump is { } bump && peak > HighestBump && peak > SteepestBump * bump.Length)
            context.Warn(path, $"the bump is {Unit.Millimetre.Show(peak):F0} high and {bump.Length} m long: no tyre rolls over that at speed");
        else if (peak < ImplausiblyLow)
            context.Warn(path, $"the obstacle is {Unit.Millimetre.Show(peak):G3} high; heights are in mm: is this one in m?");
    }

    private static PiecewiseSignal Shape(RoadEventFile file, double speed) => file switch
    {
        { Bump: { } bump } => RoadEvents.HaversineBump(file.Start, bump.Length, bump.HeightMm * Unit.Millimetre.InSi),
        { Ramp: { } ramp } => RoadEvents.Ramp(file.Start, ramp.Length, ramp.HeightMm * Unit.Millimetre.InSi),
        { Step: { } step } => RoadEvents.Step(file.Start, step.HeightMm * Unit.Millimetre.InSi, step.EdgeLength),
        { Pothole: { } hole } => RoadEvents.Pothole(file.Start, hole.Length, hole.DepthMm * Unit.Millimetre.InSi, hole.EdgeLength),
        { Sine: { } sine } => RoadEvents.Sine(file.Start, sine.Wavelength, sine.AmplitudeMm * Unit.Millimetre.InSi, sine.Cycles),
        { SweptSine: { } swept } => RoadEvents.SweptSine(
            file.Start, swept.StartFrequency, swept.EndFrequency, swept.AmplitudeMm * Unit.Millimetre.InSi, swept.Cycles, speed),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    private static double PeakOf(PiecewiseSignal signal)
    {
        const int samples = 200;
        return EvenSteps.Of(signal.Breakpoints[0], signal.Breakpoints[^1], samples).Select(signal.Value).MaxBy(Math.Abs);
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
                throw new DataFileException(new DataFileFault(table.Path, null, null, null, $"there is neither column {LeftColumn} nor {RightColumn}; at least one is needed"));
            CheckReach(context, path, table, distance[^1], length);
            foreach (var (column, side) in new[] { (LeftColumn, RoadSide.Left), (RightColumn, RoadSide.Right) })
            {
                if (!table.HasColumn(column))
                    continue;

                RequireFollowable(table, column);

                // The vehicle starts at rest on the first sample, so heights count from there.
                var values = table.Column(column);
                var elevations = values.Select(z => (z - values[0]) * Unit.Millimetre.InSi).ToArray();
                var highest = elevations.Max(Math.Abs);
                if (highest > ImplausiblyHigh)
                    context.Warn(path, $"column {column} departs from its start by {highest:F1} m; is it in mm?");
                else if (highest < ImplausiblyLow)
                    context.Warn(path, $"column {column} departs from its start by no more than {Unit.Millimetre.Show(highest):G3}; is it in m?");
                road = road.With(RoadEvents.Sampled(distance, elevations), side);
            }

            return road;
        }) ?? road;
    }

    private static Road ReadMeasured(ReadingContext context, string path, MeasuredRoadFile file, Road road, double length)
    {
        var filePath = $"{path}.file";
        var table = context.Table(filePath, file.File, [Distance], [LeftColumn, RightColumn]);
        return table is null ? road : context.Make(filePath, () =>
        {
            var measured = MeasuredProfileReader.FromTable(table);
            foreach (var column in new[] { LeftColumn, RightColumn })
            {
                if (table.HasColumn(column))
                    RequireFollowable(table, column);
            }

            foreach (var warning in measured.Warnings)
                context.Warn(filePath, $"{warning}");
            CheckReach(context, filePath, table, measured.Start + measured.Profile.Length, length);
            var profile = measured.Profile;
            if (file.Detrend)
                profile = profile.Detrended();
            if (file.SpacingMm is { } spacing)
            {
                var samples = profile.Length / (spacing * Unit.Millimetre.InSi);
                if (samples > MostSamples)
                {
                    context.Refuse($"{path}.spacing_mm", $"over {profile.Length:F0} m this makes {samples:F0} samples; at most {MostSamples} are accepted: give at least {Math.Ceiling(Unit.Millimetre.Of(profile.Length) / MostSamples)} mm");
                    return null;
                }

                profile = profile.Resampled(spacing * Unit.Millimetre.InSi, context.Cancellation);
            }

            var driven = profile.Enveloped(file.ContactLengthMm * Unit.Millimetre.InSi).ToRoad(road.Speed, measured.Start);
            return road.With(driven.Left, RoadSide.Left).With(driven.Right, RoadSide.Right);
        }) ?? road;
    }

    /// <summary>Whether a profile lies where the run leads: distances count from the start of the run.</summary>
    private static void CheckReach(ReadingContext context, string path, NumericTable table, double end, double length)
    {
        var start = table.Column(Distance)[0];
        if (start < 0)
            throw new DataFileException(table.FaultAt(0, Distance, "distance counts from the start of the run, where the vehicle stands at rest; the first must be 0 or greater"));
        if (start >= length)
            context.Warn(path, $"the profile begins at {start:F1} m and the run ends at {length:F1} m");
        else if (end < length)
            context.Warn(path, $"the profile ends at {end:F1} m and the run at {length:F1} m; its last height is held");
    }
}
