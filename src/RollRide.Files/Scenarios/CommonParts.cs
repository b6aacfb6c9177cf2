namespace RollRide.Scenarios;

/// <summary>Parts of a scenario that are read from it as it stands and taken over by those of its variants that leave them as they are.</summary>
/// <remarks>
/// A part must depend on nothing but the record it is read from and what <see cref="ScenarioReader"/> names beside it; and only a part
/// without a word to say, neither fault nor warning, is taken over. Thread-safe once it is <see cref="Close"/>d.
/// </remarks>
internal sealed class CommonParts
{
    private readonly Dictionary<object, object> _parts = new(ReferenceEqualityComparer.Instance);
    private bool _isClosed;

    /// <summary>Takes a part over, or reads it.</summary>
    /// <param name="context">What it is read in.</param>
    /// <param name="file">The record that it is read from.</param>
    /// <param name="read">Reads it.</param>
    public T? Get<T>(ReadingContext context, object file, Func<T?> read)
        where T : class
    {
        if (_parts.TryGetValue(file, out var known))
            return (T)known;
        var said = context.Faults.Count + context.Warnings.Count;
        var part = read();
        if (!_isClosed && part is not null && context.Faults.Count + context.Warnings.Count == said)
            _parts.Add(file, part);
        return part;
    }

    /// <summary>Ends the collecting: what is read from now on belongs to one variant alone.</summary>
    public void Close() => _isClosed = true;
}
