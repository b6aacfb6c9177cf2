using System.Collections.Immutable;

namespace RollRide.DataFiles;

/// <summary>A file cannot be used as it stands: one or several faults, each with its place.</summary>
/// <remarks><see cref="Exception.Message"/> is one line per fault (<see cref="DataFileFault.ToString"/>).</remarks>
public sealed class DataFileException : Exception
{
    /// <summary>Reports one fault.</summary>
    /// <param name="fault">The fault.</param>
    /// <param name="cause">The exception behind it, if any.</param>
    public DataFileException(DataFileFault fault, Exception? cause = null)
        : this([fault], cause)
    {
    }

    /// <summary>Reports several faults at once.</summary>
    /// <param name="faults">The faults, at least one, in the order to be shown.</param>
    /// <param name="cause">The exception behind them, if any.</param>
    /// <exception cref="ArgumentException"><paramref name="faults"/> is empty.</exception>
    public DataFileException(IEnumerable<DataFileFault> faults, Exception? cause = null)
        : this([.. faults], cause)
    {
    }

    private DataFileException(ImmutableArray<DataFileFault> faults, Exception? cause)
        : base(string.Join('\n', faults), cause)
    {
        if (faults.IsEmpty) throw new ArgumentException("A file at fault has at least one fault.", nameof(faults));
        Faults = faults;
    }

    /// <summary>The faults, in the order of <see cref="Exception.Message"/>.</summary>
    public ImmutableArray<DataFileFault> Faults { get; }
}
