using System.Globalization;
using System.Text.Json.Nodes;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Mounting;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

/// <summary>Left and right apart, from the scenario to what is printed and written.</summary>
public sealed class UnlikeSidesCommandTests
{
    private const string Aside = """{ "level": {}, "crate": { "payload": [{ "mass_kg": 200, "height_mm": 900, "lateralOffset_mm": 400 }] } }""";

    private static JsonObject Short() => (JsonObject)LoadedShort.Pair().DeepClone();

    [Fact]
    public void Sides_HaveWhatIsTheirOwn_AndTheRestAsGivenForBoth()
    {
        var scenario = Short()
            .With("vehicle.springs.right", JsonNode.Parse("""{ "rate_N_per_mm": 50 }"""))
            .With("vehicle.springs.left", JsonNode.Parse("""{ "preloadChange_N": -100 }"""))
            .With("vehicle.bumpStops", JsonNode.Parse("""{ "clearance_mm": 60, "force_N": 6000, "atCompression_mm": 30, "exponent": 1, "left": { "clearance_mm": 50 } }"""));
        var vehicle = Read(scenario).Study.Vehicle;
        Assert.Equal(new RollRide.Vehicle.LinearSpring(62e3), vehicle.On(Side.Left).Spring.Characteristic);
        Assert.Equal(new RollRide.Vehicle.LinearSpring(50e3), vehicle.On(Side.Right).Spring.Characteristic);
        Assert.Equal((-100, 0), (vehicle.On(Side.Left).Spring.PreloadChange, vehicle.On(Side.Right).Spring.PreloadChange));
        Assert.Equal((0.05, 0.06), (vehicle.On(Side.Left).BumpStop!.Clearance, vehicle.On(Side.Right).BumpStop!.Clearance));
        Assert.Equal(2e5, vehicle.On(Side.Right).BumpStop!.Stiffness, 1e-6);
    }

    [Fact] // Springs (1, 0.7 of the half-track) of 62 N/mm and tyres of 290 N/mm, from the two moments; 200 kg at 0.4 m lean to the left.
    public async Task Check_PrintsTheLeanAndBothSides()
    {
        using var folder = new TemporaryFolder();
        var output = (await Invocation.Of("check", Short().With("loadStates", JsonNode.Parse(Aside)).WriteTo(folder), "--load", "crate")).Output;
        double Of(string label) => double.Parse(output.Split('\n').First(line => line.StartsWith(label, StringComparison.Ordinal)).Split(' ', StringSplitOptions.RemoveEmptyEntries)[^1], CultureInfo.InvariantCulture);
        Assert.True(Of("Body, roll angle") < -0.5);
        Assert.Equal((1200 + 200 + 160) * 9.80665, Of("Tyre load of a side, left") + Of("Tyre load of a side, right"), 1.1); // each printed to 1 N
        Assert.True(Of("Tyre load of a side, left") > Of("Tyre load of a side, right"));
        Assert.True(Of("Spring force, left") > Of("Spring force, right"));
    }

    [Fact]
    public async Task Compare_DrivesTheMirroredManoeuvreToo()
    {
        using var folder = new TemporaryFolder();
        var path = Short().With("loadStates", JsonNode.Parse(Aside)).WriteTo(folder);
        var run = await Invocation.Of("compare", path, "--no-plots", "--no-history", "--load", "crate", "--out", folder["out"]);
        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Contains("[whole run, manoeuvre mirrored]", run.Output, StringComparison.Ordinal);
        Assert.Matches("In the corner from rest the body rolls further when turning the other way, [0-9.]+ instead of [0-9.]+ deg with “", run.Output);
        var layout = JsonNode.Parse(File.ReadAllText(folder["out/summary.json"]))!["loadStates"]![0]!["layouts"]![0]!;

        // Written out by hand: the same car, the obstacles under the other wheel, the corner the other way.
        var other = Short().With("loadStates", JsonNode.Parse(Aside));
        foreach (var obstacle in other["manoeuvre"]!["road"]!["events"]!.AsArray())
            obstacle!["side"] = (string)obstacle["side"]! switch { "left" => "right", "right" => "left", var both => both };
        foreach (var corner in other["manoeuvre"]!["cornering"]!["lateralAcceleration"]!["events"]!.AsArray())
            corner!["amplitude_m_per_s2"] = -(double)corner["amplitude_m_per_s2"]!;
        using var second = new TemporaryFolder();
        Assert.Equal(ExitCode.Done, (await Invocation.Of("compare", other.WriteTo(second), "--no-plots", "--no-history", "--load", "crate", "--out", second["out"])).ExitCode);
        var byHand = JsonNode.Parse(File.ReadAllText(second["out/summary.json"]))!["loadStates"]![0]!["layouts"]![0]!;
        foreach (var key in (string[])["tyreLoadMinimum_N", "seatWeightedRms_m_per_s2", "bumpTravelPeak_mm"])
            Same(byHand["metrics"]!, layout["mirrored"]!, key, 1);

        // Whichever way the corner is written, the same one decides; a load on the left leans with a turn to the right.
        var (given, turned) = (layout["cornerFromRest"]!, byHand["cornerFromRest"]!);
        Assert.Equal(("mirrored", "asWritten"), ((string)given["metricsAreOf"]!, (string)turned["metricsAreOf"]!));
        foreach (var (key, sign) in new[] { ("rollAnglePeak_deg", -1), ("rollOvershoot_percent", 1) })
        {
            Same(byHand["metrics"]!, layout["metrics"]!, key, sign);
            Same(turned["asWritten"]!, given["mirrored"]!, key, sign);
            Same(turned["mirrored"]!, given["asWritten"]!, key, sign);
            Assert.Equal((double)layout["metrics"]![key]!, (double)given["mirrored"]![key]!);
        }

        Assert.True((double)given["mirrored"]!["rollAnglePeak_deg"]! > (double)given["asWritten"]!["rollAnglePeak_deg"]! + 0.1, "The two ways differ.");
        static void Same(JsonNode expected, JsonNode actual, string key, int sign) => Assert.Equal((double)expected[key]!, sign * (double)actual[key]!, 1e-3 * Math.Abs((double)expected[key]!));
    }

