using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Tests.Scenarios;
using RollRide.Vehicle;

namespace RollRide.Tests.Studies;

/// <summary>Which layout a comparison decides for. The damping ratios that targets are set around come from the modes of the same vehicles, by another command's study.</summary>
public sealed class VerdictTests
{
    private const double Velocity = 0.13;

    [Fact]
    public void One_layout_that_alone_meets_all_targets_is_chosen_and_nothing_else_decides()
    {
        var verdict = Of(ShortScenario.Pair(), rollMinimum: Between(Roll(ShortScenario.Pair())));

        Assert.Equal("Outer", verdict.Choice!.Name);
        Assert.Null(verdict.Ground);
        Assert.Null(verdict.Nearest);
        var missed = Assert.Single(verdict.Layouts[1].Missed);
        Assert.Equal((DampingTarget.RollMinimum, false), (missed.Target, missed.IsMet));
        Assert.Equal(Roll(ShortScenario.Pair())[1], missed.Ratio, 1e-9);
        Assert.Equal(missed.Ratio - missed.Limit, missed.Margin, 1e-12);
    }

    [Fact]
    public void Of_layouts_that_all_meet_the_targets_the_one_with_less_overshoot_is_chosen()
    {
        var verdict = Of(ShortScenario.Of(("Inner", 0.3), ("Outer", 0.8)), rollMinimum: 0.001);

        Assert.All(verdict.Layouts, layout => Assert.True(layout.MeetsTargets));
        Assert.Equal("Outer", verdict.Choice!.Name);
        Assert.Equal(("roll overshoot from rest", "Inner"), (verdict.Ground!.Quantity.Name, verdict.Ground.Than.Name));
        var overshoots = verdict.States[0].Result.Layouts.Select(layout => RollMetric.RollOvershoot.Shown(layout.Metrics)).ToArray();
        Assert.Equal(overshoots[1], verdict.Quantities[0].In(verdict.States[0], 1));
        Assert.True(overshoots[1] < overshoots[0]);
    }

    [Fact]
    public void Two_alike_are_told_apart_by_their_reserve_to_the_targets()
    {
        // A tenth of a per cent more roll ratio: no quantity of the run differs by what counts.
        var scenario = ShortScenario.Of(("Inner", 0.6), ("Outer", 0.6006));
        var verdict = Of(scenario, rollMinimum: 0.95 * Roll(scenario)[0]);

        Assert.Null(verdict.Ground);
        Assert.Empty(verdict.Prices);
        Assert.Equal("Outer", verdict.Choice!.Name);
    }

    [Fact]
    public void Where_none_meets_all_targets_the_nearest_is_named_with_a_remedy_that_works_when_run()
    {
        // Twice as much as the better one has: its curve must become about twice as hard, heave permitting.
        var scenario = ShortScenario.Pair();
        var asked = 1.8 * Roll(scenario)[0];
        var verdict = Of(scenario, asked, heaveMaximum: 0.99);

        Assert.Null(verdict.Choice);
        Assert.Equal("Outer", verdict.Nearest!.Name);
        Assert.Null(verdict.Remedy!.Kind);
        Verdict Scaled(double factor) => Of(ShortScenario.Pair().With("dampers.plain.forceScale", factor), asked, heaveMaximum: 0.99);
        Assert.Equal((0.1, false, 0.1), (verdict.Remedy.Tolerance.Share, verdict.Remedy.Tolerance.IsStated, verdict.Remedy.Room));
        foreach (var tolerance in (double[])[-0.1, 0, 0.1])
            Assert.Equal("Outer", Scaled((1 + tolerance) * verdict.Remedy.CurveScale).Choice?.Name);

        // To two decimals it is the first that leaves the room.
        Assert.Null(Scaled(0.9 * (verdict.Remedy.CurveScale - 0.011)).Choice);
        var tried = Scaled(verdict.Remedy.CurveScale);
        var hop = tried.States[0].Result.Layouts[0].Window!.Modes[ModeName.Hop].DampingRatio;
        Assert.Equal(hop, verdict.Remedy.HopDampingRatio!.Value.Then, 1e-9);
    }

