using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using CsvHelper;

namespace RollRide.DataFiles;

/// <summary>Reads one <see cref="NumericTable"/>: the header first, then row by row up to the first that is at fault.</summary>
internal sealed class NumericTableReader(string path, IReadOnlyList<string> required, IReadOnlyList<string> optional, NumericTableFormat format, CancellationToken cancellation)
{
    // The header is read as a record of its own: its line is then known below comments, and names match exactly.
    // Field counts are checked here, in words that say which count was expected.
    private readonly CsvReaderOptions _options = new()
    {
        Separator = format.Separator,
        HasHeader = false,
        CommentPrefix = '#',
        TrimWhitespace = true,
        AllowLineBreaksInQuotes = false,
        TrackLineNumbers = true,
        MalformedData = CsvMalformedDataHandling.Throw,
        FormatProvider = CultureInfo.InvariantCulture,
    };

    private readonly FaultList _faults = new();

    public NumericTable Read()
    {
        try
        {
            using var file = InputFile.Open(path, cancellation);
            using var csv = CsvReader.Create(file, _options);
            return Read(csv);
        }
        catch (CsvFormatException e)
        {
            const string Reason = "a double quote is out of place or not closed; numbers and names need none";
            throw new DataFileException(new DataFileFault(path, (int)e.LineNumber, null, null, Reason), e);
        }
        catch (Exception e) when (InputFile.IsUnreadable(e))
        {
            throw UnreadableFile.Report(path, e);
        }
    }

    private NumericTable Read(CsvReader csv)
    {
        if (!csv.Read()) throw Fault(null, null, null, $"the file is empty; a header is expected: {Names(required)}");
        var headerLine = (int)csv.LineNumber;
        var header = ReadHeader(csv, headerLine);

        var columns = header.Select(_ => ImmutableArray.CreateBuilder<double>()).ToArray();
        var lines = ImmutableArray.CreateBuilder<int>();
        while (csv.Read())
        {
            ReadRow(csv, header, columns);
            lines.Add((int)csv.LineNumber);
        }

        if (lines.Count == 0) throw Fault(headerLine, null, null, "no row of numbers follows the header; at least one is expected");
        var byName = header.Zip(columns).ToFrozenDictionary(pair => pair.First, pair => pair.Second.ToImmutable());
        return new NumericTable(path, byName, lines.ToImmutable());
    }

    private string[] ReadHeader(CsvReader csv, int line)
    {
        var known = required.Concat(optional).ToList();
        var header = Enumerable.Range(0, csv.FieldCount).Select(csv.GetString).ToArray();
        var seen = new HashSet<string>();
        foreach (var name in header)
        {
            if (!known.Contains(name)) AddFault(line, name, null, UnknownColumn(name, known));
            else if (!seen.Add(name)) AddFault(line, name, null, "the header names this column twice");
        }

        foreach (var name in required.Except(header))
            AddFault(line, name, null, "this column is missing from the header");
        _faults.ThrowIfAny();
        return header;
    }

    private void ReadRow(CsvReader csv, string[] header, ImmutableArray<double>.Builder[] columns)
    {
        var line = (int)csv.LineNumber;
        if (csv.FieldCount != header.Length)
        {
            var advice = csv.FieldCount > header.Length ? $"; numbers take a decimal {format.DecimalName}, and no thousands separators" : "";
            throw Fault(line, null, null, string.Create(
                CultureInfo.InvariantCulture,
                $"{csv.FieldCount} field{(csv.FieldCount == 1 ? "" : "s")} where the header has {header.Length} ({Names(header)}){advice}"));
        }

        for (var i = 0; i < header.Length; i++)
        {
            if (!csv.TryParse<double>(i, TryNumber, out var value))
                AddFault(line, header[i], csv.GetString(i), $"a number is expected, with a decimal {format.DecimalName} and no thousands separators");
            else if (!double.IsFinite(value))
                AddFault(line, header[i], csv.GetString(i), "a finite number is expected");
            columns[i].Add(value);
        }

        _faults.ThrowIfAny();
    }

    // The reader's own parser takes "0,1" for 1: it allows thousands separators.
    private bool TryNumber(string text, IFormatProvider? provider, out double value) =>
        double.TryParse(text, NumberStyles.Float, format.Numbers, out value);

    private static string UnknownColumn(string name, List<string> known)
    {
        if (name.Length == 0) return $"a column has no name; known columns: {Names(known)}";
        if (name.Contains(';') || name.Contains('\t')) return $"columns are separated by commas; known columns: {Names(known)}";
        var question = NearestName.Ask(name, known);
        return $"unknown column; {(question is null ? "" : question + " ")}known columns: {Names(known)}";
    }

    private static string Names(IEnumerable<string> names) => string.Join(", ", names);

    private void AddFault(int line, string column, string? value, string reason) =>
        _faults.Add(new DataFileFault(path, line, column, value, reason));

    private DataFileException Fault(int? line, string? column, string? value, string reason) =>
        new(new DataFileFault(path, line, column, value, reason));
}
