namespace RollRide.Fuzz;

/// <summary>What one command line did.</summary>
/// <param name="ExitCode">Its exit code; null where it threw or did not end.</param>
/// <param name="Output">What it wrote for its user.</param>
/// <param name="Error">Its warnings and faults.</param>
/// <param name="Elapsed">How much processor time it took.</param>
/// <param name="Thrown">What it threw, which it never may.</param>
/// <param name="Hangs">It did not end although it was told to stop.</param>
internal sealed record Outcome(int? ExitCode, string Output, string Error, TimeSpan Elapsed, Exception? Thrown, bool Hangs);
