using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Mounting;
using RollRide.Packaging;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Scenarios;
using RollRide.Vehicle;

namespace RollRide.Tests.Studies;

/// <summary>What is in the way of layouts as they are drawn. Invented room; at rest all margins follow by hand.</summary>
public sealed class PlaceCheckTests
{
    private const double Accuracy = 1.5e-5; // margins are known to a hundredth of a millimetre

    private static readonly PackagingSpace AtRest = new()
    {
        RollCentreHeight = 0.5,
        Travel = TravelEnvelope.All(new TravelRange { Bump = 0, Rebound = 0, Roll = 0 }),
        Damper = new DamperEnvelope { UpperDiameter = 0.07, UpperLength = 0.25, LowerDiameter = 0.05, LowerLength = 0.22 },
        Mounts = new DamperMounts { AxleEndHeight = 0.3, BodyEndHeight = 0.75 },
        Rail = new KeepOut { Name = "frame rail", MovesWithAxle = false, Inner = 0.36, Outer = 0.42, Bottom = 0.55, Top = 0.70, Clearance = 0.010 },
        KeepOuts = [new KeepOut { Name = "tyre", MovesWithAxle = true, Inner = 0.66, Outer = 0.9, Bottom = 0, Top = 0.72, Clearance = 0.015 }],
        ClearanceBetweenDampers = 0.02,
        SearchTo = 0.7,
    };

    private static DrawnPlace At(double y, double? compressionTravel = null) => PlaceCheck.Of(
        AtRest,
        ScenarioReader.Read(Shipped.PathOf("scenarios", "placement.json")).Study.Layouts[0] with
        {
            Fitting = new LiveAxleMountFitting(new(0, y, 0.3), new(0, y, 0.75), 0.5, 0.8),
            CompressionTravel = compressionTravel,
            ReboundTravel = null,
        },
        TestContext.Current.CancellationToken)!;

    [Fact]
    public void Damper_in_the_middle_of_the_rail_is_in_it_by_half_of_both()
    {
        // Half of 60 mm and half of 70 mm, whichever way it goes out, and the clearance of 10 mm is missing too.
        var contact = Assert.Single(At(0.39).InTheWay);

        Assert.Equal("upper tube to frame rail", contact.Text);
        Assert.Equal(-0.075, contact.Margin, Accuracy);
        Assert.Equal("upper tube overlaps frame rail by 65.0 mm at 0 mm heave with 0 deg roll", contact.Words);
    }

    [Fact]
    public void Damper_beside_the_rail_lacks_what_is_missing_of_the_clearance()
    {
        // 460 mm less 35 mm of radius is 5 mm beside the rail.
        var contact = Assert.Single(At(0.46).InTheWay);

        Assert.Equal("upper tube lacks 5.0 mm of the 10 mm clearance to frame rail at 0 mm heave with 0 deg roll", contact.Words);
        Assert.True(At(0.47).Fits);
    }

    [Fact]
    public void Two_dampers_near_the_centre_are_in_each_others_way_and_each_obstacle_is_named_once()
    {
        // At 30 mm the tubes of 70 mm overlap by 10 mm. At 630 mm the upper tube is 5 mm in the tyre.
        Assert.Equal(["upper tube to the other damper"], At(0.03).InTheWay.Select(contact => contact.Text));
        Assert.Equal("upper tube overlaps tyre by 5.0 mm at 0 mm heave with 0 deg roll", Assert.Single(At(0.63).InTheWay).Words);
    }

    [Fact]
    public void Stroke_is_that_of_the_layouts_own_damper_and_no_limit_where_it_is_not_known()
    {
        Assert.True(At(0.5).Fits);
        var space = AtRest with { Travel = TravelEnvelope.All(new TravelRange { Bump = 0.06, Rebound = 0, Roll = 0 }) };
        var layout = ScenarioReader.Read(Shipped.PathOf("scenarios", "placement.json")).Study.Layouts[0] with
        {
            Fitting = new LiveAxleMountFitting(new(0, 0.5, 0.3), new(0, 0.5, 0.75), 0.5, 0.8),
            CompressionTravel = 0.05, // 10 mm less than the bump
        };

        var contact = Assert.Single(PlaceCheck.Of(space, layout, TestContext.Current.CancellationToken)!.InTheWay);

        Assert.Equal("10.0 mm beyond the damper's closed length at +60 mm heave with 0 deg roll", contact.Words);
    }

    [Fact]
    public void Given_ratios_are_no_place() => Assert.Null(PlaceCheck.Of(
        AtRest,
        ScenarioReader.Read(Shipped.PathOf("scenarios", "placement.json")).Study.Layouts[0] with { Fitting = new FixedRatioFitting(1, 0.5, 0.8), CompressionTravel = null, ReboundTravel = null },
        TestContext.Current.CancellationToken));

