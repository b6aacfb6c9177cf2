using System.Runtime.ExceptionServices;

namespace RollRide.Studies;

/// <summary>
/// Lets searches that each ask for one run at a time have their runs made side by side: it waits until every search still going has asked, and
/// makes all runs asked for together. What a search gets does not depend on the others.
/// </summary>
/// <param name="searches">How many searches there are, each on a thread of its own.</param>
/// <param name="makeAll">Makes runs together, and gives their results in the same order.</param>
/// <typeparam name="TRequest">What a run is asked for by.</typeparam>
/// <typeparam name="TResult">What it gives.</typeparam>
internal sealed class SharedRuns<TRequest, TResult>(int searches, Func<TRequest[], TResult[]> makeAll)
    where TResult : class
{
    private readonly Lock _gate = new();
    private readonly List<Asked> _waiting = [];
    private int _going = searches;

    /// <summary>Runs every search on a thread of its own, and waits for all of them.</summary>
    /// <param name="search">A search, by its number; it asks through <see cref="Make"/>.</param>
    /// <exception cref="OperationCanceledException">The runs were stopped.</exception>
    public void RunSearches(Action<int> search)
    {
        var count = _going;
        ExceptionDispatchInfo? failure = null;
        var threads = new Thread[count];
        for (var i = 0; i < count; i++)
        {
            var number = i;
            threads[i] = new Thread(() =>
            {
                try
                {
                    search(number);
                }
#pragma warning disable CA1031 // It is thrown again below, once all threads have ended.
                catch (Exception e)
                {
                    Interlocked.CompareExchange(ref failure, ExceptionDispatchInfo.Capture(e), null);
                }
#pragma warning restore CA1031
                finally
                {
                    Leave();
                }
            });
        }

        foreach (var thread in threads)
            thread.Start();
        foreach (var thread in threads)
            thread.Join();
        failure?.Throw();
    }

    /// <summary>Asks for one run, and waits for it.</summary>
    public TResult Make(TRequest request)
    {
        var asked = new Asked(request);
        Asked[]? all;
        lock (_gate)
        {
            _waiting.Add(asked);
            all = TakeIfComplete();
        }

        if (all is not null)
            MakeAll(all);
        return asked.Result;
    }

    private void Leave()
    {
        Asked[]? all;
        lock (_gate)
        {
            _going--;
            all = TakeIfComplete();
        }

        if (all is not null)
            MakeAll(all);
    }

    private Asked[]? TakeIfComplete()
    {
        if (_waiting.Count == 0 || _waiting.Count < _going)
            return null;
        Asked[] all = [.. _waiting];
        _waiting.Clear();
        return all;
    }

    private void MakeAll(Asked[] all)
    {
        try
        {
            var results = makeAll(Array.ConvertAll(all, asked => asked.Request));
            for (var i = 0; i < all.Length; i++)
                all[i].Give(results[i]);
        }
#pragma warning disable CA1031 // Every search that waits is told, and throws it on.
        catch (Exception e)
#pragma warning restore CA1031
        {
            foreach (var asked in all)
                asked.Fail(e);
        }
    }

    private sealed class Asked(TRequest request)
    {
        private readonly TaskCompletionSource<TResult> _result = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public TRequest Request => request;

        public TResult Result => _result.Task.GetAwaiter().GetResult();

        public void Give(TResult result) => _result.SetResult(result);

        public void Fail(Exception failure) => _result.SetException(failure);
    }
}
