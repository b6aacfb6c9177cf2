using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;

namespace RollRide.DataFiles;

/// <summary>A CSV file of numbers in named columns, the unit in each name; every number keeps its line.</summary>
/// <remarks>
/// Immutable and thread-safe. The file has a header line, commas between fields, points in numbers; lines that start with
/// <c>#</c> and empty lines are passed over; columns stand in any order.
/// </remarks>
public sealed class NumericTable
{
    private readonly FrozenDictionary<string, ImmutableArray<double>> _columns;
    private readonly ImmutableArray<int> _lines;

    internal NumericTable(string path, FrozenDictionary<string, ImmutableArray<double>> columns, ImmutableArray<int> lines)
    {
        Path = path;
        _columns = columns;
        _lines = lines;
    }

    /// <summary>The file it was read from, as given.</summary>
    public string Path { get; }

    /// <summary>The number of rows, at least 1; the header is not one.</summary>
    public int RowCount => _lines.Length;

    /// <summary>Reads a file.</summary>
    /// <param name="path">The file's path.</param>
    /// <param name="requiredColumns">Columns that must be there.</param>
    /// <param name="optionalColumns">Columns that may be there.</param>
    /// <param name="format">Separator and decimal sign; commas and points if null.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">
    /// The file cannot be read; a column is missing, unknown or there twice; a row has too few or too many fields; a field
    /// is not a finite number; there is no row. All faults of the header, or of the first row at fault.
    /// </exception>
    public static NumericTable Read(
        string path, IReadOnlyList<string> requiredColumns, IReadOnlyList<string>? optionalColumns = null, NumericTableFormat? format = null,
        CancellationToken cancellation = default) =>
        new NumericTableReader(path, requiredColumns, optionalColumns ?? [], format ?? NumericTableFormat.Standard, cancellation).Read();

    /// <summary>The table of another file of the same form, in which some numbers differ.</summary>
    /// <param name="path">The other file.</param>
    /// <param name="changed">The numbers that differ, by column and row.</param>
    internal NumericTable With(string path, IReadOnlyDictionary<(string Column, int Row), double> changed) =>
        new(path, _columns.ToFrozenDictionary(column => column.Key, column => column.Value.Select((value, row) => changed.GetValueOrDefault((column.Key, row), value)).ToImmutableArray()), _lines);

    /// <summary>Whether the file has a column.</summary>
    /// <param name="name">The column's name.</param>
    public bool HasColumn(string name) => _columns.ContainsKey(name);

    /// <summary>The numbers of a column, in the order of the rows; all are finite.</summary>
    /// <param name="name">The column's name.</param>
    /// <exception cref="ArgumentException">The file has no such column.</exception>
    public ImmutableArray<double> Column(string name) =>
        _columns.TryGetValue(name, out var values)
            ? values
            : throw new ArgumentException($"“{Path}” has no column “{name}”.", nameof(name));

    /// <summary>The line of the file on which a row stands, counted from 1.</summary>
    /// <param name="row">The row, counted from 0.</param>
    public int LineOf(int row) => _lines[row];

    /// <summary>A fault that points at one number of the file.</summary>
    /// <param name="row">The row, counted from 0.</param>
    /// <param name="column">The column's name.</param>
    /// <param name="reason">What is wrong and what is accepted.</param>
    public DataFileFault FaultAt(int row, string column, string reason) =>
        new(Path, LineOf(row), column, Column(column)[row].ToString(CultureInfo.InvariantCulture), reason);

    /// <summary>Requires that each number of a column is greater than the one before it.</summary>
    /// <param name="column">The column's name.</param>
    /// <exception cref="DataFileException">It is not; the fault is at the first line that breaks the order.</exception>
    public void RequireStrictlyAscending(string column)
    {
        var values = Column(column);
        for (var row = 1; row < values.Length; row++)
        {
            if (values[row] > values[row - 1]) continue;
            var wrong = values[row] == values[row - 1] ? "repeats" : "is below";
            throw new DataFileException(FaultAt(row, column, string.Create(
                CultureInfo.InvariantCulture,
                $"{wrong} the value of line {LineOf(row - 1)} ({values[row - 1]}); each must be greater than the one before")));
        }
    }
}