    [Fact] // Side by side in lanes as alone: the corner that decides is found in each variant.
    public async Task Sweep_OfALeaningVehicle_HasTheCornerThatCompareHas()
    {
        using var folder = new TemporaryFolder();
        var path = Short().With("loadStates", JsonNode.Parse(Aside)).WriteTo(folder);
        Assert.Equal(ExitCode.Done, (await Invocation.Of("compare", path, "--no-plots", "--no-history", "--load", "crate", "--out", folder["out"])).ExitCode);
        var peaks = JsonNode.Parse(File.ReadAllText(folder["out/summary.json"]))!["loadStates"]![0]!["layouts"]!.AsArray().Select(layout => (double)layout!["metrics"]!["rollAnglePeak_deg"]!).ToArray();
        var swept = await Invocation.Of("sweep", path, "--load", "crate", "--vary", "vehicle.springs.rate_N_per_mm=62", "--no-plots", "--out", folder["sweep"]);
        Assert.True(swept.ExitCode == ExitCode.Done, swept.Error);
        var rows = File.ReadAllLines(folder["sweep/sweep.csv"]).Select(line => line.Split(',')).ToArray();
        var column = Array.IndexOf(rows[0], "rollAnglePeak_deg");
        Assert.Equal(peaks, rows[1..].Select(row => double.Parse(row[column], CultureInfo.InvariantCulture)).ToArray(), (a, b) => Math.Abs(a - b) < 1e-9);
    }

    [Fact] // The bump lies under the left wheel, and the mirrored one under the right: each damper is warned of by its real side.
    public void WarningsOfUnlikeDampers_NameTheSideThatTheyAreOf()
    {
        var scenario = ShortScenario.Of(("Apart", 0.8));
        scenario["dampers"]!["short"] = JsonNode.Parse("""{ "curve": { "velocity_m_per_s": [-0.1, 0, 0.1], "force_N": [-300, 0, 300] } }""");
        scenario["layouts"]![0]!["right"] = JsonNode.Parse("""{ "damper": "short" }""");
        var result = scenario.Run();
        var (driven, mirrored) = (result.Layouts[0].Metrics.Whole, result.Layouts[0].Mirrored!.Whole);
        var warnings = RollRide.Findings.RunWarnings.Of(result.Study, result.Layouts[0]);
        Assert.Contains(FormattableString.Invariant($"The right damper ran at {driven.DamperOn(Side.Right).CompressionVelocity:F2} m/s in compression; its curve was given up to 0.10 m/s and is extended straight."), warnings);

        // In the mirrored run the right damper stands on the left.
        Assert.Contains(FormattableString.Invariant($"With the manoeuvre mirrored: The right damper ran at {mirrored.DamperOn(Side.Left).CompressionVelocity:F2} m/s in compression; its curve was given up to 0.10 m/s and is extended straight."), warnings);
        Assert.True(mirrored.DamperOn(Side.Left).CompressionVelocity > 1.5 * driven.DamperOn(Side.Right).CompressionVelocity);
        Assert.DoesNotContain(warnings, warning => warning.Contains("left damper", StringComparison.Ordinal));
    }

