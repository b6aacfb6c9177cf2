using System.Collections.Immutable;

namespace RollRide.DataFiles;

/// <summary>A file cannot be used as it stands: one or several faults, each with its place.</summary>
/// <remarks>
/// <see cref="Exception.Message"/> is one line per fault (<see cref="DataFileFault.ToString"/>); of very many the first ones, and how
/// many more there are.
/// </remarks>
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
        : base(Joined(faults), cause)
    {
        if (faults.IsEmpty) throw new ArgumentException("A file at fault has at least one fault.", nameof(faults));
        Faults = faults;
    }

    /// <summary>All faults, in the order of <see cref="Exception.Message"/>.</summary>
    public ImmutableArray<DataFileFault> Faults { get; }

    private static string Joined(ImmutableArray<DataFileFault> faults)
    {
        // As many as a terminal shows at once.
        const int Shown = 20;
        var lines = faults.Take(Shown).Select(fault => fault.ToString());
        var rest = faults.Length - Shown;
        return string.Join('\n', rest > 0 ? lines.Append(FormattableString.Invariant($"and {rest} more fault{(rest == 1 ? "" : "s")}")) : lines);
    }
}
