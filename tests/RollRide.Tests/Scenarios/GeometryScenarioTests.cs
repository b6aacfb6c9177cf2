using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Mounting;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Scenarios;

/// <summary>Lateral location, linkages, travel, packaging and placed dampers as they stand in a scenario.</summary>
public sealed class GeometryScenarioTests
{
    private const string Strut = """
        { "wheelCentreHeight_mm": 310, "strut": { "lowerPivot_mm": [350, 220], "lowerJoint_mm": [720, 190], "foot_mm": [640, 270], "topMount_mm": [570, 820] } }
        """;

    [Theory]
    [InlineData("""{ "panhardRod": { "axleEnd_mm": [600, 400], "bodyEnd_mm": [-400, 500] } }""", 0.46)]
    [InlineData("""{ "wattLinkage": { "pivotHeight_mm": 380 } }""", 0.38)]
    [InlineData("""{ "leafSprings": { "frontEye_mm": [600, 450], "rearEye_mm": [-900, 600] } }""", 0.51)]
    public void Lateral_location_gives_the_roll_centre(string location, double height) =>
        Assert.Equal(height, Read(WithoutHeight().With("vehicle.lateralLocation", JsonNode.Parse(location))).Study.Vehicle.RollCentreHeight, 1e-12);

    [Fact]
    public void Panhard_rod_on_one_side_is_refused_with_its_millimetres() => Refused(
        WithoutHeight().With("vehicle.lateralLocation", JsonNode.Parse("""{ "panhardRod": { "axleEnd_mm": [600, 400], "bodyEnd_mm": [100, 500] } }""")),
        "panhardRod", "y = 600 mm", "y = 100 mm");

    [Fact]
    public void Strut_and_linkage_mounts_become_fittings_and_the_linkage_gives_the_roll_centre()
    {
        var scenario = Independent(Strut);
        scenario["layouts"]![0]!["placement"] = JsonNode.Parse("""{ "strut": true }""");
        scenario["layouts"]![1]!["placement"] = JsonNode.Parse("""{ "onLinkage": { "part": "lowerArm", "partEnd_mm": [0, 550, 220], "bodyEnd_mm": [0, 500, 720] } }""");

        var study = Read(scenario).Study;

        Assert.Equal(study.Vehicle.Linkage!.WheelAt(0).RollCentreHeight, study.Vehicle.RollCentreHeight);
        Assert.Equal(Math.Sqrt((0.07 * 0.07) + (0.55 * 0.55)), ((IMountedElement)study.Layouts[0].Fitting).Length, 1e-12);
        Assert.Equal(study.Layouts[1].Fitting.HeaveRatio, study.Layouts[1].Fitting.RollRatio);
    }

    [Fact]
    public void Travel_that_the_linkage_cannot_reach_is_refused_with_the_missing_millimetres() => Refused(
        Independent(Strut).With("vehicle.travel", JsonNode.Parse("""{ "bump_mm": 900, "rebound_mm": 50, "roll_deg": 2 }""")),
        "vehicle.travel.bump_mm", "are missing");

    [Theory]
    [InlineData("bumpStops", "rise by 900.0 mm")]
    [InlineData("reboundStops", "fall by 900.0 mm")]
    public void Stop_that_the_linkage_cannot_reach_is_refused(string stop, string expected) => Refused(
        Independent(Strut).With($"vehicle.{stop}", JsonNode.Parse("""{ "clearance_mm": 900, "force_N": 5000, "atCompression_mm": 30 }""")),
        $"vehicle.{stop}.clearance_mm", expected);

    [Fact]
    public void Linkage_of_a_live_axle_is_refused() =>
        Refused(WithoutHeight().With("vehicle.linkage", JsonNode.Parse(Strut)), "vehicle.linkage", "live axle");

    [Fact]
    public void Placed_damper_stands_at_the_outer_end_of_its_band()
    {
        var scenario = ScenarioReader.Read(Shipped.PathOf("scenarios", "placement.json"));
        var band = RollRide.Packaging.BandSearch.Find(scenario.Study.Placement!.Space, TestContext.Current.CancellationToken).On(RollRide.Packaging.RailSide.Outboard)!;
        var fitting = Assert.IsType<LiveAxleMountFitting>(scenario.Study.Layouts[0].Fitting);
        Assert.Equal(band.Outer, fitting.AxleEnd.Y);
        Assert.True(scenario.Study.Layouts[1].Fitting.RollRatio < fitting.RollRatio);
    }

