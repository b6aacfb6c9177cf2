using System.Globalization;

namespace RollRide.Fuzz;

/// <summary>Other tables: cells, rows, columns, separators, and columns moved or scaled as a whole.</summary>
internal static class TableChanges
{
    private static readonly string[] Cells =
        ["", " ", "x", "NaN", "inf", "-inf", "1e400", "1e-320", "1e300", "-1e6", "0", "1,5", "\"", "\"\"", "=1+1", "\u001b[31m", "１", "1e", "0x10"];

    private static readonly double[] Factors = [-1, 0, 1e-300, 1e-9, 1e-3, 1e3, 1e9, 1e300];

    private static readonly double[] Shifts = [-1e12, -1e6, -7200, -1, 1, 7200, 1e6, 1e12];

    /// <summary>One change of one table; null where there is none.</summary>
    public static Change? Any(CaseInput input, Random random)
    {
        if (input.Tables.Count == 0)
            return null;
        var name = input.Tables.Keys.ElementAt(random.Next(input.Tables.Count));
        var (row, column) = (random.NextDouble(), random.Next(4));
        switch (random.Next(7))
        {
            case 0:
                var cell = Cells[random.Next(Cells.Length)];
                return Of(name, $"a cell of column {column} now '{cell}'", text => WithCells(text, column, (i, n, was) => i == (int)(row * (n - 1)) ? cell : was));
            case 1:
                var factor = Factors[random.Next(Factors.Length)];
                return Of(name, Invariant($"column {column} times {factor}"), text => WithCells(text, column, (_, _, was) => Number(was, number => number * factor)));
            case 2:
                var shift = Shifts[random.Next(Shifts.Length)];
                return Of(name, Invariant($"column {column} plus {shift}"), text => WithCells(text, column, (_, _, was) => Number(was, number => number + shift)));
            case 3:
                return Of(name, "a row twice", text => WithRows(text, rows => rows.Insert((int)(row * rows.Count), rows[(int)(row * rows.Count)])));
            case 4:
                return Of(name, "rows cut off", text => WithRows(text, rows => rows.RemoveRange((int)(row * rows.Count), rows.Count - (int)(row * rows.Count))));
            case 5:
                var (from, to) = random.Next(3) switch { 0 => (",", ";"), 1 => ("_", " "), _ => ("\n", "\r\n\r\n") };
                return Of(name, $"'{from}' replaced", text => text.Replace(from, to, StringComparison.Ordinal));
            default:
                var (kind, letter) = (random.Next(3), ",;\"#\n\0\uFEFF-e"[random.Next(9)]);
                return Of(name, Invariant($"damaged at {row:F3} ({kind}, U+{(int)letter:X4})"), text => StructureChanges.Damage(text, row, kind, letter));
        }
    }

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);

    private static Change Of(string name, string what, Func<string, string> change) => new($"{name}: {what}", input =>
    {
        if (input.Tables.TryGetValue(name, out var text))
            input.Tables[name] = change(text);
    });

    private static string Number(string cell, Func<double, double> change) =>
        double.TryParse(cell, CultureInfo.InvariantCulture, out var number) ? change(number).ToString("R", CultureInfo.InvariantCulture) : cell;

    private static string WithRows(string text, Action<List<string>> change)
    {
        var rows = text.Split('\n').ToList();
        change(rows);
        return string.Join('\n', rows);
    }

    private static string WithCells(string text, int column, Func<int, int, string, string> change) => WithRows(text, rows =>
    {
        for (var i = 0; i < rows.Count; i++)
        {
            var cells = rows[i].Split(',');
            if (rows[i].StartsWith('#') || cells.Length < 2)
                continue;
            var at = column % cells.Length;
            cells[at] = change(i, rows.Count, cells[at]);
            rows[i] = string.Join(',', cells);
        }
    });
}
