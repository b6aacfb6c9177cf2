namespace RollRide.Mounting;

/// <summary>A side of the vehicle, seen in the direction of travel.</summary>
public enum Side
{
    /// <summary>Left: positive y (ISO 8855).</summary>
    Left = 1,

    /// <summary>Right: negative y.</summary>
    Right = -1,
}
