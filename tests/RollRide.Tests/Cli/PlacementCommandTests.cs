using System.Text.Json.Nodes;
using RollRide.Cli.Terminals;
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
        Assert.Matches(@"Band +Inboard of the rail +Outboard of the rail", run.Output);
        Assert.Matches(@"from \[mm\] +\d+\.\d +\d+\.\d", run.Output);
        Assert.Matches(@"limit inboard +upper tube to exhaust +upper tube to frame rail", run.Output);
        Assert.Contains("costs", run.Output, StringComparison.Ordinal);
        Assert.Contains("rollover", run.Output, StringComparison.Ordinal);
        Assert.Equal(
            ["placement.csv", "placement.json", "rear-view-Inboard-of-the-rail.png", "rear-view-Outboard-of-the-rail.png", "roll-damping-by-position.png"],
            Directory.GetFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact] // The report is needed most where nothing can be placed.
    public async Task Place_of_layouts_that_cannot_be_placed_says_why_and_other_commands_refuse_them()
    {
        using var folder = new TemporaryFolder();
        var path = PlacementScenario.Shipped().With("packaging.frameRail.outer_mm", 620).WriteTo(folder);

        var run = await Invocation.Of("place", path, "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (run.ExitCode, run.Error));
        Assert.Matches(@"Outboard of the rail +– +– +no place", run.Output);
        Assert.Contains("“Outboard of the rail” cannot be placed: no damper fits there: ", run.Output, StringComparison.Ordinal);
        var summary = JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "placement.json")))!;
        Assert.False((bool)summary["layouts"]!.AsArray().Single(layout => (string)layout!["name"]! == "Outboard of the rail")!["fits"]!);
        Assert.Contains("rear-view-Outboard-of-the-rail.png", Directory.GetFiles(folder["out"]).Select(Path.GetFileName));
        (await Invocation.Of("check", path)).Refused(ExitCode.BadInput, "layouts[0].placement.placed", "no damper fits there", "would have to go", "mm");
    }

    [Fact]
    public async Task Place_says_of_each_layout_whether_it_can_stand_where_it_is_drawn_and_over_which_travel()
    {
        using var folder = new TemporaryFolder();
        var path = PlacementScenario.WithMountsAt(420, 620).WriteTo(folder);

        var run = await Invocation.Of("place", path, "--no-plots", "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Contains("cannot work where it is drawn", run.Error, StringComparison.Ordinal);
        Assert.Matches(@"At 420 +420\.0 +400\.0 +upper tube to frame rail: \d+\.\d mm missing", run.Output);
        Assert.Matches(@"At 620 +620\.0 +600\.0 +fits", run.Output);
        const string Travel = "Travel: 60.0 mm bump, 45.0 mm rebound, 4.00 deg roll, every combination of heave and roll";
        Assert.Contains(Travel, run.Output, StringComparison.Ordinal);
        Assert.Contains(Travel, (await Invocation.Of("mounts", path, "--no-plots", "--out", folder["out"])).Output, StringComparison.Ordinal);
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

    [Fact]
    public async Task Mounts_json_holds_where_the_linkage_puts_the_wheel()
    {
        // A published double wishbone with its results (PUCPR Racing, Formula SAE team 27, "Suspension & Steering Geometry Audit", 2026, front): instant centre and roll centre at rest.
        using var folder = new TemporaryFolder();
        var scenario = ShortScenario.Pair().With("vehicle.suspension", "independent").With("vehicle.track_mm", 1240).With("vehicle.travel", JsonNode.Parse("""{ "bump_mm": 25, "rebound_mm": 25, "roll_deg": 1 }"""))
            .With("vehicle.rollCentreHeight_mm", null)
            .With("vehicle.linkage", JsonNode.Parse(
                """
                { "wheelCentreHeight_mm": 245, "doubleWishbone": {
                  "lowerPivot_mm": [175, 117.38], "lowerJoint_mm": [582, 130], "upperPivot_mm": [175, 308.58], "upperJoint_mm": [536.97, 385.4] } }
                """));
        scenario["vehicle"]!["unsprung"]!.AsObject().Remove("axleRollInertia_kg_m2");
        foreach (var placement in new[] { scenario["vehicle"]!["springs"]!, scenario["layouts"]![0]!, scenario["layouts"]![1]! })
            placement["placement"] = JsonNode.Parse("""{ "motionRatios": { "heave": 0.8, "roll": 0.8 } }""");

        var run = await Invocation.Of("mounts", scenario.WriteTo(folder), "--json", "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, run.ExitCode);
        var wheels = JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(folder["out"], "mounts.json"), TestContext.Current.CancellationToken))!["linkage"]!.AsArray();
        double At(int i, string key) => (double)wheels[i]![key]!;
        Assert.Equal((-25, 25), (Math.Round(At(0, "wheelTravel_mm"), 9), Math.Round(At(wheels.Count - 1, "wheelTravel_mm"), 9)));
        var middle = Enumerable.Range(0, wheels.Count).MinBy(i => Math.Abs(At(i, "wheelTravel_mm")));
        Assert.Equal(0, At(middle, "wheelTravel_mm"), 1e-9);
        Assert.Equal(0, At(middle, "camber_deg"), 1e-9);
        Assert.Equal(0, At(middle, "halfTrackChange_mm"), 1e-9);
        Assert.Equal(35.00, At(middle, "rollCentreHeight_mm"), 0.01); // as printed
        Assert.Equal(-880.0, At(middle, "instantCentreY_mm"), 0.1);
        Assert.Equal(84.68, At(middle, "instantCentreZ_mm"), 0.1);

        // Over the travel against the four bars solved here: the wheel turns and its contact moves with the upright.
        foreach (var i in (int[])[0, wheels.Count - 1])
        {
            var (camber, contactY) = Wishbone(At(i, "wheelTravel_mm"));
            Assert.Equal(camber, At(i, "camber_deg"), 1e-9);
            Assert.Equal(contactY - 620, At(i, "halfTrackChange_mm"), 1e-9);
        }

        Assert.All(wheels, wheel => Assert.Null(wheel!["toe_deg"]));
    }

    /// <summary>Camber, deg, and y of the contact, mm, of the double wishbone above at a travel of its wheel centre, mm: by halving the lower arm's angle.</summary>
    private static (double Camber, double ContactY) Wishbone(double travel)
    {
        System.Numerics.Complex lowerPivot = new(175, 117.38), lower0 = new(582, 130), upperPivot = new(175, 308.58), upper0 = new(536.97, 385.4);
        var (low, high) = (-0.3, 0.3);
        while (true)
        {
            var angle = (low + high) / 2;
            var lower = lowerPivot + ((lower0 - lowerPivot) * System.Numerics.Complex.FromPolarCoordinates(1, angle));

            // The upper joint: where the circles of upper arm and upright cross, above the lower joint.
            var between = lower - upperPivot;
            double arm = (upper0 - upperPivot).Magnitude, upright = (upper0 - lower0).Magnitude, distance = between.Magnitude;
            var along = ((distance * distance) + (arm * arm) - (upright * upright)) / (2 * distance);
            var upper = upperPivot + (between / distance * new System.Numerics.Complex(along, Math.Sqrt((arm * arm) - (along * along))));
            var turn = (upper - lower) / (upper0 - lower0);
            var wheel = lower + ((new System.Numerics.Complex(620, 245) - lower0) * turn);
            if (high - low < 1e-14)
                return (-turn.Phase * 180 / Math.PI, (lower + ((620 - lower0) * turn)).Real);
            (low, high) = wheel.Imaginary < 245 + travel ? (angle, high) : (low, angle);
        }
    }
}
