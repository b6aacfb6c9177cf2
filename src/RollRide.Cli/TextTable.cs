namespace RollRide.Cli;

/// <summary>A table for the terminal: the first column to the left, the others to the right, all aligned.</summary>
internal sealed class TextTable(params IReadOnlyList<string> header)
{
    private readonly List<IReadOnlyList<string>> _rows = [header];

    /// <summary>Adds a row.</summary>
    public void Add(params IReadOnlyList<string> cells) => _rows.Add(cells);

    /// <summary>Adds a blank line.</summary>
    public void AddGap() => _rows.Add([]);

    /// <summary>Writes the table.</summary>
    public void Write(TextWriter output)
    {
        var columns = _rows.Max(row => row.Count);
        var widths = Enumerable.Range(0, columns)
            .Select(c => _rows.Where(row => row.Count > c).Max(row => row[c].Length))
            .ToArray();
        for (var r = 0; r < _rows.Count; r++)
        {
            var cells = _rows[r].Select((cell, c) => c == 0 ? cell.PadRight(widths[c]) : cell.PadLeft(widths[c]));
            output.WriteLine(string.Join("  ", cells).TrimEnd());
            if (r == 0)
                output.WriteLine(new string('─', widths.Sum() + (2 * (columns - 1))));
        }
    }
}
