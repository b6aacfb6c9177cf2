namespace RollRide.Studies;

/// <summary>What a damper is tuned for, and what it may become.</summary>
public sealed record TuningTask
{
    /// <summary>The heave damping wanted.</summary>
    public required TuningTarget Heave { get; init; }

    /// <summary>The roll damping wanted.</summary>
    public required TuningTarget Roll { get; init; }

    /// <summary>What the damper can be.</summary>
    public required TuningLimits Limits { get; init; }

    /// <summary>The least damping of each mode with which a valving counts in the trade-off.</summary>
    public DampingFloors Floors { get; init; } = new();

    /// <summary>Settings of the trade-off front.</summary>
    public TradeOffSettings TradeOff { get; init; } = new();
}

/// <summary>Settings of the trade-off between ride over the bump and roll in the corner.</summary>
public sealed record TradeOffSettings
{
    /// <summary>Name of the phase over which the ride counts.</summary>
    public string RidePhase { get; init; } = "bump";

    /// <summary>Number of points wanted on the front.</summary>
    public int Points { get; init => field = AtLeast(value, 3, nameof(Points)); } = 40;

    /// <summary>Number of settings tried all over the range before the search.</summary>
    public int Samples { get; init => field = AtLeast(value, 8, nameof(Samples)); } = 160;

    /// <summary>Number of settings tried in one direction of the search.</summary>
    public int TriesPerPoint { get; init => field = AtLeast(value, 2, nameof(TriesPerPoint)); } = 100;

    private static int AtLeast(int value, int limit, string name) => value >= limit
        ? value
        : throw new ArgumentOutOfRangeException(name, value, FormattableString.Invariant($"{name} must be at least {limit}."));
}