    [Theory] // The housing reaches 480 mm up and the tank 380 mm down, 50 to 150 mm from the centre both are: 100 mm either way.
    [InlineData(0.05, 0.26)]
    [InlineData(-0.26, -0.05)] // the tank of the other side
    public void Part_of_the_axle_inside_a_part_of_the_body_is_found(double inner, double outer)
    {
        var space = AtRest with
        {
            KeepOuts =
            [
                new KeepOut { Name = "differential", MovesWithAxle = true, Inner = -0.15, Outer = 0.15, Bottom = 0.2, Top = 0.48, Clearance = 0.5 },
                new KeepOut { Name = "tank", MovesWithAxle = false, Inner = inner, Outer = outer, Bottom = 0.38, Top = 0.6, Clearance = 0.5 },
            ],
        };

        var contact = Assert.Single(PlaceCheck.OfRooms(space, TestContext.Current.CancellationToken));

        // Each clearance is the damper's; the two only must not meet.
        Assert.Equal("differential overlaps tank by 100.0 mm at 0 mm heave with 0 deg roll", contact.Words);
        Assert.Empty(PlaceCheck.OfRooms(AtRest, TestContext.Current.CancellationToken));
    }

    [Fact]
    public void Part_of_the_axle_that_meets_the_body_in_roll_only_is_found_where_it_does()
    {
        // A corner at (0.15, 0.48) turns about (0, 0.5): by hand 0.5 + q + 0.15 sin r − 0.02 cos r is its height.
        var travel = new TravelRange { Bump = 0.06, Rebound = 0.05, Roll = 0.07 };
        double height = 0.5 + travel.Bump + (0.15 * Math.Sin(0.07)) - (0.02 * Math.Cos(0.07));
        PackagingSpace WithFloorAt(double bottom) => AtRest with
        {
            Travel = TravelEnvelope.All(travel),
            Rail = null,
            KeepOuts =
            [
                new KeepOut { Name = "differential", MovesWithAxle = true, Inner = -0.15, Outer = 0.15, Bottom = 0.2, Top = 0.48, Clearance = 0 },
                new KeepOut { Name = "floor", MovesWithAxle = false, Inner = -1, Outer = 1, Bottom = bottom, Top = 2, Clearance = 0 },
            ],
        };

        Assert.Empty(PlaceCheck.OfRooms(WithFloorAt(height + 1e-4), TestContext.Current.CancellationToken));
        var contact = Assert.Single(PlaceCheck.OfRooms(WithFloorAt(height - 0.005), TestContext.Current.CancellationToken));
        Assert.Equal(-0.005, contact.Margin, Accuracy);
        Assert.Equal(0.06, contact.Heave, 1e-6);
        Assert.Equal(0.07, Math.Abs(contact.Roll), 1e-6);
    }

    [Fact]
    public void Scenario_warns_of_a_damper_in_the_rail_at_its_key_and_of_none_that_fits()
    {
        var scenario = PlacementScenario.WithMountsAt(420, 620).Understood();

        var warning = Assert.Single(scenario.Warnings);
        Assert.Contains("layouts[0].placement.mounts: the damper cannot work where it is drawn: upper tube overlaps frame rail by", warning, StringComparison.Ordinal);
        Assert.Empty(ScenarioReader.Read(Shipped.PathOf("scenarios", "placement.json")).Warnings);
    }

    [Fact]
    public void Drawn_and_found_places_are_judged_alike()
    {
        // The edges of the bands, drawn as mounts, fit; two tenths of a millimetre beyond them they do not.
        var bands = PlacementStudy.Run(ScenarioReader.Read(Shipped.PathOf("scenarios", "placement.json")).Study, TestContext.Current.CancellationToken).Found.Bands;
        double[] edges = [.. bands.SelectMany(band => new[] { band.Inner * 1e3, band.Outer * 1e3 }).Select(edge => Math.Round(edge, 1))];
        double[] beyond = [.. bands.SelectMany(band => new[] { (band.Inner * 1e3) - 0.2, (band.Outer * 1e3) + 0.2 }).Select(edge => Math.Round(edge, 1))];

        Assert.Empty(PlacementScenario.WithMountsAt(edges).Understood().Warnings);
        Assert.Equal(beyond.Length, PlacementScenario.WithMountsAt(beyond).Understood().Warnings.Count(warning => warning.Contains("cannot work where it is drawn", StringComparison.Ordinal)));
    }

