using System.Text.Json.Nodes;
using RollRide.Cli;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

/// <summary>The commands mounts and place.</summary>
public class PlacementCommandTests
{
    private static string ShippedPlacement => Shipped.PathOf("scenarios", "placement.json");

    [Fact]
    public async Task Place_prints_bands_limits_and_the_price_and_writes_the_files()
    {
        using var folder = new TemporaryFolder();

        var run = await Invocation.Of("place", ShippedPlacement, "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (run.ExitCode, run.Error));
        Assert.Matches(@"Outboard of the rail +\d+\.\d\d +\d+\.\d\d +upper tube to frame rail", run.Output);
        Assert.Contains("costs", run.Output, StringComparison.Ordinal);
        Assert.Contains("rollover", run.Output, StringComparison.Ordinal);
        Assert.Equal(
            ["placement.csv", "placement.json", "rear-view-Inboard-of-the-rail.png", "rear-view-Outboard-of-the-rail.png", "roll-damping-by-position.png"],
            Directory.GetFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Place_without_packaging_is_refused()
    {
        using var folder = new TemporaryFolder();

        (await Invocation.Of("place", ShortScenario.Pair().WriteTo(folder), "--out", folder["out"])).Refused(ExitCode.BadInput, "packaging", "missing");
        Assert.Equal(["short.json"], folder.Entries);
    }

    [Fact]
    public async Task Mounts_prints_ratios_and_lengths_and_writes_the_files()
    {
        using var folder = new TemporaryFolder();

        var run = await Invocation.Of("mounts", ShippedPlacement, "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (run.ExitCode, run.Error));
        Assert.Contains("left closed [mm]", run.Output, StringComparison.Ordinal);
        Assert.Equal(["length-budget.png", "motion-ratios.png", "mounts.csv", "mounts.json"], Directory.GetFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("mounts", "mounts.json", "layouts", "rollRatio")]
    [InlineData("place", "placement.json", "bands", "rollDampingRatio")]
    public async Task Json_is_the_summary_file_and_a_figure_comes_in_the_format_asked_for(string command, string file, string list, string key)
    {
        using var folder = new TemporaryFolder();

        var run = await Invocation.Of(command, ShippedPlacement, "--json", "--format", "pdf", "--size", "640x360", "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (run.ExitCode, run.Error));
        Assert.Equal(File.ReadAllText(Path.Combine(folder["out"], file)), run.Output);
        var summary = JsonNode.Parse(run.Output)!;
        Assert.Equal("placement.json", (string?)summary["scenario"]!["file"]);
        Assert.All(summary[list]!.AsArray(), item => Assert.InRange((double)item![key]!, 0.01, 1.5));
        Assert.True(new FileInfo(Path.Combine(folder["out"], "figures.pdf")).Length > 1000);
        Assert.Empty(Directory.GetFiles(folder["out"], "*.png"));
    }

    [Fact]
    public async Task Mounts_without_travel_or_stops_is_refused()
    {
        using var folder = new TemporaryFolder();

        (await Invocation.Of("mounts", ShortScenario.Pair().WriteTo(folder), "--out", folder["out"])).Refused(ExitCode.BadInput, "vehicle.travel");
    }

    [Fact]
    public async Task Mounts_of_given_ratios_shows_them_at_every_travel()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().With("vehicle.travel", JsonNode.Parse("""{ "bump_mm": 60, "rebound_mm": 50, "roll_deg": 3 }""")).WriteTo(folder);

        var run = await Invocation.Of("mounts", path, "--no-plots", "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Matches(@"Outer +1\.000 +1\.000 to 1\.000 +0\.800 +0\.800 to 0\.800 +– +– +– +– +–", run.Output);
    }
}
