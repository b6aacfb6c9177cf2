using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>A dynamometer file's table, read as the file declares its fields and decimals.</summary>
/// <param name="Table">The numbers.</param>
/// <param name="Declared">What file and user say about them.</param>
internal sealed record DynoTable(NumericTable Table, DynoDeclarations Declared)
{
    /// <summary>Reads a file.</summary>
    /// <param name="path">The file's path.</param>
    /// <param name="options">What the user says about it.</param>
    /// <param name="expected">What its header is expected to name, in words.</param>
    /// <param name="columns">The columns that it must have and those that it may have, by its header's names.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">The file does not have this form.</exception>
    public static DynoTable Read(
        string path, DynoFileOptions options, string expected, Func<IReadOnlyList<string>, (IReadOnlyList<string> Required, IReadOnlyList<string> Optional)> columns, CancellationToken cancellation)
    {
        var declared = DynoDeclarations.Read(path, options, cancellation);
        if (declared.Header.Text.Length == 0)
            throw new DataFileException(new DataFileFault(path, null, null, null, $"the file is empty; a header is expected that names {expected}"));
        var separator = declared.Separator ?? ',';
        if (separator == ',' && declared.Header.Text.Contains(';'))
        {
            throw new DataFileException(new DataFileFault(path, declared.Header.Line, null, null,
                "the fields seem to be separated by semicolons: say so in a line '# separator: semicolon' above the header, with decimal commas also '# decimal: comma', or use the options --separator and --decimal"));
        }

        if (separator == ',' && declared.DecimalComma == true)
            throw new DataFileException(new DataFileFault(path, null, "decimal", "comma", "with decimal commas the fields need another separator: semicolon or tab"));
        var (required, optional) = columns(declared.Header.Text.Split(separator, StringSplitOptions.TrimEntries));
        return new DynoTable(NumericTable.Read(path, required, optional, new NumericTableFormat(separator, declared.DecimalComma ?? false), cancellation), declared);
    }
}
