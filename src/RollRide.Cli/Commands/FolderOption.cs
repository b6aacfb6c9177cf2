using System.CommandLine;

namespace RollRide.Cli.Commands;

/// <summary>An option that names the folder of the results, which must be writable before a command begins its work.</summary>
/// <param name="name">Its name.</param>
/// <param name="aliases">Its other names.</param>
internal sealed class FolderOption(string name, params string[] aliases) : Option<string>(name, aliases);
