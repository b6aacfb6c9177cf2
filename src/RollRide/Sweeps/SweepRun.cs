namespace RollRide.Sweeps;

/// <summary>Runs the variants of a sweep.</summary>
public static class SweepRun
{
    /// <summary>Several times as many as run side by side, so that few lanes wait at the end for the slowest.</summary>
    private const long VariantsInALot = 64;

    private const int LotsPerThread = 4;

    /// <summary>Runs what is missing in a table and appends it.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="table">The table, prepared.</param>
    /// <param name="from">The first variant that is missing.</param>
    /// <param name="threads">Threads that run variants; the table does not depend on how many there are.</param>
    /// <param name="progress">Is told the number of the share's variants done.</param>
    /// <param name="clock">Tells when rows are due on the disk, see <see cref="SweepTable.Append"/>.</param>
    /// <param name="cancellation">Stops the sweep; the table then ends with a whole variant.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static void Run(
        SweepPlan plan, SweepTable table, long from, int threads, IProgress<long>? progress = null, TimeProvider? clock = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(table);
        ArgumentOutOfRangeException.ThrowIfLessThan(threads, 1);
        var together = Together(table.End - from, threads);
        table.Append(from, append => InOrder.Run(
            0,
            (table.End - from + together - 1) / together,
            threads,
            lot =>
            {
                var first = from + (lot * together);
                var results = VariantResult.Run(plan, first, (int)Math.Min(together, table.End - first), cancellation);
                return (Results: results, Rows: table.RowsOf(results));
            },
            lot =>
            {
                append(lot.Results, lot.Rows);
                progress?.Report(lot.Results[^1].Variant + 1 - table.First);
            },
            cancellation), clock);
    }

    /// <summary>
    /// Variants that a thread takes at a time: several, since they run side by side, but not so many that a thread is left without work.
    /// </summary>
    private static long Together(long variants, int threads) => Math.Clamp(variants / (LotsPerThread * threads), 1, VariantsInALot);
}
