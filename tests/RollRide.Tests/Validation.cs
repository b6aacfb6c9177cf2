using System.Collections.Concurrent;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

[assembly: AssemblyFixture(typeof(RollRide.Tests.ValidationFiles))]

namespace RollRide.Tests;

/// <summary>A check against a number from outside the program: asserted like any other, and listed in docs/validation.csv.</summary>
internal static class Validation
{
    private static readonly ConcurrentDictionary<(string Area, string Check, string Case), ValidationRow> Listed = new();

    /// <summary>Asserts that a number agrees with its source, and lists it. Its area is the folder of the test.</summary>
    /// <param name="which">Which case it is where several have the same check; empty if there is one. Unique within area and check.</param>
    /// <param name="check">What is checked, with the unit.</param>
    /// <param name="source">What the expectation rests on: one of <see cref="Evidence"/> and the source itself.</param>
    /// <param name="expected">The source's number.</param>
    /// <param name="got">The program's number.</param>
    /// <param name="tolerance">The largest difference accepted, absolute.</param>
    /// <param name="file">The test's file; left to the compiler.</param>
    public static void Row(string which, string check, string source, double expected, double got, double tolerance, [CallerFilePath] string file = "")
    {
        Assert.Equal(expected, got, tolerance);
        var kind = Evidence.All.Single(kind => source.StartsWith(kind, StringComparison.Ordinal));
        var folders = file.Replace('\\', '/').Split('/');
        var area = folders[Array.LastIndexOf(folders, "RollRide.Tests") + 1];
        var row = new ValidationRow(
            area, check, which, kind[..^2], source[kind.Length..], Text($"{expected:G9}"), Text($"{got + 0.0:G6}"), Text($"{tolerance:G2}")); // adding zero takes the sign off a negative one
        Assert.True(Listed.GetOrAdd((area, check, which), row) == row, $"Two checks in {area} are called “{check}” and “{which}”.");
    }

    /// <summary>All rows listed so far, by area, check and case.</summary>
    public static IReadOnlyList<ValidationRow> Rows =>
        [.. Listed.Values.OrderBy(row => row.Area, StringComparer.Ordinal).ThenBy(row => row.Check, StringComparer.Ordinal).ThenBy(row => row.Case, StringComparer.Ordinal)];

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>A row of the validation table, its numbers as they are shown.</summary>
/// <param name="Area">The part of the program, as its folder is called.</param>
/// <param name="Check">What is checked, with the unit.</param>
/// <param name="Case">Which case of it.</param>
/// <param name="Kind">What the expectation rests on.</param>
/// <param name="Source">The source.</param>
/// <param name="Expected">The source's number.</param>
/// <param name="Got">The program's number.</param>
/// <param name="Tolerance">The largest difference accepted.</param>
internal sealed record ValidationRow(string Area, string Check, string Case, string Kind, string Source, string Expected, string Got, string Tolerance);

/// <summary>When all tests have run, writes table and summary into the folder that ROLLRIDE_VALIDATION names from the root of the repository.</summary>
public sealed class ValidationFiles : IDisposable
{
    /// <summary>Writes the files.</summary>
    public void Dispose()
    {
        if (Environment.GetEnvironmentVariable("ROLLRIDE_VALIDATION") is not { Length: > 0 } path)
            return;
        var folder = Path.Combine(Docs.Document.Root, path);
        File.WriteAllText(Path.Combine(folder, "validation.csv"), Table(Validation.Rows));
        File.WriteAllText(Path.Combine(folder, "validation.md"), Summary(Validation.Rows));
    }

    private static string Table(IReadOnlyList<ValidationRow> rows)
    {
        var table = new StringBuilder("id,area,check,case,kind,source,expected,got,tolerance\n");
        foreach (var (id, row) in WithIds(rows))
            table.AppendJoin(',', new[] { id, row.Area, row.Check, row.Case, row.Kind, row.Source, row.Expected, row.Got, row.Tolerance }.Select(Field)).Append('\n');
        return table.ToString();
    }

