using RollRide.Cli.Commands;
using RollRide.Studies;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

public class ComparisonFolderTests
{
    [Fact]
    public void Write_cancelled_half_way_leaves_nothing()
    {
        using var folder = new TemporaryFolder();
        var scenario = ShortScenario.Pair().Read();
        var verdict = Verdict.Of([new ComparisonFindings(ShortScenario.Pair().Run())], TestContext.Current.CancellationToken);

        // The summary and the metrics are written aside before the first look at the token.
        Assert.ThrowsAny<OperationCanceledException>(() =>
            ComparisonFolder.Write(folder["new/out"], verdict, scenario, addMore: _ => { }, new CancellationToken(canceled: true)));

        Assert.Empty(folder.Entries);
    }
}
