namespace RollRide.Sweeps;

/// <summary>What the rows of a table hold, by column: rows are in order, variant by variant, in each layout by layout.</summary>
/// <param name="Failed">Which rows failed.</param>
/// <param name="Metrics">For each metric its values; NaN where there is none.</param>
internal sealed record SweepColumns(bool[] Failed, double[][] Metrics)
{
    /// <summary>Columns of a number of rows, to be filled.</summary>
    public static SweepColumns Of(int metrics, int rows) => new(new bool[rows], [.. Enumerable.Range(0, metrics).Select(_ => new double[rows])]);
}
