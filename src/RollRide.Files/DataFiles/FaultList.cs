using System.Collections.Immutable;

namespace RollRide.DataFiles;

/// <summary>Gathers faults while a file is checked, so that the user sees all of them at once.</summary>
/// <remarks>Mutable and not thread-safe: one per file read.</remarks>
public sealed class FaultList
{
    private readonly List<DataFileFault> _faults = [];

    /// <summary>The number of faults found so far.</summary>
    public int Count => _faults.Count;

    /// <summary>Notes one fault.</summary>
    /// <param name="fault">The fault.</param>
    public void Add(DataFileFault fault)
    {
        ArgumentNullException.ThrowIfNull(fault);
        _faults.Add(fault);
    }

    /// <summary>Ends the check: does nothing when no fault was noted.</summary>
    /// <exception cref="DataFileException">Faults were noted; it carries all of them, those of one file by line.</exception>
    public void ThrowIfAny()
    {
        if (_faults.Count > 0) throw new DataFileException(InOrder());
    }

    /// <summary>The faults noted so far, those of one file by line.</summary>
    public ImmutableArray<DataFileFault> InOrder()
    {
        if (_faults.Count == 0)
            return [];
        var files = _faults.Select(f => f.File).Distinct().ToList();
        return [.. _faults.OrderBy(f => files.IndexOf(f.File)).ThenBy(f => f.Line)];
    }
}
