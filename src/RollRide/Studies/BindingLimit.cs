namespace RollRide.Studies;

/// <summary>A limit that a tuned valving lies on, and beyond which it would come nearer to its targets.</summary>
/// <param name="Key">The limit's key in a scenario's <c>tuning.limits</c>.</param>
/// <param name="IsHighest">Whether it is the highest value that binds; otherwise the lowest.</param>
/// <param name="Value">The limit, in the unit that its key names.</param>
/// <param name="Relaxed">The limit tried instead.</param>
/// <param name="Heave">Damping ratio in heave with that.</param>
/// <param name="Roll">Damping ratio in roll with that.</param>
public sealed record BindingLimit(string Key, bool IsHighest, double Value, double Relaxed, double Heave, double Roll);