    [Fact]
    public void A_remedy_beside_the_damper_works_when_run()
    {
        var lorry = Shipped("dual-tyre.json").With("vehicle.travel.roll_deg", 6);
        var remedy = VerdictOf(lorry).Remedy!;

        Assert.Equal(RemedyKind.AntiRollBar, remedy.Kind);
        lorry["vehicle"]!["antiRollBar_N_m_per_deg"] = remedy.Value * Math.PI / 180;
        lorry["dampers"]!["timber axle"]!["forceScale"] = remedy.CurveScale;
        var tried = VerdictOf(lorry);
        Assert.Equal("At the rail", tried.Choice!.Name);
        var gradient = RollMetric.RollGradient;
        Assert.Equal(tried.States[0].Result.Layouts[0].Metrics.RollResponse!.Gradient!.Value, remedy.RollGradient.Then, 0.03 * remedy.RollGradient.Then); // linear against exact
        Assert.True(remedy.RollGradient.Then > remedy.RollGradient.Present, gradient.Label);

        // Its price is what the run of the changed file gives, to the spring's and the solver's rounding.
        var run = tried.States[0].Result.Layouts[0].Metrics;
        Assert.Contains(remedy.Prices, price => price.Quantity == DecidingQuantity.LargestRoll && price.Then > price.Present);
        foreach (var price in remedy.Prices)
            Assert.Equal(price.Quantity.In(tried.States[0], 0)!.Value, price.Then, 1e-3 * price.Then);

        // The shipped lorry has 4.5 deg of travel in roll, which the body on the softer bar leaves: there it is no remedy.
        Assert.True(run.Whole.SuspensionRollPeak > 4.5 * Math.PI / 180);
        Assert.NotEqual(RemedyKind.AntiRollBar, VerdictOf(Shipped("dual-tyre.json")).Remedy?.Kind);
    }

    [Fact]
    public void Dampers_are_not_moved_into_the_tyre()
    {
        // With all the roll damping that the place of the tyres would give, only a damper there would do.
        var lorry = Shipped("dual-tyre.json");
        var face = TyreOutline.InnerFace(lorry.Read().Study.Vehicle);

        Assert.False(VerdictOf(lorry).Remedy is { Kind: RemedyKind.DamperPosition, Value: var place } && place > face);
        Assert.True(PositionSweep.PositionOf(lorry.Read().Study.Layouts[2].Fitting) > face, "The layout that cannot be built stands in the tyre.");
    }

    [Fact]
    public void Price_counts_against_what_would_be_taken_in_the_place_of_the_choice()
    {
        var scenario = ShortScenario.Of(("Outer", 0.8), ("Middle", 0.5), ("Centre", 0.1));
        var roll = Roll(scenario);
        var alone = Of(scenario, rollMinimum: (roll[0] + roll[1]) / 2);
        var several = Of(scenario, rollMinimum: (roll[1] + roll[2]) / 2);

        // Of those that miss the target the one that misses it less; of those that meet it the one with less overshoot.
        Assert.Equal(("Outer", "Middle"), (alone.Choice!.Name, alone.NextBest!.Name));
        Assert.Equal(("Outer", "Middle"), (several.Choice!.Name, several.NextBest!.Name));
        Assert.All(alone.Prices.Concat(several.Prices), price => Assert.Equal("Middle", price.Than.Name));
    }

    [Fact]
    public void A_side_with_less_than_a_tenth_of_its_load_is_a_risk_of_the_choice()
    {
        var bus = VerdictOf(Shipped("independent-front.json"));
        var study = bus.States[0].Study;
        var atRest = (study.Vehicle.Body.Mass + study.Vehicle.Unsprung.Mass) * 9.80665 / 2;
        var pothole = bus.States[0].Result.Layouts[bus.Choice!.Index].Metrics.Phases[0];

        Assert.Equal(("pothole", pothole.TyreLoadMinimum), (bus.Lightest!.Phase, bus.Lightest.TyreLoad));
        Assert.Equal(pothole.TyreLoadMinimum / atRest, bus.Lightest.Share, 1e-4); // standard gravity against the model's
        Assert.True(bus.Lightest.Share < 0.1);
        Assert.Null(VerdictOf(Shipped("bump-then-corner.json")).Lightest); // it keeps almost half
    }

