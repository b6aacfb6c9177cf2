namespace RollRide.Plots;

/// <summary>An upright bar of what meets a target.</summary>
/// <param name="Name">The target.</param>
/// <param name="X">Where it stands.</param>
/// <param name="From">Its lower end.</param>
/// <param name="To">Its upper end.</param>
public sealed record TargetBar(string Name, double X, double From, double To);
