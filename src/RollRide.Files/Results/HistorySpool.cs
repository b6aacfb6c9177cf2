using RollRide.DataFiles;
using RollRide.Dynamics;

namespace RollRide.Results;

/// <summary>Time histories that wait in an output folder until their figures and tables are made of them.</summary>
/// <param name="file">The file that holds the samples; the folder closes it.</param>
public sealed class HistorySpool(SpoolFile file) : IHistorySpool
{
    /// <inheritdoc/>
    public void Append(ReadOnlySpan<double> values) => file.Append(values);

    /// <inheritdoc/>
    public void Read(long first, Span<double> values) => file.Read(first, values);
}
