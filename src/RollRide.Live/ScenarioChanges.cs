namespace RollRide.Live;

/// <summary>Counts how often the scenario's files have changed, and wakes who waits for the next time.</summary>
internal sealed class ScenarioChanges
{
    private volatile State _now = new(0, new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously));

    /// <summary>How often the files have changed, and a task that ends when they change again.</summary>
    public (int Count, Task Next) Now => (_now.Count, _now.Next.Task);

    /// <summary>The files have changed. Called by one thread at a time.</summary>
    public void Tell()
    {
        var before = _now;
        _now = new State(before.Count + 1, new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously));
        before.Next.SetResult();
    }

    private sealed record State(int Count, TaskCompletionSource Next);
}
