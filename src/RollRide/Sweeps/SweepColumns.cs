namespace RollRide.Sweeps;

/// <summary>What the rows of a table hold, by column: rows are in order, variant by variant, in each layout by layout.</summary>
/// <param name="Failed">Which rows failed.</param>
/// <param name="Metrics">For each metric its values; NaN where there is none.</param>
internal sealed record SweepColumns(bool[] Failed, double[][] Metrics)
{
    /// <summary>Columns of a number of rows, to be filled.</summary>
    public static SweepColumns Of(int metrics, int rows) => new(new bool[rows], [.. Enumerable.Range(0, metrics).Select(_ => new double[rows])]);

    /// <summary>Takes the rows of a variant.</summary>
    /// <param name="result">What came of it.</param>
    /// <param name="first">The variant of the first rows.</param>
    public void Take(VariantResult result, long first)
    {
        var row = (int)(result.Variant - first) * result.Layouts.Length;
        foreach (var layout in result.Layouts)
        {
            Failed[row] = layout.Failure is not null;
            for (var i = 0; i < layout.Outputs.Length; i++)
                Metrics[i][row] = layout.Outputs[i];
            row++;
        }
    }
}
