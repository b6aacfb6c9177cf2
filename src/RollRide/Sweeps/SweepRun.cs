namespace RollRide.Sweeps;

/// <summary>Runs the variants of a sweep.</summary>
public static class SweepRun
{
    /// <summary>Runs what is missing in a table and appends it.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="table">The table, prepared.</param>
    /// <param name="from">The first variant that is missing.</param>
    /// <param name="threads">Threads that run variants; the table does not depend on how many there are.</param>
    /// <param name="progress">Is told the number of the share's variants done.</param>
    /// <param name="cancellation">Stops the sweep; the table then ends with a whole variant.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static void Run(SweepPlan plan, SweepTable table, long from, int threads, IProgress<long>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(table);
        ArgumentOutOfRangeException.ThrowIfLessThan(threads, 1);
        table.Append(append => InOrder.Run(
            from,
            table.End,
            threads,
            variant => VariantResult.Run(plan, variant, cancellation),
            result =>
            {
                append(result);
                progress?.Report(result.Variant + 1 - table.First);
            },
            cancellation));
    }
}
