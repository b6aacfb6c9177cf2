using RollRide.Sweeps;

namespace RollRide.Tests.Sweeps;

public class InOrderTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    public void Results_come_in_order_whichever_is_ready_first(int threads)
    {
        var taken = new List<long>();
        using var firstMayEnd = new ManualResetEventSlim();

        InOrder.Run(
            5,
            305,
            threads,
            number =>
            {
                // The first of all ends after others, as far as there are threads to run them.
                if (number == 5 && threads > 1)
                    firstMayEnd.Wait(TestContext.Current.CancellationToken);
                else if (number == 20)
                    firstMayEnd.Set();
                return number;
            },
            taken.Add,
            TestContext.Current.CancellationToken);

        Assert.Equal(Enumerable.Range(5, 300).Select(i => (long)i), taken);
    }

    [Fact]
    public void Work_never_runs_far_ahead_of_a_slow_one()
    {
        var highest = 0L;
        using var enough = new ManualResetEventSlim();
        var taken = 0;

        InOrder.Run(
            0,
            1000,
            2,
            number =>
            {
                // 2 threads keep at most 2 · 32 results waiting; the last that fits lets the first go.
                if (number == 0)
                    enough.Wait(TestContext.Current.CancellationToken);
                else if (number == 63)
                    enough.Set();
                if (!enough.IsSet)
                    highest = Math.Max(highest, number);
                return number;
            },
            _ => taken++,
            TestContext.Current.CancellationToken);

        Assert.Equal(1000, taken);
        Assert.InRange(highest, 1, 63);
    }

    [Fact]
    public void Cancelling_leaves_a_beginning_without_gaps()
    {
        var taken = new List<long>();
        using var stop = new CancellationTokenSource();

        Assert.Throws<OperationCanceledException>(() => InOrder.Run(
            0,
            1_000_000,
            3,
            number => number,
            number =>
            {
                taken.Add(number);
                if (number == 50)
                    stop.Cancel();
            },
            stop.Token));

        Assert.Equal(Enumerable.Range(0, taken.Count).Select(i => (long)i), taken);
        Assert.InRange(taken.Count, 51, 10_000);
    }

    [Fact]
    public void Failure_of_one_ends_all_and_is_told()
    {
        var failure = Assert.Throws<InvalidOperationException>(() => InOrder.Run<long>(
            0, 1_000_000, 3, number => number == 40 ? throw new InvalidOperationException("this one") : number, _ => { }, TestContext.Current.CancellationToken));
        Assert.Equal("this one", failure.Message);
    }
}
