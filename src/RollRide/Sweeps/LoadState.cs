using System.Collections.Immutable;

namespace RollRide.Sweeps;

/// <summary>A named load state: the numbers of the scenario that it sets.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Numbers">The numbers by their exact paths.</param>
public sealed record LoadState(string Name, ImmutableArray<KeyValuePair<string, double>> Numbers);
