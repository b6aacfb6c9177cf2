using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using CsvHelper;
using RollRide.DataFiles;
using RollRide.Sweeps;

namespace RollRide.Results;

/// <summary>What a row of a sweep's table holds, written and read.</summary>
/// <param name="plan">The plan.</param>
internal sealed class SweepTableFormat(SweepPlan plan)
{
    private const int LeadingColumns = 5;
    private const int FailureColumn = 3;

    private readonly ImmutableArray<string> _layoutNames = [.. plan.LayoutNames.Select(name => OneLine.Of(name))];

    /// <summary>The columns' names.</summary>
    public ImmutableArray<string> Columns { get; } =
    [
        "variant", "loadState", "layout", "failure", "warnings",
        .. plan.Parameters.Select(parameter => OneLine.Of(parameter.Name)),
        .. plan.Metrics.Select(metric => OneLine.Of(metric.Key)),
    ];

    /// <summary>Writes rows as they stand in the table. Thread-safe.</summary>
    /// <param name="results">Variants in a row.</param>
    public StringBuilder RowsOf(ImmutableArray<VariantResult> results)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture) { NewLine = "\n" };
        using (var table = new CsvTableWriter(text, Columns, continues: true))
        {
            foreach (var result in results)
                WriteRows(table, result);
        }

        return text.GetStringBuilder();
    }

    /// <summary>Reads output columns of a whole table.</summary>
    /// <param name="path">The table.</param>
    /// <param name="metrics">Their places among the plan's metrics.</param>
    /// <param name="rows">The number of rows.</param>
    /// <param name="cancellation">Stops it.</param>
    public SweepColumns Read(string path, IReadOnlyList<int> metrics, int rows, CancellationToken cancellation)
    {
        var columns = SweepColumns.Of(metrics.Count, rows);
        using var file = InputFile.Open(path, cancellation);
        using var csv = CsvReader.Create(file, new CsvReaderOptions { Separator = ',', HasHeader = false, FormatProvider = CultureInfo.InvariantCulture });
        csv.Read();
        for (var row = 0; row < columns.Failed.Length && csv.Read(); row++)
        {
            columns.Failed[row] = csv.GetString(FailureColumn).Length > 0;
            for (var i = 0; i < metrics.Count; i++)
                columns.Metrics[i][row] = csv.TryParse<double>(LeadingColumns + plan.Parameters.Length + metrics[i], TryNumber, out var value) ? value : double.NaN;
        }

        return columns;
    }

    private static bool TryNumber(string text, IFormatProvider? provider, out double value) => double.TryParse(text, NumberStyles.Float, provider, out value);

    private void WriteRows(CsvTableWriter table, VariantResult result)
    {
        var variant = result.Variant.ToString(CultureInfo.InvariantCulture);
        var state = OneLine.Of(plan.LoadStateOf(result.Variant)?.Name ?? "");
        var inputs = plan.ValuesOf(result.Variant);
        for (var i = 0; i < result.Layouts.Length; i++)
        {
            var layout = result.Layouts[i];
            table.WriteRow(
                [variant, state, _layoutNames[i], OneLine.Of(layout.Failure ?? ""), layout.Warnings.ToString(CultureInfo.InvariantCulture)],
                [.. inputs, .. layout.Outputs]);
        }
    }
}
