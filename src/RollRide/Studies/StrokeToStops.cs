namespace RollRide.Studies;

/// <summary>What is left of the dampers' strokes where the stops allow more than the travel that the vehicle gives.</summary>
public static class StrokeToStops
{
    /// <summary>Looks at the dampers over all travel that the stops leave.</summary>
    /// <param name="study">The case.</param>
    /// <returns>Null where no travel is given, the stops end it no later, or the mounts cannot follow them.</returns>
    public static MountsResult? Of(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        var untilStops = study.Vehicle with { Travel = null };
        return study.Vehicle.Travel is { } given && untilStops.Envelope?.Range is { } allowed && (allowed.Bump > given.Bump || allowed.Rebound > given.Rebound)
            ? StudyAnswer.Of(() => MountsStudy.Run(study with { Vehicle = untilStops })).Found
            : null;
    }
}
