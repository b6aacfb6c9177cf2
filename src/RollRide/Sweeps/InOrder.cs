using System.Runtime.ExceptionServices;

namespace RollRide.Sweeps;

/// <summary>Does work on several threads and hands the results on in order, whichever is ready first.</summary>
internal static class InOrder
{
    // Results waiting for an earlier one, for each thread: enough that a slow variant does not hold up the others.
    private const int WaitingPerThread = 32;

    /// <summary>Runs the work.</summary>
    /// <typeparam name="T">A result.</typeparam>
    /// <param name="first">The first number.</param>
    /// <param name="end">The number after the last.</param>
    /// <param name="threads">The number of threads, at least 1.</param>
    /// <param name="make">Makes the result of a number, on any thread.</param>
    /// <param name="take">Takes the results one after the other, in the order of their numbers.</param>
    /// <param name="cancellation">Stops the work; what was handed on until then is a beginning without gaps.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static void Run<T>(long first, long end, int threads, Func<long, T> make, Action<T> take, CancellationToken cancellation)
    {
        var window = threads * WaitingPerThread;
        var ready = new (bool Is, T? Result)[window];
        var next = first - 1;
        var taken = first;
        var gate = new Lock();
        ExceptionDispatchInfo? failure = null;
        using var room = new SemaphoreSlim(window);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);

        void Work()
        {
            try
            {
                while (true)
                {
                    // A place in the window comes before a number: the lowest number not yet done always has one.
                    room.Wait(stop.Token);
                    var number = Interlocked.Increment(ref next);
                    if (number >= end)
                    {
                        room.Release();
                        return;
                    }

                    var result = make(number);
                    lock (gate)
                    {
                        ready[number % window] = (true, result);
                        for (; ready[taken % window].Is; taken++)
                        {
                            take(ready[taken % window].Result!);
                            ready[taken % window] = default;
                            room.Release();
                        }
                    }
                }
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
            }
#pragma warning disable CA1031 // It is thrown again below, once all threads have ended.
            catch (Exception e)
            {
                Interlocked.CompareExchange(ref failure, ExceptionDispatchInfo.Capture(e), null);
                stop.Cancel();
            }
#pragma warning restore CA1031
        }

        Task.WaitAll([.. Enumerable.Range(0, threads).Select(_ => Task.Factory.StartNew(
            Work, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default))], CancellationToken.None);
        failure?.Throw();
        cancellation.ThrowIfCancellationRequested();
    }
}
