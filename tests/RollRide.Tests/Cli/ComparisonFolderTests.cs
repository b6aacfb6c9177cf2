using RollRide.Cli.Commands;
using RollRide.DataFiles;
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

        Assert.ThrowsAny<OperationCanceledException>(() =>
        {
            using var output = new OutputFolder(folder["new/out"], new CancellationToken(canceled: true));
            ComparisonFolder.AddTables(output, verdict.States);
            ComparisonFolder.Finish(output, "new/out", verdict, scenario);
        });

        Assert.Empty(folder.Entries);
    }
}
