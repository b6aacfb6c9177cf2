using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using RollRide.Cli.Terminals;
using RollRide.Modes;
using RollRide.Roads;
using RollRide.Scenarios;
using RollRide.Studies;
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

        // The same table and sentences but for the headline and the remark on the scenario's contact: nine digits carry the whole profile.
        Assert.Equal(Body(output), Body(secondOutput) + "This is the road itself; in a run the tyre averages it over its contact length of 110 mm.\n");
    }

    [Fact]
    public async Task Json_of_a_measured_profile_is_its_summary_with_the_checksum_of_the_file()
    {
        using var folder = new TemporaryFolder();
        var file = Track(folder, "left_mm");

        var run = await Invocation.Of("road", file, "--json", "--format", "svg", "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Equal(File.ReadAllText(Path.Combine(folder["out"], "road.json")), run.Output);
        var summary = JsonNode.Parse(run.Output)!;
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(file))), (string?)summary["scenario"]!["sha256"]);
        Assert.Equal(999.75, (double)summary["length_m"]!, 1e-9);
        Assert.Equal((double)summary["roughnessIndexLeft_m_per_km"]!, (double)summary["roughnessIndexMean_m_per_km"]!, 1e-9);
        Assert.Null(summary["track_m"]);

        // One track says nothing of how alike two are.
        Assert.Equal(["road-profile.csv", "road-profile.svg", "road-spectrum.csv", "road-spectrum.svg", "road.json"],
            Directory.GetFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Road_too_coarse_and_too_short_for_anything_is_refused()
    {
        using var folder = new TemporaryFolder();
        var file = folder.Write("short.csv", "distance_m,left_mm\n" + string.Concat(Enumerable.Range(0, 60).Select(i => $"{i},{i % 3}\n")));
        var (code, _, error) = await Invocation.Of("road", file, "--out", folder["out"]);
        Assert.Equal(ExitCode.BadInput, code);
        Assert.Contains("short.csv", error, StringComparison.Ordinal);
        Assert.Contains("needs a sample spacing of 0.3 m or less", error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder["out"]));
    }

    [Fact] // 40 m: no spectrum, but an index.
    public async Task Road_too_short_for_a_class_has_its_index_and_says_why_there_is_no_class()
    {
        using var folder = new TemporaryFolder();
        var file = folder.Write("short.csv", "distance_m,left_mm\n" + string.Concat(Enumerable.Range(0, 161).Select(i => FormattableString.Invariant($"{0.25 * i},{(i * i) % 7}\n"))));

        var run = await Invocation.Of("road", file, "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Matches(@"Class \(ISO 8608\) +–", run.Output);
        Assert.Contains("fewer than five third-octave bands", run.Output, StringComparison.Ordinal);
        Assert.Equal(["road-profile.csv", "road-profile.png", "road.json"], Directory.GetFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        var summary = JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "road.json")))!;
        Assert.Null(summary["class"]);
        Assert.True((double)summary["roughnessIndexLeft_m_per_km"]! > 1);
    }

    [Fact]
    public async Task One_track_says_nothing_of_coherence()
    {
        using var folder = new TemporaryFolder();
        var run = await Invocation.Of("road", Track(folder, "left_mm"), "--no-plots", "--out", folder["out"]);
        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Contains("only left_mm is given and taken for both tracks", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Coherence", run.Output, StringComparison.Ordinal);
        Assert.All(File.ReadLines(Path.Combine(folder["out"], "road-spectrum.csv")).Skip(1), line => Assert.EndsWith(",,", line, StringComparison.Ordinal));
    }

    private static string Track(TemporaryFolder folder, string column)
    {
        var elevations = new Random(1); // Steps of white noise: an uneven track of any class.
        return folder.Write("track.csv", $"distance_m,{column}\n" + string.Concat(Enumerable.Range(0, 4000).Select(i => FormattableString.Invariant($"{i * 0.25},{elevations.NextDouble() * 5:F3}\n"))));
    }

    [Fact]
    public async Task Options_that_do_not_apply_are_refused()
    {
        using var folder = new TemporaryFolder();
        var track = Track(folder, "left_mm");
        var motorway = Shipped.Scenario("smooth-motorway.json");
        foreach (var (file, option, value) in new[] { (track, "--step", "0.1"), (track, "--length", "500"), (track, "--track", "1.5"), (motorway, "--track", "1.5"), (Shipped.Scenario("bump-then-corner.json"), "--length", "500") })
        {
            var (code, _, error) = await Invocation.Of("road", file, option, value, "--out", folder["out"]);
            Assert.Equal(ExitCode.BadInput, code);
            Assert.Contains($"{option}: ", error, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Road_of_a_scenario_is_the_road_itself_and_says_what_is_left_out()
    {
        // The shipped crossing has obstacles and a contact length; as the tyre meets it, waves near twice the contact would be missing.
        using var folder = new TemporaryFolder();
        var (code, output, _) = await Invocation.Of("road", Shipped.Scenario("railway-crossing.json"), "--no-plots", "--out", folder["out"]);
        Assert.Equal(ExitCode.Done, code);
        Assert.Contains("averages it over its contact length of 110 mm", output, StringComparison.Ordinal);
        Assert.Contains("obstacles and measured profile are left out", output, StringComparison.Ordinal);

        // Class b, waviness 2: the highest bands keep the level of the others. Averaged over 110 mm, 2.5 waves a metre keep 77 %² of it.
        var rows = File.ReadLines(Path.Combine(folder["out"], "road-spectrum.csv")).Skip(1).Select(line => line.Split(',').Select(field => double.Parse(field, CultureInfo.InvariantCulture)).ToArray()).ToArray();
        Assert.Equal(64e-6, rows[^1][2] * Math.Pow(rows[^1][0] / 0.1, 2), 0.1 * 64e-6);
    }

    [Fact]
    public async Task Coherence_is_held_against_a_surface_as_wavy_as_the_road()
    {
        // The broken country road has a waviness of 2.2 and is made as isotropic: what is found lies on that curve but for chance.
        using var folder = new TemporaryFolder();
        await Invocation.Of("road", Shipped.Scenario("broken-country-road.json"), "--no-plots", "--length", "30000", "--out", folder["out"]);
        var rows = File.ReadLines(Path.Combine(folder["out"], "road-spectrum.csv")).Skip(1).Select(line => line.Split(',').Select(field => double.Parse(field, CultureInfo.InvariantCulture)).ToArray()).ToArray();
        var track = (double)JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "road.json")))!["track_m"]!;
        Assert.All(rows, row => Assert.Equal(TrackCoherence.Isotropic(track, 2.2).Gamma(row[0]), row[^1], 1e-8));
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
        Assert.Contains($": “{value}” is not accepted; a number from", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_over_seeds_writes_means_and_the_linear_reference()
    {
        using var folder = new TemporaryFolder();
        var text = await File.ReadAllTextAsync(Shipped.Scenario("smooth-motorway.json"), TestContext.Current.CancellationToken);
        File.Copy(Shipped.Scenario("valley-damper-dyno.csv"), folder["valley-damper-dyno.csv"]);
        var scenario = folder.Write("short.json", text.Replace("\"duration_s\": 40", "\"duration_s\": 12", StringComparison.Ordinal).Replace("\"end_s\": 40", "\"end_s\": 12", StringComparison.Ordinal));
        var results = folder["results"];
        var (code, output, _) = await Invocation.Of("compare", scenario, "--seeds", "3", "--linear", "--no-plots", "--out", results);
        Assert.Equal(ExitCode.Done, code);
        Assert.Contains("Over 3 random roads, seeds 1 to 3", output, StringComparison.Ordinal);
        Assert.Contains("road by road", output, StringComparison.Ordinal);
        Assert.Contains("Linear reference", output, StringComparison.Ordinal);
        Assert.Contains("Linear and simulated differ by up to ", output, StringComparison.Ordinal);

        // Alike tracks roll nothing; a road of all wavelengths shakes more than one that ends at 0.35 m and is averaged over the contact.
        var roll = output.Split('\n').First(line => line.Contains("roll acceleration, RMS", StringComparison.Ordinal) && line.Contains(" to ", StringComparison.Ordinal));
        Assert.Contains(" 0.000 to ", roll, StringComparison.Ordinal);
        var lines = await File.ReadAllLinesAsync(Path.Combine(results, "seeds.csv"), TestContext.Current.CancellationToken);
        Assert.Equal("layout,phase,metric,seeds,mean,halfWidth95", lines[0]);

        // The very numbers, from the runs themselves.
        var runs = RideStudy.Run(ScenarioReader.Read(scenario).Study, 3, cancellation: TestContext.Current.CancellationToken);
        Assert.All(runs, layout => Assert.Null(layout.Runs[0].Metrics.RollResponse));
        Assert.DoesNotContain(lines, line => line.Contains("rollOvershoot", StringComparison.Ordinal));
        foreach (var layout in runs)
        {
            var expected = MeanInterval.Of([.. layout.Runs.Select(run => run.Ride.WorstSeat.Total)]);
            var row = lines.Single(line => line.StartsWith($"{layout.Layout},ride,rideSeatTotal_m_per_s2,3,", StringComparison.Ordinal)).Split(',');
            Assert.Equal(expected.Mean, double.Parse(row[4], CultureInfo.InvariantCulture), 1e-12);
            Assert.Equal(expected.HalfWidth, double.Parse(row[5], CultureInfo.InvariantCulture), 1e-12);
        }

        var difference = MeanInterval.Of([.. runs[1].Runs.Zip(runs[0].Runs, (other, first) => other.Ride.WorstSeat.Total - first.Ride.WorstSeat.Total)]);
        Assert.Contains(FormattableString.Invariant($"{Math.Abs(difference.Mean):F3} ± {difference.HalfWidth:F3} m/s²"), output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Linear_stands_in_a_table_of_its_own_with_json_and_without()
    {
        using var folder = new TemporaryFolder();
        var text = await File.ReadAllTextAsync(Shipped.Scenario("smooth-motorway.json"), TestContext.Current.CancellationToken);
        File.Copy(Shipped.Scenario("valley-damper-dyno.csv"), folder["valley-damper-dyno.csv"]);
        var scenario = folder.Write("short.json", text.Replace("\"duration_s\": 40", "\"duration_s\": 12", StringComparison.Ordinal).Replace("\"end_s\": 40", "\"end_s\": 12", StringComparison.Ordinal));
        var asTable = await Invocation.Of("compare", scenario, "--linear", "--no-history", "--out", folder["table"]);
        var asJson = await Invocation.Of("compare", scenario, "--linear", "--no-history", "--json", "--out", folder["json"]);

        Assert.Equal((ExitCode.Done, ""), (asJson.ExitCode, asJson.Error));
        Assert.Equal(await File.ReadAllTextAsync(folder["json/summary.json"], TestContext.Current.CancellationToken), asJson.Output);
        Assert.NotNull(JsonNode.Parse(asJson.Output)!["files"]!["linear.csv"]);
        var lines = await File.ReadAllLinesAsync(folder["json/linear.csv"], TestContext.Current.CancellationToken);
        Assert.Equal(await File.ReadAllLinesAsync(folder["table/linear.csv"], TestContext.Current.CancellationToken), lines);
        Assert.Equal("layout,quantity,linear,whiteRoadLower,whiteRoadUpper,simulated", lines[0]);

        // From the models themselves, in the units of the keys.
        var study = ScenarioReader.Read(scenario).Study;
        var layout = Comparison.RunLayout(study, study.Layouts[1]);
        var (road, ride) = (study.Manoeuvre.Road, layout.Ride!);
        var (coefficient, _, linear) = StatisticalLinearisation.OnRoad(layout.Car, road.Unevenness!, road.Speed);
        string[] Row(string quantity) => lines.Single(line => line.StartsWith($"{layout.Name},{quantity},", StringComparison.Ordinal)).Split(',');
        void Holds(string quantity, double expected, double simulated)
        {
            var row = Row(quantity);
            Assert.Equal(expected, double.Parse(row[2], CultureInfo.InvariantCulture), 1e-12 * Math.Abs(expected));
            Assert.Equal(simulated, double.Parse(row[5], CultureInfo.InvariantCulture), 1e-12 * Math.Abs(simulated));
        }

        Assert.Equal(coefficient, double.Parse(Row("damperCoefficient_N_s_per_m")[2], CultureInfo.InvariantCulture), 1e-9);
        Holds("bodyAccelerationRms_m_per_s2", linear.BodyAcceleration, ride.BodyAccelerationRms);
        Holds("rollAccelerationRms_rad_per_s2", linear.RollAcceleration, ride.RollAccelerationRms);
        Holds("wheelTravelRms_mm", linear.WheelTravel * 1000, ride.WheelTravelRms * 1000);
        Holds("damperVelocityRms_m_per_s", linear.DamperVelocity, ride.DamperVelocityRms);
        Holds("dynamicLoadCoefficient", linear.TyreLoad / ride.Loads[0].Static, ride.DynamicLoadCoefficient);

        // The same tracks do not roll the body.
        Assert.Equal("0", Row("rollAccelerationRms_rad_per_s2")[3]);
    }

    [Fact]
    public async Task Samples_that_the_memory_cannot_hold_are_refused() =>
        (await Invocation.Of("road", Shipped.Scenario("smooth-motorway.json"), "--length", "1e6", "--step", "0.01"))
            .Refused(ExitCode.BadInput, "--step: this makes 100000000 samples a track; at most 10000000 are accepted");

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
        return output[start..output.IndexOf("\nWritten to", StringComparison.Ordinal)];
    }

    [Theory]
    [InlineData(30_000)]
    [InlineData(3_000)]
    public async Task Linear_reference_of_a_damper_in_a_top_mount_is_printed(int largest)
    {
        using var folder = new TemporaryFolder();
        var scenario = ShortScenario.Pair()
            .With("manoeuvre.road", JsonNode.Parse("""{ "random": { "class": "b", "leadIn_m": 2 } }"""))
            .With("manoeuvre.cornering", null)
            .With("manoeuvre.duration_s", 6)
            .With("dampers.plain", JsonNode.Parse($$"""{ "curve": { "velocity_m_per_s": [-1, -0.05, 0, 0.05, 1], "force_N": [-{{largest}}, -10, 0, 10, {{largest}}] }, "topMountStiffness_N_per_mm": 600 }"""));

        var run = await Invocation.Of("compare", scenario.WriteTo(folder), "--linear", "--no-plots", "--no-history", "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Matches(@"damper coefficient +N·s/m +[1-9][0-9]+\n", run.Output);
        Assert.DoesNotContain("NaN", run.Output, StringComparison.Ordinal);
    }
}
