namespace RollRide.Packaging;

/// <summary>Where a band or a slot lies by the frame rail.</summary>
public enum RailSide
{
    /// <summary>Between the centre plane and the rail.</summary>
    Inboard,

    /// <summary>Between the rail and the tyre.</summary>
    Outboard,

    /// <summary>The rail does not divide the room: there is none, or the damper passes it.</summary>
    Across,
}
