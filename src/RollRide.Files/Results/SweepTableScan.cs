using System.Globalization;
using System.Text;
using RollRide.DataFiles;

namespace RollRide.Results;

/// <summary>Reads how far the table of a sweep goes, wherever it was broken off.</summary>
internal static class SweepTableScan
{
    /// <summary>The first variant that is missing or not whole, and the bytes before it.</summary>
    /// <param name="path">The table.</param>
    /// <param name="first">The first variant that it should hold.</param>
    /// <param name="end">The variant after the last.</param>
    /// <param name="layouts">Rows a variant.</param>
    /// <param name="cancellation">Stops it.</param>
    public static (long Next, long Length) Measure(string path, long first, long end, int layouts, CancellationToken cancellation)
    {
        using var table = new BufferedStream(InputFile.Open(path, cancellation), 1 << 16);
        if (ReadLineStart(table, out var whole) != "variant" || !whole)
            return (first, 0);
        var (next, length) = (first, table.Position);
        while (next < end)
        {
            for (var layout = 0; layout < layouts; layout++)
            {
                if (ReadLineStart(table, out whole) != next.ToString(CultureInfo.InvariantCulture) || !whole)
                    return (next, length);
            }

            (next, length) = (next + 1, table.Position);
        }

        return (next, length);
    }

    /// <summary>Whether a table holds more than its header.</summary>
    public static bool HasRows(string path, CancellationToken cancellation)
    {
        using var table = new StreamReader(InputFile.Open(path, cancellation));
        return table.ReadLine() is not null && table.ReadLine() is not null;
    }

    /// <summary>Reads a line; returns its first field, which is never quoted, or null at the end.</summary>
    private static string? ReadLineStart(Stream input, out bool whole)
    {
        var field = new StringBuilder();
        var inField = true;
        whole = false;
        for (var read = input.ReadByte(); read >= 0; read = input.ReadByte())
        {
            if (read == '\n')
            {
                whole = true;
                return field.ToString();
            }

            // After a power cut a part that did not reach the disk is read as zeros.
            if (read == '\0')
                return null;

            inField &= read != ',';
            if (inField)
                field.Append((char)read);
        }

        return field.Length == 0 ? null : field.ToString();
    }

    /// <summary>Passes over a line.</summary>
    public static void SkipLine(Stream input)
    {
        while (input.ReadByte() is not ('\n' or -1))
        {
        }
    }

    /// <summary>Into how many shares the tables in a folder were cut.</summary>
    public static int[] SharesFound(string folder)
    {
        return !Directory.Exists(folder) ? [] :
        [
            .. Directory.EnumerateFiles(folder, "sweep-part-*-of-*.csv")
                .Select(file => int.TryParse(Path.GetFileNameWithoutExtension(file).Split("-of-")[^1], NumberStyles.None, CultureInfo.InvariantCulture, out var of) ? of : 0)
                .Where(of => of > 0)
                .Distinct()
                .Order(),
        ];
    }
}
