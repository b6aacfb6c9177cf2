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

    [Theory]
    [InlineData("four-wheel-drive.json", "Phase “bump”: Roll acceleration, RMS")]
    [InlineData("rescue-van-whole.json", "Phase “bump”: Roll acceleration, RMS")]
    [InlineData("pickup.json", "Whole run: Tyre load, minimum")]
    [InlineData("broken-country-road.json", "Phase “rough road”: Roll acceleration, RMS")]
    public void Every_row_of_the_comparison_that_is_noticeably_worse_is_told_as_a_price(string name, string one)
    {
        var verdict = VerdictOf(Shipped(name));
        var (state, choice, next) = (verdict.States[0], verdict.Named!.Index, verdict.NextBest!.Index);
        var (vehicle, layouts) = (state.Study.Vehicle, state.Result.Layouts);
        var worse = new List<string>();
        foreach (var quantity in ComparedQuantity.Of(state.Study).Where(quantity => quantity.Better != Better.Neither && !(quantity.IsExtreme && state.IsOfOneRandomRoad)))
        {
            if (quantity.Value(layouts[choice]) is not { } chosen || quantity.Value(layouts[next]) is not { } other)
                continue;
            if (quantity.Better == Better.Smaller)
                (chosen, other) = (Math.Abs(chosen), Math.Abs(other));
            var whole = quantity.Unit == Unit.Percent ? 100 : quantity.Unit == Unit.Newton ? (vehicle.Body.Mass + vehicle.Unsprung.Mass) * 9.80665 / 2 : Math.Max(chosen, other);
            if ((quantity.Better == Better.More ? other - chosen : chosen - other) <= 0.05 * whole)
                continue;
            worse.Add(quantity.Label);
            Assert.Contains(verdict.Prices, price => (price.Quantity.Unit, price.Quantity.In(state, choice), price.Quantity.In(state, next)) == (quantity.Unit, chosen, other));
        }

        Assert.Contains(one, worse);
    }

    [Fact]
    public void A_target_that_dampers_within_their_tolerance_miss_is_a_risk_whatever_the_reserve()
    {
        var asked = 0.92 * Roll(ShortScenario.Pair())[0];
        Verdict With(double percent) => Of(ShortScenario.Pair().With("dampers.plain.forceTolerance_percent", percent), asked);

        Assert.Null(With(4).Choice!.LostByScatter);
        var lost = With(15).Choice!.LostByScatter!;
        Assert.Equal((new DamperTolerance(0.15, true), false, DampingTarget.RollMinimum), (lost.Tolerance, lost.IsHarder, lost.Target.Target));
        Assert.Equal(Roll(ShortScenario.Pair().With("dampers.plain.forceScale", 0.85))[0], lost.Target.Ratio, 1e-9);
        Assert.Equal(0, Of(ShortScenario.Pair().With("sweep", JsonNode.Parse("""{ "design": "sobol", "parameters": [ { "path": "dampers.plain.forceScale", "normal": { "mean": 1, "deviation": 0.6 } } ] }""")), asked).Choice!.LostByScatter!.Target.Ratio, 0.01); // a damper without force
        Assert.Equal(new DamperTolerance(0.1, false), Of(ShortScenario.Pair(), asked).Choice!.LostByScatter!.Tolerance);
        Assert.Null(Of(ShortScenario.Pair(), 0.8 * Roll(ShortScenario.Pair())[0]).Choice!.LostByScatter);
    }

    [Fact]
    public void A_remedy_leaves_room_for_the_tolerance_that_the_sweep_assumes()
    {
        var van = Shipped("sweep-load-states.json");
        var verdict = VerdictOf(van);
        var remedy = verdict.Remedy!;

        Assert.Equal(1.96 * 0.08, remedy.Tolerance.Share, 1e-4);
        Assert.True(remedy.Tolerance.IsStated && remedy.HasRoom);
        Assert.Equal(RemedyKind.AntiRollBar, remedy.Kind); // the curve alone leaves room for half of it only
        van["vehicle"]!["antiRollBar_N_m_per_deg"] = remedy.Value * Math.PI / 180;
        foreach (var scale in (double[])[1 - remedy.Tolerance.Share, 1, 1 + remedy.Tolerance.Share])
        {
            van["dampers"]!["valley"]!["forceScale"] = scale * remedy.CurveScale;
            Assert.Equal("Outboard", VerdictOf(van).Choice?.Name);
        }
    }

    [Fact]
    public void The_roll_target_is_judged_on_the_whole_vehicle_too_where_it_is_computed()
    {
        double OnVehicle(JsonObject scenario) => ModesStudy.Run(scenario.Read().Study, TestContext.Current.CancellationToken).Layouts[0].OnVehicle!.Modes.Roll.DampingRatio;
        var (van, pickup) = (VerdictOf(Shipped("rescue-van-whole.json")), VerdictOf(Shipped("pickup.json")).Choice!);

        Assert.Null(van.Choice);
        Assert.Equal("Outboard", van.Nearest!.Name);
        var missed = Assert.Single(van.Nearest.Missed);
        Assert.True(missed is { IsOnVehicle: true, Target: DampingTarget.RollMinimum });
        Assert.Equal(OnVehicle(Shipped("rescue-van-whole.json")), missed.Ratio, 1e-9);

        // On the verge: met as drawn, missed by a damper a tenth softer.
        var soft = Shipped("pickup.json");
        soft["dampers"]![soft.Read().Study.Layouts[0].Damper.Name]!["forceScale"] = 0.9 * ((double?)soft["dampers"]![soft.Read().Study.Layouts[0].Damper.Name]!["forceScale"] ?? 1);
        Assert.True(pickup is { MeetsTargets: true, Closest.IsOnVehicle: true, LostByScatter.Target.IsOnVehicle: true });
        Assert.Equal(OnVehicle(Shipped("pickup.json")), pickup.Closest!.Ratio, 1e-9);
        Assert.Equal((OnVehicle(Shipped("pickup.json")) - 0.15) / 0.15, pickup.Closest.Share, 1e-9); // the scenario asks for 0.15
        Assert.Equal(OnVehicle(soft), pickup.LostByScatter!.Target.Ratio, 1e-6);
        Assert.False(VerdictOf(Shipped("lorry.json")).Layouts[0].IsJudgedOnVehicle); // its ends roll nearly by themselves
    }

    [Fact]
    public void A_remedy_meets_the_roll_target_on_the_whole_vehicle_too_with_the_room_that_it_leaves()
    {
        var scenario = Shipped("rescue-van-whole.json");
        var remedy = VerdictOf(scenario).Remedy!;

        Assert.InRange(remedy.Room, 0.04, 0.2);
        switch (remedy.Kind)
        {
            case RemedyKind.AntiRollBar:
                scenario["vehicle"]!["antiRollBar_N_m_per_deg"] = remedy.Value * Math.PI / 180;
                break;
            default:
                Assert.Null(remedy.Kind);
                break;
        }

        foreach (var factor in (double[])[1 - remedy.Room, 1, 1 + remedy.Room])
        {
            var then = (JsonObject)scenario.DeepClone();
            foreach (var name in scenario.Read().Study.Layouts.Select(layout => layout.Damper.Name).Distinct())
                then["dampers"]![name]!["forceScale"] = factor * remedy.CurveScale;
            Assert.Equal("Outboard", VerdictOf(then).Choice?.Name);
        }
    }

    [Fact]
    public void A_place_at_the_end_of_its_room_is_a_risk_and_one_within_it_is_not()
    {
        var outer = 1000 * PlacementStudy.Bands(PlacementScenario.Shipped().Understood().Study, TestContext.Current.CancellationToken)[^1].Outer;

        var risk = Assert.Single(VerdictOf(PlacementScenario.WithMountsAt(outer - 0.5, 350)).PlaceRisks, found => found.Kind == PlaceRiskKind.EndOfRoom);
        Assert.Equal("upper tube to brake", risk.Contact!.Text);
        Assert.DoesNotContain(VerdictOf(PlacementScenario.WithMountsAt(outer - 5, 350)).PlaceRisks, found => found.Kind == PlaceRiskKind.EndOfRoom);
    }

    [Fact]
    public void A_body_on_its_stops_and_a_damper_without_stroke_for_the_travel_are_risks()
    {
        // 70 mm until the stop touches, at 62 N/mm a side: 900 kg above the design load use them up.
        var laden = Shipped("sweep-load-states.json");
        laden["loadStates"]!["full"]!["mass_kg"] = 2500;
        laden["manoeuvre"]!["cornering"]!["lateralAcceleration"]!["events"]![0]!["amplitude_m_per_s2"] = 1;
        var stops = Assert.Single(VerdictOf(laden).PlaceRisks, risk => risk.Kind == PlaceRiskKind.OnBumpStop);
        var touching = laden.Read().Study.InEachLoad.Single(state => state.Load!.Name == "full");
        Assert.Equal(("full", touching.Settle(touching.Layouts[0])!.Rest.Left.BumpStop!.Compression), (stops.Load, stops.Value));

        // Closed longer by what is left over the travel and 6 mm more.
        var van = Shipped("bump-then-corner.json");
        var left = MountsStudy.Run(van.Read().Study).Layouts[0].ClosedReserve!.Value;
        van["dampers"]!["valley"]!["closedLength_mm"] = 330 + (1000 * left) + 6;
        var shortStroke = Assert.Single(VerdictOf(van).PlaceRisks);
        Assert.Equal((PlaceRiskKind.TooLong, 0.006), (shortStroke.Kind, Math.Round(shortStroke.Value, 9)));
        Assert.Empty(VerdictOf(Shipped("bump-then-corner.json")).PlaceRisks);
    }

    [Fact]
    public void A_stroke_that_lasts_over_the_travel_given_but_not_until_the_stops_is_a_risk()
    {
        // Shorter by what is left at the stops and 4 mm more; the travel given ends well before them.
        var van = Shipped("bump-then-corner.json");
        var left = MountsStudy.Run(van.Read().Study).Layouts[0].ExtendedReserve!.Value;
        van["dampers"]!["valley"]!["extendedLength_mm"] = 570 - (1000 * left) - 4;
        van["vehicle"]!["travel"] = JsonNode.Parse("""{ "bump_mm": 40, "rebound_mm": 40, "roll_deg": 2 }""");

        var risk = Assert.Single(VerdictOf(van).PlaceRisks);
        Assert.Equal((PlaceRiskKind.PulledBeforeStops, 0.004), (risk.Kind, Math.Round(risk.Value, 9)));
        Assert.Contains("Between the two with “Outboard” the damper is pulled to its end, 4.0 mm short", string.Join(' ', MountsConclusions.OnStroke(MountsStudy.Run(van.Read().Study))), StringComparison.Ordinal);

        // Without a travel of its own the stops are the travel, and it is told so.
        van["vehicle"]!.AsObject().Remove("travel");
        Assert.Equal(PlaceRiskKind.TooShort, Assert.Single(VerdictOf(van).PlaceRisks).Kind);
    }

    [Fact]
    public void The_factors_on_the_curve_that_meet_all_targets_hold_on_the_axle_and_on_the_whole_vehicle()
    {
        var scenario = Shipped("rescue-van-whole.json");
        var (least, greatest) = VerdictOf(scenario).SettingWithoutRoom!.CurveScales;
        JsonObject With(double factor)
        {
            var then = (JsonObject)scenario.DeepClone();
            foreach (var name in scenario.Read().Study.Layouts.Select(layout => layout.Damper.Name).Distinct())
                then["dampers"]![name]!["forceScale"] = factor;
            return then;
        }

        // The softer end is where the whole vehicle's roll meets its target, the harder one where its bounce or pitch passes the heave maximum; each factor is a whole hundredth.
        VehicleModeSet Modes(double factor) => ModesStudy.Run(With(factor).Read().Study, TestContext.Current.CancellationToken).Layouts[0].OnVehicle!.Modes;
        double Heave(double factor) => new[] { VehicleModeName.Bounce, VehicleModeName.Pitch }.Max(mode => Modes(factor)[mode]!.DampingRatio);
        Assert.True(Modes(least - 0.01).Roll.DampingRatio < 0.20 && Modes(least).Roll.DampingRatio >= 0.20);
        Assert.True(Heave(greatest) <= 0.35 && Heave(greatest + 0.01) > 0.35);
        Assert.Equal("Outboard", VerdictOf(With(least)).Choice?.Name);
        Assert.Equal("Outboard", VerdictOf(With(greatest)).Choice?.Name);
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

    internal static JsonObject Shipped(string name)
    {
        var options = new System.Text.Json.JsonDocumentOptions { CommentHandling = System.Text.Json.JsonCommentHandling.Skip, AllowTrailingCommas = true };
        var scenario = JsonNode.Parse(File.ReadAllText(Scenarios.Shipped.PathOf("scenarios", name)), null, options)!.AsObject();
        foreach (var (_, damper) in scenario["dampers"]!.AsObject())
        {
            if ((string?)damper!["dyno"] is { } file)
                damper["dyno"] = Scenarios.Shipped.PathOf("scenarios", file);
        }

        return scenario;
    }
}