    [Fact]
    public void Scenario_warns_of_a_housing_in_a_tank_at_the_key_of_the_housing()
    {
        var scenario = PlacementScenario.Shipped();
        scenario["packaging"]!["onBody"]!["tank"] = JsonNode.Parse("""{ "inner_mm": 50, "outer_mm": 150, "bottom_mm": 380, "top_mm": 600, "clearance_mm": 10 }""");

        Assert.Contains(scenario.Understood().Warnings, warning => warning.Contains("packaging.onAxle.differential", StringComparison.Ordinal) && warning.Contains("differential overlaps tank by", StringComparison.Ordinal));
    }

    [Fact] // The farthest place that the damper's extended length allows is, as mounts reckons it, the place at which none of it is left.
    public void Place_and_mounts_look_at_the_same_travel()
    {
        JsonObject UntilStopsTouch(JsonObject scenario) => scenario.With("vehicle.travel.roll_deg", 8).With("vehicle.travel.combinations", "untilStopsTouch");
        var placed = PlacementStudy.Run(UntilStopsTouch(PlacementScenario.WithMountsAt(340)).Understood().Study, TestContext.Current.CancellationToken).Found.On(RailSide.Outboard)!;
        Assert.Equal("the damper's extended length", placed.OuterLimit!.Text);

        var mounts = Assert.Single(MountsStudy.Run(UntilStopsTouch(PlacementScenario.WithMountsAt(Math.Round(placed.Outer * 1e3, 1))).Understood().Study).Layouts);

        // Two hundredths of a millimetre for each tenth of the position, and what margins are known to.
        Assert.InRange(mounts.ExtendedReserve!.Value, -1e-5, 5e-5);

        // With every combination of this travel there is no place outboard at all.
        Assert.Null(PlacementStudy.Run(PlacementScenario.WithMountsAt(340).With("vehicle.travel.roll_deg", 8).Understood().Study, TestContext.Current.CancellationToken).Found.On(RailSide.Outboard));
    }

    [Theory]
    [InlineData("vehicle.bumpStops")]
    [InlineData("vehicle.reboundStops")]
    public void Travel_until_the_stops_touch_needs_both(string stops)
    {
        var scenario = PlacementScenario.WithMountsAt(620).With("vehicle.travel.combinations", "untilStopsTouch").With(stops, null);

        var e = Assert.Throws<DataFileException>(scenario.Understood);

        Assert.Contains("vehicle.travel.combinations", e.Message, StringComparison.Ordinal);
    }

    [Fact] // Soft springs and a hard bar: at full droop little load is left to hold roll. The tyres let go before the stops touch.
    public void Tyres_that_let_go_first_leave_the_damper_more_room()
    {
        JsonObject As(string combinations) => PlacementScenario.WithMountsAt(340).With("vehicle.travel.roll_deg", 8).With("vehicle.travel.combinations", combinations).With("vehicle.antiRollBar_N_m_per_deg", 1600);
        Band Outboard(string combinations) => PlacementStudy.Run(As(combinations).Understood().Study, TestContext.Current.CancellationToken).Found.On(RailSide.Outboard)!;
        var (stops, tyres) = (Outboard("untilStopsTouch"), Outboard("untilStopsTouchOrTyresLift"));

        Assert.True(tyres.Outer > stops.Outer + 1e-3);

        // And mounts looks at the same travel.
        var mounts = Assert.Single(MountsStudy.Run(As("untilStopsTouchOrTyresLift").With("layouts", PlacementScenario.WithMountsAt(Math.Round(tyres.Outer * 1e3, 1))["layouts"]!.DeepClone()).Understood().Study).Layouts);
        Assert.True(mounts.ExtendedReserve > -1e-5);
        Assert.EndsWith("as stops and tyres allow", TravelWords.Of(mounts.Travel), StringComparison.Ordinal);
    }

    [Fact]
    public void Spring_cannot_be_placed_over_a_travel_that_it_limits_itself()
    {
        var scenario = PlacementScenario.WithMountsAt(620).With("vehicle.travel.combinations", "untilStopsTouchOrTyresLift").With("vehicle.springs.placement", JsonNode.Parse("""{ "placed": "outboardOfRail" }"""));

        Assert.Contains("vehicle.springs.placement.placed", Assert.Throws<DataFileException>(scenario.Understood).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Stop_cannot_be_placed_over_a_travel_that_it_limits_itself()
    {
        var scenario = PlacementScenario.WithMountsAt(620).With("vehicle.travel", null).With("vehicle.bumpStops.placement", JsonNode.Parse("""{ "placed": "outboardOfRail" }"""));

        Assert.Contains("vehicle.bumpStops.placement.placed", Assert.Throws<DataFileException>(scenario.Understood).Message, StringComparison.Ordinal);
    }
}
