using System.Globalization;

namespace RollRide.Cli;

/// <summary>
/// A table for the terminal: the first column to the left, the others to the right, all aligned. Long names in the header are
/// broken into lines.
/// </summary>
internal sealed class TextTable(params IReadOnlyList<string> header)
{
    // Room for the numbers; a longer name would only push them apart.
    private const int WidestHeader = 20;

    private readonly List<IReadOnlyList<string>> _rows = [];

    /// <summary>Adds a row.</summary>
    public void Add(params IReadOnlyList<string> cells) => _rows.Add(cells);

    /// <summary>Adds a blank line.</summary>
    public void AddGap() => _rows.Add([]);

    /// <summary>A number as it stands in a cell; a dash where there is none.</summary>
    public static string Number(double? value, int decimals) => value?.ToString($"F{decimals}", CultureInfo.InvariantCulture) ?? "–";

    /// <summary>Writes the table.</summary>
    public void Write(TextWriter output)
    {
        var top = HeaderRows();
        List<IReadOnlyList<string>> all = [.. top, .. _rows];
        var columns = all.Max(row => row.Count);
        var widths = Enumerable.Range(0, columns)
            .Select(c => all.Where(row => row.Count > c).Max(row => row[c].Length))
            .ToArray();
        void WriteRow(IReadOnlyList<string> row) => output.WriteLine(
            string.Join("  ", row.Select((cell, c) => c == 0 ? cell.PadRight(widths[c]) : cell.PadLeft(widths[c]))).TrimEnd());
        foreach (var row in top)
            WriteRow(row);
        output.WriteLine(new string('─', widths.Sum() + (2 * (columns - 1))));
        foreach (var row in _rows)
            WriteRow(row);
    }

    /// <summary>The header as rows, its texts standing on the last one.</summary>
    private IReadOnlyList<string>[] HeaderRows()
    {
        var cells = header.Select(Break).ToArray();
        var height = cells.Max(lines => lines.Count);
        return [.. Enumerable.Range(0, height).Select(row =>
            (IReadOnlyList<string>)[.. cells.Select(lines => row < height - lines.Count ? "" : lines[row - height + lines.Count])])];
    }

    private static List<string> Break(string text)
    {
        List<string> lines = [""];
        foreach (var word in text.Split(' '))
        {
            if (lines[^1].Length == 0)
                lines[^1] = word;
            else if (lines[^1].Length + 1 + word.Length <= WidestHeader)
                lines[^1] += " " + word;
            else
                lines.Add(word);
        }

        return lines;
    }
}