    /// <summary>Numbers the rows of each area from 1.</summary>
    private static IEnumerable<(string Id, ValidationRow Row)> WithIds(IReadOnlyList<ValidationRow> rows) =>
        rows.GroupBy(row => row.Area).SelectMany(area => area.Select((row, i) => (string.Create(CultureInfo.InvariantCulture, $"{area.Key}-{i + 1:000}"), row)));

    private static string Field(string text) => text.AsSpan().IndexOfAny(',', '"') < 0 ? text : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private static string Summary(IReadOnlyList<ValidationRow> rows)
    {
        string[] kinds = [.. Evidence.All.Select(kind => kind[..^2])];
        int Count(IEnumerable<ValidationRow> some, string kind) => some.Count(row => row.Kind == kind);
        var (printed, unreviewed) = (Count(rows, kinds[0]), Count(rows, kinds[1]));
        var page = new StringBuilder();
        page.Append(CultureInfo.InvariantCulture,
            $"""
            # Validation

            {rows.Count} checks compare numbers of the program with numbers from outside it. Of the expected numbers

            - {printed + unreviewed} are printed in a source, {unreviewed} of them in notes that nobody has reviewed;
            - {Count(rows, kinds[2])} are remembered from a source that was not at hand;
            - {Count(rows, kinds[3])} were derived for the test by another route than the program's;
            - {Count(rows, kinds[4])} are common practice without a source.

            [validation.csv](validation.csv) lists them, one row per check: quantity and case, kind of evidence, source with page, table or example, expected
            number, the program's number to six digits, and the largest difference the test accepts. The test itself gives the reason for each tolerance.
            Rows are numbered within each area (a folder of the source); numbers may change when rows are added. Tests of symmetry, energy balance, limits
            and order of convergence have no number to list.

            The tests that assert the rows write both files: `ROLLRIDE_VALIDATION=docs dotnet test RollRide.sln`. Continuous integration writes
            them anew and compares.

            ## By area

            | area | rows | {string.Join(" | ", kinds)} |
            |---|---|{string.Concat(Enumerable.Repeat("---|", kinds.Length))}

            """);
        void Line(string name, IReadOnlyCollection<ValidationRow> some) =>
            page.Append(CultureInfo.InvariantCulture, $"| {name} | {some.Count} | {string.Join(" | ", kinds.Select(kind => Count(some, kind)))} |\n");
        foreach (var area in rows.GroupBy(row => row.Area))
            Line(area.Key, [.. area]);
        Line("all", rows);

        foreach (var (title, kind) in (ReadOnlySpan<(string, string)>)[("Printed sources", kinds[0]), ("Unreviewed notes", kinds[1]), ("Remembered sources", kinds[2])])
        {
            page.Append(CultureInfo.InvariantCulture, $"\n## {title}\n\n| source | rows |\n|---|---|\n");
            foreach (var source in WithIds(rows).Where(entry => entry.Row.Kind == kind).GroupBy(entry => entry.Row.Source).OrderBy(group => group.Key, StringComparer.Ordinal))
                page.Append(CultureInfo.InvariantCulture, $"| {source.Key} | {Ranges([.. source.Select(entry => entry.Id)])} |\n");
        }

        return page.ToString();
    }

    /// <summary>Ids that follow each other, as ranges.</summary>
    private static string Ranges(IReadOnlyList<string> ids)
    {
        static (string Area, int Number) Parts(string id) => (id[..^4], int.Parse(id.AsSpan(id.Length - 3), CultureInfo.InvariantCulture));
        var ranges = new List<(string First, string Last)>();
        foreach (var id in ids)
        {
            if (ranges.Count > 0 && Parts(ranges[^1].Last) is var (area, number) && Parts(id) == (area, number + 1))
                ranges[^1] = (ranges[^1].First, id);
            else
                ranges.Add((id, id));
        }

        return string.Join(", ", ranges.Select(range => range.First == range.Last ? range.First : $"{range.First} to {range.Last[^3..]}"));
    }
}