    [Fact]
    public void What_cannot_be_built_is_never_chosen_nor_nearest_nor_the_end_of_a_range()
    {
        var scenario = ShortScenario.Of(("Best", 1.0), ("Outer", 0.8), ("Inner", 0.3));
        scenario["layouts"]![0]!["candidate"] = false;
        var chosen = Of(scenario, rollMinimum: Between(Roll(scenario)[1..]));
        var none = Of(scenario, rollMinimum: 0.9);

        Assert.True(chosen.Layouts[0].MeetsTargets);
        Assert.Equal("Outer", chosen.Choice!.Name);
        Assert.Equal("Outer", none.Nearest!.Name);
        Assert.DoesNotContain(chosen.Prices, price => price.Than.Name == "Best");
        Assert.DoesNotContain(Conclusions.Of(chosen.States[0].Result), sentence => sentence.Contains("“Best”", StringComparison.Ordinal));
    }

    [Fact]
    public void A_target_missed_in_one_load_state_alone_is_missed()
    {
        var scenario = LoadedShort.Pair();
        var states = scenario.Read().Study.InEachLoad.Select(state => ModesStudy.Run(state, TestContext.Current.CancellationToken).Layouts[0].Reference.Roll.DampingRatio).ToArray();
        Assert.True(states[0] > states[1], "More mass on the same damper is damped less.");

        var verdict = Of(scenario, rollMinimum: (states[0] + states[1]) / 2);

        Assert.Null(verdict.Choice);
        Assert.Equal("laden", Assert.Single(verdict.Layouts[0].Missed).Load);
        Assert.Equal("as built", verdict.Layouts[0].Targets.First(target => target.Target == DampingTarget.RollMinimum && target.IsMet).Load);
        var lighter = VerdictOf(scenario, "as built");
        Assert.Equal("Outer", lighter.Choice!.Name);
    }

    [Fact]
    public void A_layout_that_does_not_fit_its_place_is_not_chosen_though_it_meets_the_targets()
    {
        // The outer one stands in the tyre, the inner one where the shipped scenario places it.
        var scenario = PlacementScenario.WithMountsAt(700, 639, 350);
        var verdict = VerdictOf(scenario);

        Assert.True(verdict.Layouts[0].MeetsTargets);
        var obstacle = verdict.Layouts[0].Obstacles.First();
        Assert.Equal(ObstacleKind.InTheWay, obstacle.Kind);
        Assert.False(obstacle.Place!.Fits);
        Assert.NotEqual("At 700", verdict.Choice?.Name ?? verdict.Nearest?.Name);
        Assert.All(verdict.Layouts, layout => Assert.True(layout.IsPlaceChecked));
    }

    [Fact]
    public void Wheel_lift_in_the_corner_bars_a_layout()
    {
        // 9 m/s² on a body 1.3 m high on a track of 1.6 m lifts a wheel whatever the damper.
        var scenario = ShortScenario.Pair().With("vehicle.body.cgHeight_mm", 1300);
        scenario["manoeuvre"]!["cornering"]!["lateralAcceleration"]!["events"]![0]!["amplitude_m_per_s2"] = 5.5;
        var verdict = Of(scenario, rollMinimum: 0.001);

        Assert.All(verdict.Layouts, layout => Assert.Contains(layout.Obstacles, obstacle => obstacle.Kind == ObstacleKind.WheelLift));
        Assert.Null(verdict.Choice);
        Assert.Null(verdict.Nearest);
    }

    [Fact]
    public void Price_is_told_where_another_layout_that_can_be_used_is_better_by_more_than_what_counts()
    {
        var verdict = Of(ShortScenario.Pair(), rollMinimum: Between(Roll(ShortScenario.Pair())));

        foreach (var quantity in verdict.Quantities)
        {
            var (chosen, other) = (quantity.In(verdict.States[0], 0)!.Value, quantity.In(verdict.States[0], 1)!.Value);
            var lost = quantity.Better == Better.More ? other - chosen : chosen - other;
            var whole = quantity.Name switch
            {
                "roll overshoot from rest" => 100,
                "least tyre load" or "least tyre load in phase “bump”" => (1200 + 160) * 9.80665 / 2,
                _ => Math.Max(chosen, other),
            };
            Assert.Equal(lost > 0.05 * whole, verdict.Prices.Any(price => price.Quantity == quantity));
        }
    }

