namespace RollRide.Cli.Terminals;

/// <summary>Where a command speaks to its user.</summary>
/// <param name="Output">Where results go.</param>
/// <param name="Error">Where faults, warnings and progress go.</param>
/// <param name="ShowsProgress">Whether <paramref name="Error"/> is shown to a user at once rather than going to a file.</param>
/// <param name="Clock">Tells how long work lasts.</param>
public sealed record Terminal(TextWriter Output, TextWriter Error, bool ShowsProgress, TimeProvider Clock);
