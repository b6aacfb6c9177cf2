using RollRide.Live;
using RollRide.Tests.DataFiles;

namespace RollRide.Tests.Live;

public class FileWatchTests
{
    [Fact]
    public void A_file_that_is_named_later_has_not_changed_until_it_does()
    {
        using var folder = new TemporaryFolder();
        List<string> files = [folder.Write("scenario.json", "{}")];
        var watch = new FileWatch(() => [.. files]);
        files.Add(folder.Write("curve.csv", "1"));
        Assert.False(HasChanged());
        files.RemoveAt(1);
        Assert.False(HasChanged());
        files.Add(folder.Write("curve.csv", "12"));
        Assert.True(HasChanged());
        Assert.False(HasChanged());

        // A change is told when it has come to rest.
        bool HasChanged() => watch.HasChanged() | watch.HasChanged();
    }
}
