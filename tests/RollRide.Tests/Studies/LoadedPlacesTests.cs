using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Mounting;
using RollRide.Packaging;
using RollRide.Studies;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Studies;

/// <summary>Mounts and places in several load states: the travel is given from the design position, so every load moves within the same travel.</summary>
public sealed class LoadedPlacesTests
{
    // Edges of a band are whole tenths of a millimetre.
    private const double Edge = 1.1e-4;

    /// <summary>The shipped placement, with a roll centre that stays on the axle.</summary>
    private static JsonObject RollCentreOnAxle(JsonObject scenario) => scenario.With("vehicle.lateralLocation", null).With("vehicle.rollCentreHeight_mm", 500);

    private static JsonObject WithLoads(JsonObject scenario) => scenario.With("loadStates", new JsonObject
    {
        ["kerb"] = new JsonObject { ["mass_kg"] = 1080 },
        ["laden"] = new JsonObject { ["mass_kg"] = 1620 },
    });

    [Fact]
    public void Stroke_left_over_the_travel_is_the_same_under_every_load()
    {
        var design = Assert.Single(MountsStudy.Run(RollCentreOnAxle(PlacementScenario.WithMountsAt(620)).Understood().Study).Layouts);

        foreach (var study in WithLoads(RollCentreOnAxle(PlacementScenario.WithMountsAt(620))).Understood().Study.InEachLoad)
        {
            var mounts = Assert.Single(MountsStudy.Run(study).Layouts);

            // 270 kg on two springs of 62 N/mm: 21.35 mm of travel one way or the other.
            var travel = (study.Load!.Name == "laden" ? 1 : -1) * 270 * 9.80665 / (2 * 62e3);
            Assert.Equal(0.060 - travel, mounts.Travel.Range.Bump, 1e-7);
            Assert.Equal(0.045 + travel, mounts.Travel.Range.Rebound, 1e-7);
            Assert.Equal(design.ClosedReserve!.Value, mounts.ClosedReserve!.Value, 1e-7);
            Assert.Equal(design.ExtendedReserve!.Value, mounts.ExtendedReserve!.Value, 1e-7);
            Assert.NotEqual(design.Length!.Value, mounts.Length!.Value, 1e-2);
        }
    }

    [Fact]
    public void Places_are_the_same_under_every_load_where_the_roll_centre_stays_on_the_axle()
    {
        var design = PlacementStudy.Run(RollCentreOnAxle(PlacementScenario.Shipped()).Understood().Study, TestContext.Current.CancellationToken);
        var states = Run(WithLoads(RollCentreOnAxle(PlacementScenario.Shipped())));

        foreach (var bands in states.Select(state => state.Found.Bands))
            Same(design.Found.Bands, bands);
        Same(design.Found.Bands, [.. CommonBand.Of(states).Select(common => common.Band)]);
    }

    [Fact] // A panhard rod carries the roll centre half way with the body, so that roll moves the damper otherwise against the rail.
    public void Common_places_are_those_that_fit_in_each_load_state()
    {
        var states = Run(WithLoads(PlacementScenario.Shipped()));

        var common = CommonBand.Of(states);

        foreach (var side in (RailSide[])[RailSide.Inboard, RailSide.Outboard])
        {
            var each = states.Select(state => state.Found.Bands.Last(band => band.Side == side)).ToArray();
            var shared = common.Last(band => band.Band.Side == side);
            Assert.Equal(each.Max(band => band.Inner), shared.Band.Inner);
            Assert.Equal(each.Min(band => band.Outer), shared.Band.Outer);
        }

        Assert.Contains(states[0].Found.Bands, band => states[1].Found.Bands.All(other => (other.Inner, other.Outer) != (band.Inner, band.Outer)));
    }

    [Fact]
    public void Worth_of_a_place_is_that_of_a_layout_drawn_there_under_the_load()
    {
        var states = Run(WithLoads(PlacementScenario.Shipped()));
        var outboard = CommonBand.Of(states).Single(common => common.Band.Side == RailSide.Outboard);
        var drawn = WithLoads(PlacementScenario.WithMountsAt(outboard.Band.Outer * 1e3)).Understood().Study;

        foreach (var (study, placed) in drawn.InEachLoad.Zip(outboard.InEach))
        {
            var car = study.Assemble(study.Layouts[0]);
            Assert.Equal(car.Layout.Fitting.RollRatio, placed.Layout.Fitting.RollRatio, 1e-9);
            Assert.Equal(ModesStudy.Run(study, TestContext.Current.CancellationToken).Layouts[0].Reference.Roll.DampingRatio, placed.Modes.Roll.DampingRatio, 1e-9);
        }

        Assert.NotEqual(outboard.InEach[0].Modes.Roll.DampingRatio, outboard.InEach[1].Modes.Roll.DampingRatio, 1e-3);
    }

    [Fact]
    public void Drawn_layouts_are_checked_where_they_stand()
    {
        var states = Run(WithLoads(PlacementScenario.WithMountsAt(420, 620)));

        foreach (var state in states)
        {
            Assert.Equal([0.420, 0.620], state.Layouts.Select(layout => Math.Round(layout.Place!.AxleEnd, 9)));
            Assert.False(state.Layouts[0].Place!.Fits);
            Assert.True(state.Layouts[1].Place!.Fits);
        }
    }

    [Fact]
    public void Layout_placed_by_packaging_fits_in_every_load_state()
    {
        var states = Run(WithLoads(PlacementScenario.Shipped()));

        Assert.All(states.SelectMany(state => state.Layouts), layout => Assert.True(layout.Place!.Fits, PlacementConclusions.Words(layout)));
        Assert.Equal(CommonBand.Of(states).Last().Band.Outer, states[0].Layouts.Max(layout => layout.Place!.AxleEnd), 1e-9);
    }

    [Fact] // How the vehicle stands under a load is known only when its springs are.
    public void Springs_placed_by_packaging_stand_where_a_damper_fits_at_the_design_load()
    {
        static JsonObject Scenario() => PlacementScenario.WithMountsAt(600).With("vehicle.springs.placement", new JsonObject { ["placed"] = "outboardOfRail" });
        static double Place(JsonObject scenario) => ((LiveAxleMountFitting)scenario.Understood().Study.Vehicle.Spring.Fitting).AxleEnd.Y;

        Assert.Equal(Place(Scenario()), Place(WithLoads(Scenario())));
    }

    [Fact]
    public void Damper_that_fits_at_the_design_load_alone_is_warned_of_with_its_load_state()
    {
        var outer = PlacementStudy.Run(PlacementScenario.Shipped().Understood().Study, TestContext.Current.CancellationToken).Bands[^1].Band.Outer * 1e3;

        Assert.Empty(PlacementScenario.WithMountsAt(outer).Understood().Warnings);
        var warning = Assert.Single(WithLoads(PlacementScenario.WithMountsAt(outer)).Understood().Warnings);
        Assert.Contains("in load state “laden” the damper cannot work where it is drawn: upper tube lacks 0.3 mm", warning, StringComparison.Ordinal);
    }

    private static PlacementResult[] Run(JsonObject scenario) =>
        [.. scenario.Understood().Study.InEachLoad.Select(study => PlacementStudy.Run(study, TestContext.Current.CancellationToken))];

    private static void Same(IReadOnlyList<Band> expected, IReadOnlyList<Band> bands)
    {
        Assert.Equal(expected.Select(band => band.Side), bands.Select(band => band.Side));
        foreach (var (one, other) in expected.Zip(bands))
        {
            Assert.Equal(one.Inner, other.Inner, Edge);
            Assert.Equal(one.Outer, other.Outer, Edge);
        }
    }
}
