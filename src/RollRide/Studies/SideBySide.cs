using System.Collections.Immutable;

namespace RollRide.Studies;

/// <summary>Runs of a study on the machine's cores; neither results nor failures depend on how many there are.</summary>
internal static class SideBySide
{
    /// <summary>Runs them all.</summary>
    /// <param name="count">The number of runs.</param>
    /// <param name="run">Does one of them.</param>
    /// <param name="progress">Is told the number of runs finished.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <exception cref="StudyException">Some runs failed; it names them in their order.</exception>
    public static ImmutableArray<T> Run<T>(int count, Func<int, T> run, IProgress<int>? progress = null, CancellationToken cancellation = default)
    {
        var results = new T[count];
        var failures = new StudyException?[count];
        var done = 0;
        void RunOne(int i)
        {
            try
            {
                results[i] = run(i);
            }
            catch (StudyException e)
            {
                // All the others run all the same: which ones fail must not depend on the order in which threads get there.
                failures[i] = e;
            }

            progress?.Report(Interlocked.Increment(ref done));
        }

        // A single run needs no other thread, and none of what it takes to hand it over.
        if (count == 1)
            RunOne(0);
        else
            Parallel.For(0, count, new ParallelOptions { CancellationToken = cancellation }, RunOne);
        StudyException[] failed = [.. failures.OfType<StudyException>()];
        return failed.Length switch
        {
            0 => [.. results],
            1 => throw failed[0],
            _ => throw new StudyException(failed),
        };
    }
}
