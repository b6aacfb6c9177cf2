using System.Collections.Immutable;
using System.Globalization;
using CsvHelper;

namespace RollRide.DataFiles;

/// <summary>Writes a CSV table: a header, then rows of numbers, with leading columns of text if wanted.</summary>
/// <remarks>
/// Mutable and not thread-safe. Commas, decimal points, "\n"; the text writer given stays open. A text that a spreadsheet
/// would run as a formula is written so that it does not.
/// </remarks>
public sealed class CsvTableWriter : IDisposable
{
    private static readonly CsvWriterOptions Options = new()
    {
        NewLine = "\n",
        FormatProvider = CultureInfo.InvariantCulture,
        Injection = CsvInjection.Escape,
        // The texts of a row are fewer than its header's.
        ValidateFieldCount = false,
    };

    // Room for a number of 17 digits, its sign, point and exponent, and the comma.
    private const int LongestNumber = 26;

    private readonly TextWriter _output;
    private readonly StringWriter _quoted = new(CultureInfo.InvariantCulture);
    private readonly CsvWriter _texts;
    private readonly char[] _numbers;
    private readonly ImmutableArray<string> _columns;
    private readonly string? _format;

    /// <summary>Writes the header.</summary>
    /// <param name="output">Where the table goes.</param>
    /// <param name="columns">The names of the columns, with units.</param>
    /// <param name="significantDigits">
    /// Digits of each number, 1 to 17; null writes the shortest text that reads back as the same number.
    /// </param>
    /// <param name="continues">Whether the table goes on after rows written before: then no header is written.</param>
    /// <exception cref="ArgumentException"><paramref name="columns"/> is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="significantDigits"/> is out of range.</exception>
    public CsvTableWriter(TextWriter output, IEnumerable<string> columns, int? significantDigits = null, bool continues = false)
    {
        if (significantDigits is < 1 or > 17)
            throw new ArgumentOutOfRangeException(nameof(significantDigits), significantDigits, "1 to 17 digits are accepted.");
        _columns = [.. columns];
        if (_columns.IsEmpty) throw new ArgumentException("A table has at least one column.", nameof(columns));
        _format = significantDigits is { } digits ? string.Create(CultureInfo.InvariantCulture, $"G{digits}") : null;
        _output = output;
        _texts = CsvWriter.Create(_quoted, Options);
        _numbers = new char[(LongestNumber * _columns.Length) + Options.NewLine.Length];
        if (!continues)
            WriteRow(_columns.AsSpan(), []);
    }

    /// <summary>Writes a row of numbers.</summary>
    /// <param name="values">One per column. NaN stands for 'not defined' and leaves the field empty.</param>
    /// <exception cref="ArgumentException">The count is not that of the columns, or a value is infinite.</exception>
    public void WriteRow(params ReadOnlySpan<double> values) => WriteRow([], values);

    /// <summary>Writes a row of texts followed by numbers.</summary>
    /// <param name="texts">The fields of the first columns.</param>
    /// <param name="values">The fields of the rest. NaN stands for 'not defined' and leaves the field empty.</param>
    /// <exception cref="ArgumentException">The count is not that of the columns, or a value is infinite.</exception>
    public void WriteRow(ReadOnlySpan<string> texts, ReadOnlySpan<double> values)
    {
        if (texts.Length + values.Length != _columns.Length)
            throw new ArgumentException($"{texts.Length + values.Length} fields for {_columns.Length} columns.", nameof(values));
        for (var i = 0; i < values.Length; i++)
        {
            if (double.IsInfinity(values[i]))
                throw new ArgumentException($"The value of “{_columns[texts.Length + i]}” is infinite.", nameof(values));
        }

        // An empty field alone would be no row unless it is quoted as a text is.
        if (texts.IsEmpty && values is [var only] && double.IsNaN(only))
        {
            WriteTexts([""], withNumbers: false);
            return;
        }

        if (!texts.IsEmpty)
            WriteTexts(texts, withNumbers: values.Length > 0);
        if (values.Length > 0)
            WriteNumbers(values);
    }

    /// <summary>Ends the writing; nothing is kept back before.</summary>
    public void Dispose()
    {
        _texts.Dispose();
        _quoted.Dispose();
    }

    private void WriteTexts(ReadOnlySpan<string> texts, bool withNumbers)
    {
        foreach (var text in texts)
            _texts.WriteField(text);
        // Ends the row with the comma before the numbers.
        if (withNumbers)
            _texts.WriteField("");
        _texts.EndRecord();
        _texts.Flush();
        var row = _quoted.GetStringBuilder();
        if (withNumbers)
            row.Length -= Options.NewLine.Length;
        _output.Write(row);
        row.Clear();
    }

    // Numbers need no quotes, so they take the short way.
    private void WriteNumbers(ReadOnlySpan<double> values)
    {
        var length = 0;
        for (var i = 0; i < values.Length; i++)
        {
            if (i > 0)
                _numbers[length++] = ',';
            if (double.IsNaN(values[i]))
                continue;
            values[i].TryFormat(_numbers.AsSpan(length), out var written, _format, CultureInfo.InvariantCulture);
            length += written;
        }

        Options.NewLine.CopyTo(_numbers.AsSpan(length));
        _output.Write(_numbers, 0, length + Options.NewLine.Length);
    }
}