    [Fact]
    public void A_remedy_that_lifts_a_wheel_is_not_recommended()
    {
        // The softer bar of the lorry, on a higher body in a harder swerve: its damping ratios would do, the vehicle would not.
        var lorry = Shipped("dual-tyre.json").With("vehicle.travel.roll_deg", 8);
        var bar = VerdictOf(lorry).Remedy!;
        foreach (var swerve in lorry["manoeuvre"]!["cornering"]!["lateralAcceleration"]!["events"]!.AsArray())
            swerve!["amplitude_m_per_s2"] = 1.45 * (double)swerve["amplitude_m_per_s2"]!;
        var verdict = VerdictOf(lorry);
        lorry["vehicle"]!["antiRollBar_N_m_per_deg"] = bar.Value * Math.PI / 180;
        lorry["dampers"]!["timber axle"]!["forceScale"] = bar.CurveScale;
        var tried = VerdictOf(lorry).Layouts[0];

        Assert.Equal(tried.Obstacles.IsEmpty, verdict.Nearest?.Name == "At the rail" && verdict.Remedy?.Kind == RemedyKind.AntiRollBar);
        Assert.Contains(tried.Obstacles, obstacle => obstacle.Kind == ObstacleKind.WheelLift);
    }

    [Fact]
    public void The_least_load_over_a_bump_counts_where_the_layouts_differ_in_it_and_the_corner_hides_it()
    {
        var van = VerdictOf(Shipped("bump-then-corner.json"));
        var quantity = Assert.Single(van.Quantities, quantity => quantity.IsDetail);
        Assert.Equal("least tyre load in phase “bump”", quantity.Name);
        for (var i = 0; i < van.Layouts.Length; i++)
            Assert.Equal(van.States[0].Result.Layouts[i].Metrics.Phases[0].TyreLoadMinimum, quantity.In(van.States[0], i));
        Assert.Contains(van.Prices, price => price.Quantity == quantity);

        // In the pothole of the bus lies the least load of the whole run: there is nothing more to tell.
        Assert.DoesNotContain(VerdictOf(Shipped("independent-front.json")).Quantities, quantity => quantity.IsDetail);
    }

    [Fact]
    public void Without_targets_the_quantities_decide_and_where_they_do_not_nothing_is_chosen()
    {
        Assert.Equal("Outer", VerdictOf(ShortScenario.Of(("Inner", 0.3), ("Outer", 0.8))).Choice!.Name);
        Assert.Null(VerdictOf(ShortScenario.Of(("One", 0.6), ("Same", 0.6))).Choice);
    }

    [Fact]
    public void Less_roll_acceleration_on_a_straight_road_is_told_but_is_no_ground_to_choose_by()
    {
        var verdict = VerdictOf(Shipped("smooth-motorway.json"));

        Assert.Null(verdict.Choice);
        var told = Assert.Single(verdict.Differences);
        var measured = verdict.States[0].Result.Layouts.Select(layout => layout.Metrics.Phases[0].RollAccelerationRms).ToArray();
        Assert.Equal(("Inboard of the rail", "Outboard"), (told.Better.Name, told.Worse.Name));
        Assert.Equal([measured[1], measured[0]], [told.Quantity.In(told.State, told.Better.Index), told.Quantity.In(told.State, told.Worse.Index)]);
        Assert.True(measured[1] < 0.95 * measured[0]);
    }

    [Fact]
    public void The_least_load_of_one_random_road_is_no_ground_gain_or_price()
    {
        var road = VerdictOf(Shipped("broken-country-road.json"));
        var least = Assert.Single(road.Quantities, quantity => quantity.Name == "least tyre load");

        Assert.True(least.In(road.States[0], 0) - least.In(road.States[0], 1) > 0.05 * (1350 + 185) * 9.80665 / 2, "The layouts differ in it by what otherwise counts.");
        Assert.NotEqual(least, road.Ground!.Quantity);
        Assert.DoesNotContain(least, road.Gains);
        Assert.DoesNotContain(road.Prices, price => price.Quantity == least);
    }

