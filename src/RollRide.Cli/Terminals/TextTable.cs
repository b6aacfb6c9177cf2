using System.Globalization;

namespace RollRide.Cli.Terminals;

/// <summary>
/// A table for the terminal: the first column to the left, the others to the right, all aligned. Long names in the header are
/// broken into lines. A table that would be wider than the terminal is turned, rows for columns, if it fits then; else its texts are broken
/// into shorter lines too, and what still does not fit beside each other stands in blocks below each other, each with the first column.
/// </summary>
internal sealed class TextTable(params IReadOnlyList<string> header)
{
    /// <summary>Columns of a table that is not written to a narrower terminal.</summary>
    public const int UsualWidth = 100;

    /// <summary>Columns of a table that is written to a pipe or a file: whoever shows it may have a terminal of the traditional width.</summary>
    public const int NarrowWidth = 80;

    // Room for the numbers; a longer name would only push them apart.
    private const int WidestHeader = 20;

    // Texts are not broken into lines shorter than this, as far as words go.
    private const int NarrowestText = 16;

    private const int Gap = 2;

    private readonly List<IReadOnlyList<string>> _rows = [];

    /// <summary>Columns that stand in every block: what a row is, and its unit.</summary>
    private int Leading => header is [_, "unit", ..] ? 2 : 1;

    /// <summary>Adds a row.</summary>
    public void Add(params IReadOnlyList<string> cells) => _rows.Add(cells);

    /// <summary>Adds a blank line.</summary>
    public void AddGap() => _rows.Add([]);

    /// <summary>A number as it stands in a cell; a dash where there is none.</summary>
    public static string Number(double? value, int decimals)
    {
        var text = value?.ToString($"F{decimals}", CultureInfo.InvariantCulture) ?? "–";
        return text.AsSpan().Trim("-0.").IsEmpty ? text.TrimStart('-') : text; // no −0
    }

    /// <summary>Writes the table.</summary>
    public void Write(TextWriter output)
    {
        int room = output is TerminalWriter terminal ? terminal.Width : UsualWidth;
        if (!FitsUnbroken(room) && Leading == 1 && _rows.All(row => row.Count == header.Count) && Turned() is var turned && turned.FitsUnbroken(room))
        {
            turned.Write(output);
            return;
        }

        var widths = Widths(room);
        int next = Math.Min(Leading, widths.Length);
        do
        {
            if (next > Leading)
                output.WriteLine();
            List<int> block = [.. Enumerable.Range(0, Math.Min(Leading, widths.Length))];
            while (next < widths.Length && (block.Count == Leading || Sum(block.Append(next).Select(c => widths[c])) <= room))
                block.Add(next++);
            WriteBlock(output, block, widths);
        }
        while (next < widths.Length);
    }

    private void WriteBlock(TextWriter output, List<int> block, int[] widths)
    {
        WriteRow(header, fromBelow: true);
        output.WriteLine(new string('─', Sum(block.Select(c => widths[c]))));
        foreach (var row in _rows)
            WriteRow(row, fromBelow: false);

        // A row is as high as its highest cell; a header's texts stand on its last line.
        void WriteRow(IReadOnlyList<string> row, bool fromBelow)
        {
            // A heading runs across the columns.
            if (row.Count == 1)
            {
                output.WriteLine(row[0]);
                return;
            }

            var cells = block.Select(c => c < row.Count ? Break(row[c], widths[c]) : []).ToArray();
            int height = cells.Max(lines => lines.Count);
            for (int line = 0; line < Math.Max(1, height); line++)
            {
                var texts = cells.Select(lines => lines.ElementAtOrDefault(fromBelow ? line - height + lines.Count : line) ?? "");
                output.WriteLine(string.Join(new string(' ', Gap), texts.Select((text, i) => block[i] == 0 ? text.PadRight(widths[0]) : text.PadLeft(widths[block[i]]))).TrimEnd());
            }
        }
    }

    /// <summary>Rows for columns.</summary>
    private TextTable Turned()
    {
        var turned = new TextTable([header[0], .. _rows.Select(row => row[0])]);
        for (int column = 1; column < header.Count; column++)
            turned.Add([header[column], .. _rows.Select(row => row[column])]);
        return turned;
    }

    private bool FitsUnbroken(int room) => Sum(UnbrokenWidths(room)) <= room;

    /// <summary>How wide each column is with every text on one line, and headers no wider than they need be if there is no room.</summary>
    private int[] UnbrokenWidths(int room)
    {
        int[] text = [.. Enumerable.Range(0, ColumnCount).Select(column => CellsOf(column).Max(cell => (int?)cell.Length) ?? 0)];
        int[] roomy = [.. text.Select((width, column) => Math.Max(width, Break(HeaderOf(column), WidestHeader).Max(line => line.Length)))];
        return Sum(roomy) <= room ? roomy
            : [.. Enumerable.Range(0, ColumnCount).Select(column => BesideOthers(column).Select(cell => cell.Length).Append(LongestWord(HeaderOf(column))).Max())];
    }

    /// <summary>How wide each column is, for the table to fit if it can: the widest are made narrower, as far as words go.</summary>
    private int[] Widths(int room)
    {
        var widths = UnbrokenWidths(room);
        int[] narrowest = [.. widths.Select((width, column) => BesideOthers(column).Select(Narrowest).Append(LongestWord(HeaderOf(column))).Append(Math.Min(NarrowestText, width)).Max())];
        while (Sum(widths) > room && Enumerable.Range(0, ColumnCount).Where(column => widths[column] > narrowest[column]).ToArray() is [_, ..] breakable)
            widths[breakable.MaxBy(column => widths[column])]--;
        return widths;
    }

    private int ColumnCount => Math.Max(header.Count, _rows.Max(row => (int?)row.Count) ?? 0);

    private string HeaderOf(int column) => column < header.Count ? header[column] : "";

    private IEnumerable<string> CellsOf(int column) => _rows.Where(row => column < row.Count).Select(row => row[column]);

    /// <summary>The cells of a column that have others beside them: a heading has none, and needs no room in its column.</summary>
    private IEnumerable<string> BesideOthers(int column) => _rows.Where(row => row.Count > 1 && column < row.Count).Select(row => row[column]);

    /// <summary>A number with its interval or unit stays on one line.</summary>
    private static int Narrowest(string text) => char.IsDigit(text.FirstOrDefault()) ? text.Length : LongestWord(text);

    private static int Sum(IEnumerable<int> widths) => widths.Sum(width => width + Gap) - Gap;

    private static int LongestWord(string text) => text.Split(' ').Max(word => word.Length);

    /// <summary>A text in lines no longer than a width, as far as words go.</summary>
    /// <param name="text">The text.</param>
    /// <param name="width">The width, characters.</param>
    internal static List<string> Break(string text, int width)
    {
        if (text.Length <= width)
            return [text];
        List<string> lines = [""];
        foreach (var word in text.Split(' '))
        {
            if (lines[^1].Length == 0)
                lines[^1] = word;
            else if (lines[^1].Length + 1 + word.Length <= width)
                lines[^1] += " " + word;
            else
                lines.Add(word);
        }

        return lines;
    }
}
