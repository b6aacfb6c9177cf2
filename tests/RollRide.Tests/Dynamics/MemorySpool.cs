using RollRide.Dynamics;

namespace RollRide.Tests.Dynamics;

/// <summary>Takes the samples of a long run, and shows them.</summary>
internal sealed class MemorySpool : IHistorySpool
{
    public List<double> Values { get; } = [];

    public void Append(ReadOnlySpan<double> values) => Values.AddRange(values);

    public void Read(long first, Span<double> values) => Values.GetRange((int)first, values.Length).CopyTo(values);
}
