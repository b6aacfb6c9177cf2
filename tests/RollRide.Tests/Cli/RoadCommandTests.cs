using System.Security.Cryptography;
using System.Text.Json.Nodes;
using RollRide.Cli;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

public class RoadCommandTests
{
    [Fact]
    public async Task Road_of_a_scenario_prints_class_and_index_and_writes_what_it_can_read_again()
    {
        using var folder = new TemporaryFolder();
        var first = folder["first"];
        var (code, output, _) = await Invocation.Of("road", Shipped.Scenario("smooth-motorway.json"), "--length", "3000", "--out", first);
        Assert.Equal(ExitCode.Done, code);
        Assert.Contains("Class (ISO 8608)", output, StringComparison.Ordinal);
        Assert.Contains("A road of class A", output, StringComparison.Ordinal);
        foreach (var name in (string[])["road-profile.csv", "road-spectrum.csv", "road-profile.png", "road-spectrum.png", "road-coherence.png"])
            Assert.True(new FileInfo(Path.Combine(first, name)).Length > 1000, name);

        var (again, secondOutput, _) = await Invocation.Of("road", Path.Combine(first, "road-profile.csv"), "--track", "1.66", "--no-plots", "--out", folder["second"]);
        Assert.Equal(ExitCode.Done, again);

        // The same table but for its headline: nine digits carry the whole profile.
        Assert.Equal(Body(output), Body(secondOutput));
    }

    [Fact]
    public async Task Json_of_a_measured_profile_is_its_summary_with_the_checksum_of_the_file()
    {
        using var folder = new TemporaryFolder();
        var elevations = new Random(1); // Steps of white noise: an uneven track of any class.
        var file = folder.Write("track.csv", "distance_m,left_mm\n" + string.Concat(Enumerable.Range(0, 4000).Select(i => FormattableString.Invariant($"{i * 0.25},{elevations.NextDouble() * 5:F3}\n"))));

        var run = await Invocation.Of("road", file, "--json", "--format", "svg", "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (run.ExitCode, run.Error));
        Assert.Equal(File.ReadAllText(Path.Combine(folder["out"], "road.json")), run.Output);
        var summary = JsonNode.Parse(run.Output)!;
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(file))), (string?)summary["scenario"]!["sha256"]);
        Assert.Equal(999.75, (double)summary["length_m"]!, 1e-9);
        Assert.Equal((double)summary["roughnessIndexLeft_m_per_km"]!, (double)summary["roughnessIndexMean_m_per_km"]!, 1e-9);
        Assert.Equal(["road-coherence.svg", "road-profile.csv", "road-profile.svg", "road-spectrum.csv", "road-spectrum.svg", "road.json"],
            Directory.GetFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Road_of_a_short_profile_says_what_is_missing()
    {
        using var folder = new TemporaryFolder();
        var file = folder.Write("short.csv", "distance_m,left_mm\n" + string.Concat(Enumerable.Range(0, 60).Select(i => $"{i},{i % 3}\n")));
        var (code, _, error) = await Invocation.Of("road", file, "--out", folder["out"]);
        Assert.Equal(ExitCode.BadInput, code);
        Assert.Contains("short.csv", error, StringComparison.Ordinal);
        Assert.Contains("too short", error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder["out"]));
    }

    [Fact]
    public async Task Road_of_an_obstacle_alone_is_refused()
    {
        using var folder = new TemporaryFolder();
        var (code, _, error) = await Invocation.Of("road", Shipped.Scenario("bump-then-corner.json"), "--out", folder["out"]);
        Assert.Equal(ExitCode.BadInput, code);
        Assert.Contains("obstacle", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--step", "abc")]
    [InlineData("--step", "0,1")]
    [InlineData("--length", "5")]
    public async Task Numbers_out_of_range_are_refused_with_what_is_accepted(string option, string value)
    {
        var (code, _, error) = await Invocation.Of("road", Shipped.Scenario("smooth-motorway.json"), option, value);
        Assert.Equal(ExitCode.BadInput, code);
        Assert.Contains($"'{value}' is not accepted; a number from", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_over_seeds_writes_means_and_the_linear_reference()
    {
        using var folder = new TemporaryFolder();
        var text = await File.ReadAllTextAsync(Shipped.Scenario("smooth-motorway.json"), TestContext.Current.CancellationToken);
        File.Copy(Shipped.Scenario("valley-damper-dyno.csv"), folder["valley-damper-dyno.csv"]);
        var scenario = folder.Write("short.json", text.Replace("\"duration_s\": 40", "\"duration_s\": 12", StringComparison.Ordinal));
        var results = folder["results"];
        var (code, output, _) = await Invocation.Of("compare", scenario, "--seeds", "3", "--linear", "--no-plots", "--out", results);
        Assert.Equal(ExitCode.Done, code);
        Assert.Contains("Over 3 random roads, seeds 1 to 3", output, StringComparison.Ordinal);
        Assert.Contains("road by road", output, StringComparison.Ordinal);
        Assert.Contains("Linear reference", output, StringComparison.Ordinal);
        var lines = await File.ReadAllLinesAsync(Path.Combine(results, "seeds.csv"), TestContext.Current.CancellationToken);
        Assert.Equal("layout,phase,metric,seeds,mean,halfWidth95", lines[0]);
        Assert.Contains(lines, line => line.StartsWith("Outboard,ride,rideSeatTotal_m_per_s2,3,", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("compare", "--seeds", "3")]
    [InlineData("compare", "--linear", null)]
    [InlineData("report", "--seeds", "3")]
    public async Task Seeds_and_linear_need_a_ride_before_the_corner(string command, string option, string? value)
    {
        using var folder = new TemporaryFolder();
        var scenario = ShortScenario.Pair().With("manoeuvre.road.random", JsonNode.Parse("""{ "class": "a" }""")).With("manoeuvre.duration_s", 8).WriteTo(folder);
        string[] arguments = [.. new[] { command, scenario, option, value, "--out", folder["results"] }.OfType<string>()];
        var (code, _, error) = await Invocation.Of(arguments);
        Assert.Equal(ExitCode.BadInput, code);
        Assert.Contains("begins at 0.80 s, and the ride is measured from 4.00 s", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("compare", "--seeds", "3")]
    [InlineData("compare", "--linear", null)]
    [InlineData("report", "--seeds", "3")]
    public async Task Seeds_and_linear_need_a_random_road(string command, string option, string? value)
    {
        string[] arguments = [command, Shipped.Scenario("bump-then-corner.json"), option, .. value is null ? Array.Empty<string>() : [value]];
        var (code, _, error) = await Invocation.Of(arguments);
        Assert.Equal(ExitCode.BadInput, code);
        Assert.Contains($"{option} needs a random road", error, StringComparison.Ordinal);
    }

    private static string Body(string output)
    {
        var start = output.IndexOf("Class (ISO", StringComparison.Ordinal);
        return output[start..output.IndexOf("Written to", StringComparison.Ordinal)];
    }
}
