using RollRide.Live;

namespace RollRide.Tests.Live;

/// <summary>When the server has nobody left to serve.</summary>
public class OpenPagesTests
{
    [Fact]
    public void FirstPage_IsAwaitedLongerThanOneThatMayComeBack()
    {
        var pages = new OpenPages();
        Count(pages, OpenPages.TicksToOpen - 1);
        Assert.False(pages.HaveClosed);
        pages.CountTick();
        Assert.True(pages.HaveClosed);
    }

    [Fact]
    public void LastPageClosed_EndsAfterItsTicks()
    {
        var pages = new OpenPages();
        var (first, second) = (pages.Open(), pages.Open());
        first.Dispose();
        Count(pages, 10 * OpenPages.TicksToClose);
        Assert.False(pages.HaveClosed);
        second.Dispose();
        Count(pages, OpenPages.TicksToClose - 1);
        Assert.False(pages.HaveClosed);
        pages.CountTick();
        Assert.True(pages.HaveClosed);
    }

    [Fact]
    public void PageLoadedAnew_BeginsTheCountAnew()
    {
        var pages = new OpenPages();
        pages.Open().Dispose();
        Count(pages, OpenPages.TicksToClose - 1);
        pages.Open().Dispose();
        Count(pages, OpenPages.TicksToClose - 1);
        Assert.False(pages.HaveClosed);
    }

    private static void Count(OpenPages pages, int ticks)
    {
        for (var i = 0; i < ticks; i++)
            pages.CountTick();
    }
}