    [Fact]
    public void Mount_inside_the_tyre_is_refused_with_its_millimetres()
    {
        // The inner wall stands at 830 − 205/2 = 727.5 mm; the end at 750 mm is 22.5 mm inside.
        var scenario = PlacementScenario.Shipped();
        scenario["layouts"]![0]!["placement"] = JsonNode.Parse("""{ "mounts": { "axleEnd_mm": [-120, 750, 300], "bodyEnd_mm": [-120, 640, 770] } }""");
        Refused(scenario, "axleEnd_mm", "22.5 mm outboard of its inner wall");
    }

    private static JsonObject WithoutHeight()
    {
        var scenario = ShortScenario.Pair();
        scenario["vehicle"]!.AsObject().Remove("rollCentreHeight_mm");
        return scenario;
    }

    private static JsonObject Independent(string linkage)
    {
        var scenario = WithoutHeight().With("vehicle.suspension", "independent").With("vehicle.linkage", JsonNode.Parse(linkage));
        scenario["vehicle"]!["unsprung"]!.AsObject().Remove("axleRollInertia_kg_m2");
        foreach (var placement in new[] { scenario["vehicle"]!["springs"]!, scenario["layouts"]![0]!, scenario["layouts"]![1]! })
            placement["placement"] = JsonNode.Parse("""{ "motionRatios": { "heave": 0.8, "roll": 0.8 } }""");
        return scenario;
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

    [Fact]
    public void Tube_longer_than_the_closed_damper_is_warned_of()
    {
        var scenario = PlacementScenario.Shipped().With("packaging.envelope.upperLength_mm", 1500);
        Assert.Contains(Read(scenario).Warnings, warning => warning.Contains("packaging.envelope.upperLength_mm", StringComparison.Ordinal) && warning.Contains("longer than the closed damper", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("frameRail", "top_mm", 500, "packaging.frameRail.top_mm = 500", "below the bottom (560 mm)")]
    [InlineData("frameRail", "outer_mm", 380, "packaging.frameRail.outer_mm = 380", "inboard of the inner face (390 mm)")]
    [InlineData("mounts", "bodyEndHeight_mm", 200, "packaging.mounts.bodyEndHeight_mm = 200", "above the axle end (300 mm)")]
    [InlineData("envelope", "upperLength_mm", 1e6, "packaging.envelope.upperLength_mm = 1000000", "from 1 to 2000")]
    [InlineData("tyre", "radius_mm", 1e12, "packaging.tyre.radius_mm = 1000000000000", "from 1 to 5000")]
    public void Packaging_that_contradicts_itself_is_refused_at_its_key(string part, string key, double value, params string[] expected)
    {
        var scenario = PlacementScenario.Shipped();
        scenario["packaging"]![part]![key] = value;
        Refused(scenario, expected);
    }

    [Fact]
    public void Faces_of_a_named_room_are_refused_at_its_key()
    {
        var scenario = PlacementScenario.Shipped();
        scenario["packaging"]!["onAxle"]!["brake"]!["top_mm"] = 100;
        Refused(scenario, "packaging.onAxle.brake.top_mm = 100", "below the bottom (200 mm)");
    }

    [Theory] // A part of the vehicle says which of its points is wrong by the name that its key has.
    [InlineData("lowerJoint_mm", "[300, 190]", "vehicle.linkage.strut.lowerJoint_mm", "outboard of its pivot")]
    [InlineData("topMount_mm", "[570, 200]", "vehicle.linkage.strut.topMount_mm", "above the strut's foot")]
    public void Point_that_makes_no_linkage_is_refused_at_its_key(string key, string value, params string[] expected)
    {
        var linkage = JsonNode.Parse(Strut)!;
        linkage["strut"]![key] = JsonNode.Parse(value);
        Refused(Independent(linkage.ToJsonString()), expected);
    }

    [Theory]
    [InlineData("[-600, 450]", "[-900, 600]", "vehicle.lateralLocation.leafSprings.frontEye_mm[0] = -600", "must be above 0")]
    [InlineData("[600, 450]", "[900, 600]", "vehicle.lateralLocation.leafSprings.rearEye_mm[0] = 900", "must be below 0")]
    public void Eye_on_the_wrong_side_of_the_axle_is_refused_at_its_key(string front, string rear, params string[] expected) => Refused(
        WithoutHeight().With("vehicle.lateralLocation", JsonNode.Parse($$"""{ "leafSprings": { "frontEye_mm": {{front}}, "rearEye_mm": {{rear}} } }""")), expected);

    [Fact]
    public void Wheel_centre_beyond_every_wheel_is_refused() => Refused(
        Independent(Strut.Replace("\"wheelCentreHeight_mm\": 310", "\"wheelCentreHeight_mm\": 3e11", StringComparison.Ordinal)),
        "vehicle.linkage.wheelCentreHeight_mm = 3e11", "from 1 to 5000");
}
