using System.Collections.Concurrent;
using System.Globalization;
using System.Text;

[assembly: AssemblyFixture(typeof(RollRide.Tests.ValidationPage))]

namespace RollRide.Tests;

/// <summary>A check against an outside source: asserted like any other, and listed in docs/validation.md.</summary>
internal static class Validation
{
    private static readonly ConcurrentDictionary<string, string> Rows = new(StringComparer.Ordinal);

    /// <summary>Asserts that a number agrees with its source, and lists it.</summary>
    /// <param name="id">Id of the check, unique among all; the page is sorted by it.</param>
    /// <param name="check">What is checked, with the unit.</param>
    /// <param name="source">Author, year and place; "derived" with from what; says so if from memory.</param>
    /// <param name="expected">The source's number.</param>
    /// <param name="got">The program's number.</param>
    /// <param name="tolerance">The largest difference accepted, absolute.</param>
    public static void Row(string id, string check, string source, double expected, double got, double tolerance)
    {
        Assert.Equal(expected, got, tolerance);
        got += 0.0; // A negative zero would be printed with its sign.
        var row = string.Create(CultureInfo.InvariantCulture, $"| {id} | {check} | {source} | {expected:G9} | {got:G6} | {tolerance:G2} |");
        Assert.True(Rows.GetOrAdd(id, row) == row, $"Two checks have the id {id}.");
    }

    /// <summary>The page of all rows listed so far.</summary>
    public static string Page()
    {
        var page = new StringBuilder();
        page.Append(
            """
            # Validation

            Checks of the program against sources outside it: closed forms, published examples, printed tables. Each row was written by the
            test that asserts it, in a run of the whole suite; none was written by hand. "Derived" means worked out for the test from the
            formula or book named; "from memory" that the book was not at hand. `got` is what the program computes, to six digits, and
            `tolerance` the largest difference that the test accepts; why it is as large as that stands beside the number in the test.

            The other tests, of symmetry, balances of energy, limits and orders of convergence, have no number to list.

            To write this page anew: `ROLLRIDE_VALIDATION=docs/validation.md dotnet test RollRide.sln`. Continuous integration does so and compares.

            | id | check | source | expected | got | tolerance |
            |---|---|---|---|---|---|

            """);
        foreach (var row in Rows.OrderBy(row => row.Key, StringComparer.Ordinal))
            page.Append(row.Value).Append('\n');
        return page.ToString();
    }
}

/// <summary>Writes the page when all tests have run, to the file that ROLLRIDE_VALIDATION names from the root of the repository.</summary>
public sealed class ValidationPage : IDisposable
{
    /// <summary>Writes the page.</summary>
    public void Dispose()
    {
        if (Environment.GetEnvironmentVariable("ROLLRIDE_VALIDATION") is { Length: > 0 } path)
            File.WriteAllText(Path.Combine(Docs.Document.Root, path), Validation.Page());
    }
}
