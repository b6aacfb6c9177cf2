using System.Collections.Immutable;

namespace RollRide.Sweeps;

/// <summary>Runs the variants of a sweep.</summary>
public static class SweepRun
{
    /// <summary>Several times as many as run side by side, so that few lanes wait at the end for the slowest.</summary>
    private const long VariantsInALot = 64;

    private const int LotsPerThread = 4;

    /// <summary>Runs some variants in a row.</summary>
    /// <typeparam name="T">What is made of results before they are taken.</typeparam>
    /// <param name="plan">The plan.</param>
    /// <param name="first">The first variant.</param>
    /// <param name="end">The variant after the last.</param>
    /// <param name="threads">Threads that run variants; the results do not depend on how many there are.</param>
    /// <param name="make">Makes something of results, on any thread.</param>
    /// <param name="take">Takes the results and what was made of them, in order.</param>
    /// <param name="cancellation">Stops the sweep; what was taken until then is a beginning without gaps.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static void Run<T>(
        SweepPlan plan,
        long first,
        long end,
        int threads,
        Func<ImmutableArray<VariantResult>, T> make,
        Action<ImmutableArray<VariantResult>, T> take,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(make);
        ArgumentNullException.ThrowIfNull(take);
        ArgumentOutOfRangeException.ThrowIfLessThan(threads, 1);
        var together = Together(end - first, threads);
        InOrder.Run(
            0,
            (end - first + together - 1) / together,
            threads,
            lot =>
            {
                var from = first + (lot * together);
                var results = VariantResult.Run(plan, from, (int)Math.Min(together, end - from), cancellation);
                return (Results: results, Made: make(results));
            },
            lot => take(lot.Results, lot.Made),
            cancellation);
    }

    /// <summary>
    /// Variants that a thread takes at a time: several, since they run side by side, but not so many that a thread is left without work.
    /// </summary>
    private static long Together(long variants, int threads) => Math.Clamp(variants / (LotsPerThread * threads), 1, VariantsInALot);
}
