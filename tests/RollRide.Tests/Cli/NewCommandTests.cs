using RollRide.Cli.Commands;
using RollRide.Cli.Terminals;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;
using RollRide.Vehicle;

namespace RollRide.Tests.Cli;

public class NewCommandTests
{
    [Theory]
    [InlineData("live-axle", typeof(LiveAxleSuspension), false)]
    [InlineData("independent", typeof(IndependentSuspension), false)]
    [InlineData("dual-tyre", typeof(LiveAxleSuspension), true)]
    public void Write_starter_can_be_read_and_has_the_name_given(string kind, Type suspension, bool dual)
    {
        using var folder = new TemporaryFolder();

        NewCommand.Write(folder["axle"], "My \"axle\"", kind);

        var study = ScenarioReader.Read(Path.Combine(folder["axle"], "My \"axle\".json")).Study;
        Assert.Equal("My \"axle\"", study.Provenance.Scenario);
        Assert.Equal((suspension, dual), (study.Vehicle.Suspension.GetType(), study.Vehicle.Tyre.DualSpacing is not null));
        Assert.Contains("//", File.ReadAllText(Path.Combine(folder["axle"], "My \"axle\".json")), StringComparison.Ordinal);
    }

    [Fact]
    public void Write_where_something_stands_changes_nothing()
    {
        using var folder = new TemporaryFolder();
        Directory.CreateDirectory(folder["axle"]);

        var fault = Assert.Throws<IOException>(() => NewCommand.Write(folder["axle"], "axle", "live-axle"));

        Assert.Contains("axle", fault.Message, StringComparison.Ordinal);
        Assert.Equal(["axle"], folder.Entries);
    }

    [Theory]
    [InlineData("../x")]
    [InlineData("a/b")]
    [InlineData("")]
    [InlineData("..")]
    [InlineData(".hidden")]
    [InlineData("a\nb")]
    public async Task New_name_that_is_no_plain_name_is_refused(string name) =>
        (await Invocation.Of("new", name)).Refused(ExitCode.BadInput, "plain name");

    [Fact]
    public async Task New_unknown_kind_is_refused_with_the_known_ones() =>
        (await Invocation.Of("new", "x", "--kind", "trike")).Refused(ExitCode.BadInput, "trike", "live-axle", "independent", "dual-tyre");
}