    [Fact]
    public void A_side_near_lift_off_on_one_random_road_is_no_risk_told()
    {
        var fast = VerdictOf(Shipped("broken-country-road.json").With("manoeuvre.speed_km_per_h", 80));

        Assert.Equal("Outboard", fast.Choice!.Name);
        Assert.InRange(fast.States[0].Result.Layouts[0].Metrics.Whole.TyreLoadMinimum / ((1350 + 185) * 9.80665 / 2), 0.001, 0.099); // a risk on any other road
        Assert.Null(fast.Lightest);
    }

    [Fact]
    public void Over_several_random_roads_a_remedy_is_driven_over_all_of_them_for_its_price()
    {
        // Twice the roll damping that there is: the curve must become about twice as hard, and the ride harsher on every road.
        const int seeds = 3;
        var motorway = Shipped("smooth-motorway.json").With("manoeuvre.duration_s", 8).With("manoeuvre.phases", new JsonArray());
        motorway.With("targets", new JsonObject
        {
            ["rollDampingRatioMinimum"] = 1.9 * Roll(motorway)[0],
            ["heaveDampingRatioMinimum"] = 0.01,
            ["heaveDampingRatioMaximum"] = 0.9,
            ["damperVelocity_m_per_s"] = Velocity,
        });
        var result = Comparison.Run(motorway.Read().Study, cancellation: TestContext.Current.CancellationToken);
        var verdict = Verdict.Of([new ComparisonFindings(result) { Seeds = Over(result.Study) }], TestContext.Current.CancellationToken);

        var remedy = verdict.Remedy!;
        Assert.Null(remedy.Kind);
        motorway["dampers"]!.AsObject().Single().Value!["forceScale"] = remedy.CurveScale;
        var (present, then) = (SeatOf(Over(result.Study)[0]), SeatOf(Over(motorway.Read().Study)[0]));
        var price = Assert.Single(remedy.Prices, price => price.Quantity.Name == "weighted acceleration at the worst seat");
        Assert.Equal((present, then), (price.Present, price.Then), Within(1e-9));

        static IReadOnlyList<SeededRuns> Over(StudyCase study) => RideStudy.Run(study, seeds, cancellation: TestContext.Current.CancellationToken);
        static double SeatOf(SeededRuns runs) => runs.Runs.Average(run => run.Ride.WorstSeat.Total);
    }

    private static EqualityComparer<(double, double)> Within(double tolerance) => EqualityComparer<(double, double)>.Create(
        (a, b) => Math.Abs(a.Item1 - b.Item1) <= tolerance && Math.Abs(a.Item2 - b.Item2) <= tolerance, _ => 0);

    /// <summary>The damping ratio of roll of each layout at the velocity of the targets.</summary>
    private static double[] Roll(JsonObject scenario) =>
        [.. ModesStudy.Run(scenario.Read().Study, TestContext.Current.CancellationToken).Layouts.Select(layout => layout.Reference.Roll.DampingRatio)];

    private static double Between(double[] ratios) => (ratios[0] + ratios[1]) / 2;

    private static Verdict Of(JsonObject scenario, double rollMinimum, double heaveMaximum = 0.9) => VerdictOf(scenario.With("targets", new JsonObject
    {
        ["rollDampingRatioMinimum"] = rollMinimum,
        ["heaveDampingRatioMinimum"] = 0.01,
        ["heaveDampingRatioMaximum"] = heaveMaximum,
        ["damperVelocity_m_per_s"] = Velocity,
    }));

    internal static Verdict VerdictOf(JsonObject scenario, string? load = null) => Verdict.Of(
        [.. Comparison.RunInEachLoad(scenario.Read().Study, cancellation: TestContext.Current.CancellationToken)
            .Where(result => load is null || result.Study.Load!.Name == load).Select(result => new ComparisonFindings(result))],
        TestContext.Current.CancellationToken);

    private static JsonObject Shipped(string name)
    {
        var options = new System.Text.Json.JsonDocumentOptions { CommentHandling = System.Text.Json.JsonCommentHandling.Skip, AllowTrailingCommas = true };
        var scenario = JsonNode.Parse(File.ReadAllText(Scenarios.Shipped.PathOf("scenarios", name)), null, options)!.AsObject();
        foreach (var (_, damper) in scenario["dampers"]!.AsObject())
            damper!["dyno"] = Scenarios.Shipped.PathOf("scenarios", (string)damper["dyno"]!);
        return scenario;
    }
}
