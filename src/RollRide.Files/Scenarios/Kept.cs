namespace RollRide.Scenarios;

/// <summary>Results kept by what they follow from, the few that were asked for last.</summary>
/// <remarks>Thread-safe. Two that ask for the same at once may both make it.</remarks>
/// <param name="most">How many are kept.</param>
/// <typeparam name="T">What is kept.</typeparam>
internal sealed class Kept<T>(int most)
{
    private readonly Lock _gate = new();
    private readonly LinkedList<(string Key, T Value)> _latestFirst = [];

    /// <summary>What was kept under a key, or is made now.</summary>
    /// <param name="key">All that it follows from.</param>
    /// <param name="make">Makes it; what this throws is not kept.</param>
    public T Get(string key, Func<T> make)
    {
        lock (_gate)
        {
            for (var known = _latestFirst.First; known is not null; known = known.Next)
            {
                if (known.Value.Key != key)
                    continue;
                _latestFirst.Remove(known);
                _latestFirst.AddFirst(known);
                return known.Value.Value;
            }
        }

        var value = make();
        lock (_gate)
        {
            _latestFirst.AddFirst((key, value));
            if (_latestFirst.Count > most)
                _latestFirst.RemoveLast();
        }

        return value;
    }
}
