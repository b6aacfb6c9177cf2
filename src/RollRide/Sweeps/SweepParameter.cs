namespace RollRide.Sweeps;

/// <summary>One number of a scenario that a sweep varies.</summary>
/// <param name="Name">Its path as the user wrote it: the name of its column.</param>
/// <param name="Path">Its exact path in the scenario.</param>
/// <param name="BaseValue">Its value in the scenario as it stands.</param>
/// <param name="Values">What it is varied over.</param>
public sealed record SweepParameter(string Name, string Path, double BaseValue, SweptValues Values);
