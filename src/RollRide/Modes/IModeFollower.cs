namespace RollRide.Modes;

/// <summary>Modes over a damper coefficient that grows, each keeping its name.</summary>
internal interface IModeFollower
{
    /// <summary>The setting at which modes are named, N·s/m; below it they need no following.</summary>
    double NamingCoefficient { get; }

    /// <summary>A follower that goes on from the same setting on its own.</summary>
    IModeFollower Fork();

    /// <summary>The modes at the next damper coefficient.</summary>
    /// <param name="coefficient">Coefficient of each damper, N·s/m; 0 or more, and not less than the one asked for before.</param>
    ModeSet At(double coefficient);
}