    [Fact]
    public void StrokeThatEndsOnOneSide_IsThatSides()
    {
        var scenario = ShortScenario.Of(("Apart", 0.8)).Read().Study;
        var layout = scenario.Layouts[0];
        var run = RollRide.Studies.Comparison.RunLayout(scenario, layout, TestContext.Current.CancellationToken).Metrics.Whole;
        var (left, right) = (run.DamperOn(Side.Left).CompressionTravel, run.DamperOn(Side.Right).CompressionTravel);
        Assert.NotEqual(left, right);
        var apart = layout with { CompressionTravel = left + 1e-4, RightSide = layout.On(Side.Left) with { CompressionTravel = right - 1e-4 } };
        var overrun = Assert.Single(RollRide.Studies.StrokeOverrun.Of(apart, run));
        Assert.Equal(new RollRide.Studies.StrokeOverrun(Side.Right, true, right, right - 1e-4), overrun);
    }

    [Fact]
    public void DesignLoadBesideTheCentrePlane_IsRefusedWithTheMillimetres()
    {
        var scenario = Short().With("loadStates", JsonNode.Parse(Aside)).With("designLoad", "crate");
        Refused(scenario, "designLoad", "57.1 mm left of the centre plane"); // 200 · 400/1400
    }

    [Fact]
    public void TopMountOnOneSideOnly_IsRefused()
    {
        var scenario = Short();
        var name = (string)scenario["layouts"]![0]!["damper"]!;
        var soft = scenario["dampers"]![name]!.DeepClone();
        soft["topMountStiffness_N_per_mm"] = 400;
        scenario["dampers"]!["torn bush"] = soft;
        scenario["layouts"]![0]!["right"] = JsonNode.Parse("""{ "damper": "torn bush" }""");
        Refused(scenario, "layouts[0]", "topMountStiffness_N_per_mm");
    }

    [Fact]
    public void SpringsOnTheCentrePlane_UnderUnlikeSides_AreRefused() => Refused(
        Short().With("vehicle.springs.placement", JsonNode.Parse("""{ "motionRatios": { "heave": 1, "roll": 0 } }""")).With("vehicle.springs.right", JsonNode.Parse("""{ "rate_N_per_mm": 50 }""")).With("vehicle.antiRollBar_N_m_per_deg", 900),
        "vehicle.springs.placement", "cannot hold a body level whose sides differ");

    [Fact]
    public void LoadThatTopplesTheVehicle_IsRefusedAtItsLoadState() => Refused(
        Short().With("loadStates", JsonNode.Parse("""{ "aside": { "payload": [{ "mass_kg": 900, "height_mm": 1500, "lateralOffset_mm": 2000 }] } }""")),
        "loadStates.aside: the vehicle cannot stand with layout", "left of the centre plane");

    [Fact]
    public void UnknownDamperOfASide_IsRefusedAtItsKey()
    {
        var scenario = Short();
        scenario["layouts"]![0]!["left"] = JsonNode.Parse("""{ "damper": "wron" }""");
        Refused(scenario, "layouts[0].left.damper", "there is no such damper");
    }

    [Fact] // One valving serves on both sides: what one side had of its own is no longer fitted.
    public async Task Tune_OfAWornSide_WritesAScenarioThatGivesWhatItSaid()
    {
        using var folder = new TemporaryFolder();
        var scenario = JsonNode.Parse(File.ReadAllText(Shipped.PathOf("scenarios", "valving.json")), documentOptions: new() { CommentHandling = System.Text.Json.JsonCommentHandling.Skip, AllowTrailingCommas = true })!.AsObject();
        File.Copy(Shipped.PathOf("scenarios", "valving-damper.csv"), folder["valving-damper.csv"]);
        var name = (string)scenario["layouts"]![0]!["damper"]!;
        var worn = scenario["dampers"]![name]!.DeepClone();
        worn["forceScale"] = 0.5;
        scenario["dampers"]!["worn"] = worn;
        scenario["layouts"]![0]!["right"] = JsonNode.Parse("""{ "damper": "worn" }""");
        var run = await Invocation.Of("tune", scenario.WriteTo(folder), "--no-front", "--no-plots", "--layouts", (string)scenario["layouts"]![0]!["name"]!, "--json", "--out", folder["out"]);
        Assert.Equal(ExitCode.Done, run.ExitCode);
        var back = ScenarioReader.Read(folder["out/tuned.json"]).Study.Layouts;
        var (before, after) = (back[0], back[^1]);
        Assert.NotEqual(before.Damper, before.On(Side.Right).Damper);
        Assert.Equal(after.Damper, after.On(Side.Right).Damper);
    }

    private static Scenario Read(JsonObject scenario)
    {
        using var folder = new TemporaryFolder();
        return ScenarioReader.Read(scenario.WriteTo(folder));
    }

    private static void Refused(JsonObject scenario, params string[] parts)
    {
        var e = Assert.Throws<DataFileException>(() => Read(scenario));
        Assert.All(parts, part => Assert.Contains(part, e.Message, StringComparison.Ordinal));
    }
}
