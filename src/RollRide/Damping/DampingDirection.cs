namespace RollRide.Damping;

/// <summary>The direction of damper travel that an equivalent coefficient describes.</summary>
public enum DampingDirection
{
    /// <summary>The whole cycle: the mean of compression and rebound.</summary>
    Both,

    /// <summary>Compression (bump, jounce): the damper shortens, positive velocity.</summary>
    Compression,

    /// <summary>Rebound (droop): the damper extends, negative velocity.</summary>
    Rebound,
}
