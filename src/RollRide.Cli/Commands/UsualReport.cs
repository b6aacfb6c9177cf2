using System.Collections.Immutable;
using RollRide.Cli.Terminals;
using RollRide.Findings;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Prints the quantities that a colleague looks at first beside what is usual: one row per quantity, one column per layout.</summary>
internal static class UsualReport
{
    private const string Unusual = "*";

    /// <summary>Prints the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="study">The case in a load state.</param>
    /// <returns>The quantities.</returns>
    public static ImmutableArray<UsualValues> Write(TextWriter output, StudyCase study)
    {
        var rows = UsualValues.Of(study);
        var table = new TextTable(["Compared with usual values", "unit", "usual", .. study.Layouts.Select(layout => layout.Name)]);
        foreach (var row in rows.Where(row => row.Values.Any(value => value is not null)))
        {
            var range = row.Range;
            table.Add([
                row.Quantity, range.Unit.Symbol, range.Words,
                .. row.Values.Select(value => TextTable.Number(range.Unit.Of(value), range.Decimals) + (value is { } known && !range.Holds(known) ? Unusual : ""))]);
        }

        table.Write(output);
        output.WriteLine();
        return rows;
    }
}
