namespace RollRide.Tests.Numerics;

internal static class Allocation
{
    /// <summary>
    /// Bytes that an action allocates once warm: the least of ten runs, because a collection started by a test on another
    /// thread is counted with the unused rest of this thread's buffer. What the action allocates itself shows every time.
    /// </summary>
    public static long Of(Action action)
    {
        action();
        long least = long.MaxValue;
        for (int run = 0; run < 10; run++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            action();
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        return least;
    }
}
