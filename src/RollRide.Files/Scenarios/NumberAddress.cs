namespace RollRide.Scenarios;

/// <summary>The place of a number in a scenario.</summary>
/// <param name="Path">Its path as faults name it, such as <c>layouts[0].placement.motionRatios.roll</c>.</param>
/// <param name="ReadablePath">Its path with the names of list items in place of their numbers: <c>layouts[Outboard].placement…</c>.</param>
/// <param name="Value">The value, from the file or by default; null where there is neither.</param>
public sealed record NumberAddress(string Path, string ReadablePath, double? Value);
