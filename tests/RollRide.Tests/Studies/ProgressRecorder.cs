using System.Collections.Concurrent;

namespace RollRide.Tests.Studies;

/// <summary>Keeps what a study tells of its progress; threads may tell at once.</summary>
internal sealed class ProgressRecorder<T> : IProgress<T>
{
    private readonly ConcurrentQueue<T> _values = new();

    /// <summary>What was told, in the order of arrival.</summary>
    public IReadOnlyCollection<T> Values => _values;

    public void Report(T value) => _values.Enqueue(value);
}
