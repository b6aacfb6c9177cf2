using System.Collections.Immutable;
using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Studies;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Findings;

/// <summary>The decision, word by word, of verdicts put together by hand on quantities with made-up values.</summary>
public sealed class VerdictWordsTests
{
    private static readonly ComparisonFindings[] Run = [new(Asking().Run())];

    private static readonly ComparisonFindings[] Untargeted = [new(ShortScenario.Pair().Run())];

    private static readonly ComparisonFindings[] Loaded =
        [.. Comparison.RunInEachLoad(LoadedShort.Of(Asking()).Read().Study, cancellation: TestContext.Current.CancellationToken).Select(result => new ComparisonFindings(result))];

    private static readonly DecidingQuantity Overshoot = Made("roll overshoot from rest", Unit.Percent, 0, Better.Less, 30.4, 44.6);
    private static readonly DecidingQuantity Seat = Made("weighted seat acceleration", Unit.MetrePerSecondSquared, 2, Better.Less, 0.56, 0.5);
    private static readonly DecidingQuantity Load = Made("least tyre load", Unit.Newton, 0, Better.More, 3480, 3210);

    private static readonly LayoutVerdict Outer = Judged(0, "Outer", Met(DampingTarget.RollMinimum, 0.2, 0.214));
    private static readonly LayoutVerdict Inner = Judged(1, "Inner", Met(DampingTarget.RollMinimum, 0.2, 0.09));

    [Fact]
    public void Alone() => Says(
        "Choose “Outer”: it alone meets all targets, the closest one with 7 % in reserve (roll damping ratio 0.214, target at least 0.20). Price against “Inner”: weighted seat acceleration 0.56 instead of 0.50 m/s². Confidence: checked at one load only.",
        Given(Outer, Inner) with { Choice = Outer, NextBest = Inner, Prices = [new Price(Seat, Run[0], Inner)] });

    [Fact]
    public void Alone_at_no_price() => Says(
        "Choose “Outer”: it alone meets all targets, the closest one with 7 % in reserve (roll damping ratio 0.214, target at least 0.20). Price: nothing compared gets noticeably worse. Confidence: checked at one load only.",
        Given(Outer, Inner) with { Choice = Outer });

    [Fact]
    public void Among_several()
    {
        var also = Judged(1, "Inner", Met(DampingTarget.RollMinimum, 0.2, 0.3));

        Says(
            "Choose “Outer”: it meets all targets, the closest one with 7 % in reserve (roll damping ratio 0.214, target at least 0.20), as does “Inner”, and has less roll overshoot from rest (30 % against 45 % with “Inner”). Price: nothing compared gets noticeably worse. Confidence: checked at one load only.",
            Given(Outer, also) with { Choice = Outer, Ground = new Advantage(Overshoot, Run[0], also) });
        Says(
            "Choose “Outer”: it meets all targets, the closest one with 7 % in reserve (roll damping ratio 0.214, target at least 0.20), as does “Inner”, and has the larger margin to its closest target. Price against “Inner”: weighted seat acceleration 0.56 instead of 0.50 m/s². Confidence: checked at one load only.",
            Given(Outer, also) with { Choice = Outer, NextBest = also, Prices = [new Price(Seat, Run[0], also)] });
    }

    [Fact]
    public void Beside_one_that_cannot_be_built() => Says(
        "Choose “Outer”: it is the only layout that can be built, and it meets all targets, the closest one with 7 % in reserve (roll damping ratio 0.214, target at least 0.20). Confidence: checked at one load only.",
        Given(Outer, Inner with { IsCandidate = false }) with { Choice = Outer });

    [Fact]
    public void In_all_load_states() => Says(
        "Choose “Outer”: it alone meets all targets, the closest one with 7 % in reserve (roll damping ratio 0.214, target at least 0.20). Price: nothing compared gets noticeably worse. Confidence: checked in both load states (as built, laden).",
        Given(Outer, Inner) with { States = Loaded, Choice = Outer });

    [Fact]
    public void None_and_another_setting_does()
    {
        var (hard, soft) = (Judged(0, "Outer", Met(DampingTarget.RollMinimum, 0.2, 0.1984, "laden")), Inner);

        Says(
            "No layout meets all targets. “Outer” comes nearest: roll damping ratio 0.198 in load state “laden”, target at least 0.20. The damper curve scaled by 1.12 meets all targets with room for the usual scatter of dampers, ±10 %. Its price: nothing compared gets noticeably worse. Confidence: checked in both load states (as built, laden).",
            Given(hard, soft) with { States = Loaded, Nearest = hard, Changes = Does(new TargetRemedy(null, 0, 0, 1.12) { Tolerance = new(0.1, false), Room = 0.1, RollGradient = (0.01, 0.01) }) });
        Says(
            "No layout meets all targets. “Outer” comes nearest: roll damping ratio 0.198 in load state “laden”, target at least 0.20. The damper curve scaled by 1.12 meets all targets, but no change leaves room for the dampers' stated tolerance, ±15.7 %: this one leaves ±7.9 %. Its price: nothing compared gets noticeably worse. Confidence: checked in both load states (as built, laden).",
            Given(hard, soft) with { States = Loaded, Nearest = hard, Changes = Does(new TargetRemedy(null, 0, 0, 1.12) { Tolerance = new(0.157, true), Room = 0.0785, RollGradient = (0.01, 0.01) }) });
    }

    [Fact]
    public void None_and_a_softer_bar_does() => Says(
        "No layout meets all targets. “Inner” comes nearest: roll damping ratio 0.09, target at least 0.20. An anti-roll bar of 300 instead of 600 N·m/deg with the damper curve as it is meets all targets with room for the dampers' stated tolerance, ±6 %. Its price: roll gradient 10.1 instead of 7.5 deg/g, least tyre load 2900 instead of 3210 N in load state “full” and hop damping ratio 0.20 instead of 0.25. Confidence: checked at one load only.",
        Given(Outer with { Targets = Inner.Targets }, Inner) with
        {
            Nearest = Inner,
            Changes = Does(new TargetRemedy(RemedyKind.AntiRollBar, 600 * 180 / Math.PI, 300 * 180 / Math.PI, 1)
            {
                Tolerance = new(0.06, true),
                Room = 0.06,
                RollGradient = (7.5 / Unit.DegreePerG.PerSi, 10.1 / Unit.DegreePerG.PerSi),
                HopDampingRatio = (0.25, 0.2),
                Prices = [new RemedyPrice(Load, "full", 3210, 2900)],
            }),
        });

    [Fact]
    public void None_and_moving_the_dampers_does() => Says(
        "No layout meets all targets. “Inner” comes nearest: roll damping ratio 0.09, target at least 0.20. Moving the dampers 120 mm outboard (they fit there) with the damper curve scaled by 1.20 meets all targets with room for the usual scatter of dampers, ±10 %. Its price: nothing compared gets noticeably worse. Confidence: checked at one load only.",
        Given(Outer with { Targets = Inner.Targets }, Inner) with
        {
            Nearest = Inner,
            Changes = Does(new TargetRemedy(RemedyKind.DamperPosition, 0.41, 0.53, 1.2) { Tolerance = new(0.1, false), Room = 0.1, Fits = true, RollGradient = (0.01, 0.0104), HopDampingRatio = (0.251, 0.24) }),
        });

    [Fact]
    public void None_of_those_that_can_be_built() => Says(
        "No layout that can be built meets all targets. “Inner” comes nearest: roll damping ratio 0.09, target at least 0.20. No single change of damper setting, damper position, springs, anti-roll bar or track serves: none meets the damping ratios. Confidence: checked at one load only.",
        Given(Outer with { IsCandidate = false }, Inner, Judged(1, "Farther in", Met(DampingTarget.RollMinimum, 0.2, 0.05))) with { Nearest = Inner });

    [Fact]
    public void None_and_nothing_does() => Says(
        "“Inner” misses its targets: roll damping ratio 0.09, target at least 0.20; heave damping ratio 0.45, target at most 0.35. No single change of damper setting, damper position, springs, anti-roll bar or track serves: with the dampers 100 mm outboard the vehicle runs out of damper stroke; with springs 2200 mm apart instead of 2000 mm or a track of 1100 instead of 1000 mm (curve × 1.20) the vehicle leaves the travel given (body roll on the axle up to 5.4 of 4.5 deg). Confidence: checked at one load only.",
        Given(Judged(0, "Inner", Met(DampingTarget.RollMinimum, 0.2, 0.09), Met(DampingTarget.HeaveMaximum, 0.35, 0.45))) is var verdict
            ? verdict with
            {
                Nearest = verdict.Layouts[0],
                Changes =
                [
                    new(null, null, []), new(RemedyKind.DamperPosition, Change(RemedyKind.DamperPosition), [ObstacleKind.OutOfStroke]),
                    new(RemedyKind.AntiRollBar, null, []), new(RemedyKind.SpringPosition, Change(RemedyKind.SpringPosition), [ObstacleKind.BeyondTravel]) { Overrun = Rolled(4.8) },
                    new(RemedyKind.Track, Change(RemedyKind.Track) with { CurveScale = 1.2 }, [ObstacleKind.BeyondTravel]) { Overrun = Rolled(5.4) },
                ],
            }
            : null!);

    private static TravelOverrun Rolled(double degrees) => new(TravelKind.Roll, degrees * Math.PI / 180, 4.5 * Math.PI / 180);

    [Fact]
    public void None_and_one_without_room_is_named_with_the_curve_that_it_needs() => Says(
        "No layout meets all targets. “Inner” comes nearest: roll damping ratio 0.09, target at least 0.20. No single change of damper setting, damper position, springs, anti-roll bar or track serves: with the dampers 100 mm outboard (curve × 1.25) the targets are met without room for the usual scatter of dampers, ±10 %. Confidence: checked at one load only.",
        Given(Outer with { Targets = Inner.Targets }, Inner) with { Nearest = Inner, Changes = [new(null, null, []), new(RemedyKind.DamperPosition, Change(RemedyKind.DamperPosition) with { CurveScale = 1.25, Room = 0 }, [])] });

    [Fact]
    public void None_and_a_setting_that_leaves_no_room_is_told_before_the_change_that_does()
    {
        var setting = new TriedChange(null, new TargetRemedy(null, 0, 0, 1.02) { Tolerance = new(0.157, true), Room = 0, CurveScales = (1.02, 1.16), RollGradient = (0.01, 0.01) }, []);
        var bar = new TargetRemedy(RemedyKind.AntiRollBar, 600 * 180 / Math.PI, 360 * 180 / Math.PI, 1.01) { Tolerance = new(0.157, true), Room = 0.157, RollGradient = (0.01, 0.01) };
        const string nearest = "No layout meets all targets. “Inner” comes nearest: roll damping ratio 0.09, target at least 0.20.";
        Verdict With(params TriedChange[] changes) => Given(Outer with { Targets = Inner.Targets }, Inner) with { Nearest = Inner, Changes = [.. changes] };

        Says(
            $"{nearest} The damper curve × 1.02 to 1.16 alone meets all targets, without room for the stated ±15.7 %. An anti-roll bar of 360 instead of 600 N·m/deg with the curve × 1.01 leaves that room. Its price: nothing compared gets noticeably worse. Confidence: checked at one load only.",
            With(setting, new TriedChange(RemedyKind.AntiRollBar, bar, [])));
        Says(
            $"{nearest} The damper curve × 1.02 to 1.16 alone meets all targets, with room for ±7.9 % only, not for the stated ±15.7 %. An anti-roll bar of 360 instead of 600 N·m/deg with the curve × 1.01 leaves that room. Its price: nothing compared gets noticeably worse. Confidence: checked at one load only.",
            With(setting with { Found = setting.Found! with { Room = 0.0785 } }, new TriedChange(RemedyKind.AntiRollBar, bar, [])));
        Says(
            $"{nearest} The damper curve × 1.02 to 1.16 alone meets all targets, without room for the stated ±15.7 %. No single change of damper position, springs, anti-roll bar or track leaves that room. Confidence: checked at one load only.",
            With(setting, new TriedChange(RemedyKind.AntiRollBar, null, [])));
    }

    [Fact]
    public void Prices_of_remedies_are_one_line_each_and_one_for_those_without()
    {
        var bar = Change(RemedyKind.AntiRollBar) with { Value = 360 * 180 / Math.PI, Prices = [new RemedyPrice(Overshoot, "full", 30, 41)] };
        TriedChange[] changes = [new(null, new TargetRemedy(null, 0, 0, 1.02) { Tolerance = new(0.1, false), Room = 0, RollGradient = (0.01, 0.01) }, []), new(RemedyKind.AntiRollBar, bar, []), new(RemedyKind.DamperPosition, Change(RemedyKind.DamperPosition), [])];

        Assert.Equal(
            ["“Inner”, without a noticeable price: the damper curve × 1.02 and the dampers 100 mm outboard.", "“Inner”, price of an anti-roll bar of 360 N·m/deg: roll overshoot from rest 41 instead of 30 % in load state “full”."],
            VerdictWords.Prices(Inner, [.. changes]));
        Assert.Empty(VerdictWords.Prices(Inner, [new(RemedyKind.Track, null, [])]));
    }

    [Fact]
    public void A_comparison_says_of_a_scenario_with_a_tuning_that_it_does_not_run_it()
    {
        var verdict = Given(Outer, Inner) with { States = Untargeted, Choice = Outer, NextBest = Inner, Ground = new Advantage(Overshoot, Untargeted[0], Inner) };

        Assert.EndsWith("Confidence: no targets were given for the dampers as they are, and the tuning that the scenario asks for is not part of a comparison; checked at one load only.", VerdictWords.Decision(verdict, asksForTuning: true), StringComparison.Ordinal);
    }

    [Fact]
    public void A_table_says_why_the_split_of_compression_and_rebound_has_nothing_to_open()
    {
        Assert.Equal("not needed: a setting meets all targets", RemedyCells.Split(null, Inner, []));
        Assert.Equal("cannot be built", RemedyCells.Split(null, Inner with { IsCandidate = false }, []));
    }

    [Fact]
    public void A_table_says_that_the_split_was_looked_for_on_the_axle_alone_where_the_whole_vehicle_is_judged_too()
    {
        var onVehicle = Inner with { Targets = [.. Inner.Targets, Met(DampingTarget.RollMinimum, 0.2, 0.1) with { IsOnVehicle = true }] };

        Assert.Equal("not needed: a setting meets the targets of this axle", RemedyCells.Split(null, onVehicle, []));
        Assert.Equal("the present 70 % does, with a harder curve, for the targets of this axle alone", RemedyCells.Split(new WindowRemedy(RemedyKind.CompressionShare, 0.7, 0.72), onVehicle, []));
        Assert.Equal("at most 62 % (now 70 %), for the targets of this axle alone", RemedyCells.Split(new WindowRemedy(RemedyKind.CompressionShare, 0.7, 0.625), onVehicle, []));
        Assert.Equal("the present 70 % does, with a harder curve", RemedyCells.Split(new WindowRemedy(RemedyKind.CompressionShare, 0.7, 0.72), Inner, []));
    }

    private static TargetRemedy Change(RemedyKind kind) => new(kind, 1, 1.1, 1) { Tolerance = new(0.1, false), Room = 0.1, RollGradient = (0.01, 0.01) };

    [Fact]
    public void None_can_be_used() => Says(
        "No layout can be recommended: “Outer” does not fit its place in load state “laden”; “Inner” cannot be built and lifts a wheel in the corner: ROLLOVER RISK. Confidence: checked at one load only.",
        Given(
            Outer with { Obstacles = [new Obstacle(ObstacleKind.InTheWay, "laden")] },
            Inner with { IsCandidate = false, Obstacles = [new Obstacle(ObstacleKind.WheelLift, null)] }));

    [Fact]
    public void Nothing_to_decide_is_nothing_said()
    {
        var one = new ComparisonFindings(ShortScenario.Of(("Only", 0.8)).Run());

        Assert.Null(VerdictWords.Decision(Verdict.Of([one], TestContext.Current.CancellationToken)));
    }

    [Fact]
    public void Without_targets_it_says_so() => Says(
        "Choose “Outer”: it has less roll overshoot from rest (30 % against 45 % with “Inner”). Price: nothing compared gets noticeably worse. Confidence: no targets were given; checked at one load only.",
        Given(Outer with { Targets = [] }, Inner with { Targets = [] }) with
        {
            States = Untargeted,
            Choice = Outer with { Targets = [] },
            Ground = new Advantage(Overshoot, Untargeted[0], Inner with { Targets = [] }),
        });

    [Fact]
    public void Nothing_decides()
    {
        var roll = Made("RMS roll acceleration in phase “road”", Unit.RadianPerSecondSquared, 2, Better.Less, 0.27, 0.22) with { IsToldOnly = true };
        var alike = Given(Outer with { Targets = [] }, Inner with { Targets = [] }) with { States = Untargeted };

        Says(
            "Nothing decides between the layouts: they are similar in roll overshoot from rest, weighted seat acceleration and least tyre load. Confidence: no targets were given; checked at one load only.",
            alike);
        Says(
            "Nothing decides between the layouts: they are similar in weighted seat acceleration. RMS roll acceleration in phase “road” (0.22 rad/s² with “Inner”, 0.27 rad/s² with “Outer”) differs, but that alone is no reason to choose. Confidence: no targets were given; checked at one load only.",
            alike with { Quantities = [Seat, roll], Differences = [new Difference(roll, Untargeted[0], alike.Layouts[1], alike.Layouts[0])] });
    }

    [Fact]
    public void Price_names_the_next_best_where_there_are_others() => Says(
        "Choose “Outer”: it alone meets all targets, the closest one with 50 % in reserve (roll damping ratio 0.30, target at least 0.20). Price against “Inner”, the next best: weighted seat acceleration 0.56 instead of 0.50 m/s². Confidence: checked at one load only.",
        Given(Judged(0, "Outer", Met(DampingTarget.RollMinimum, 0.2, 0.3)), Inner, Judged(2, "Farther in", Met(DampingTarget.RollMinimum, 0.2, 0.05))) is var verdict
            ? verdict with { Choice = verdict.Layouts[0], NextBest = Inner, Prices = [new Price(Seat, Run[0], Inner)] }
            : null!);

    [Fact]
    public void A_side_that_nearly_leaves_the_road_is_a_risk() => Says(
        "“Outer” meets all targets, the closest one with 50 % in reserve (roll damping ratio 0.30, target at least 0.20). Risk: a side keeps only 237 N, 5 % of its load at rest, in phase “pothole” in load state “empty” (with the other layouts at most 287 N), and has hardly any grip there. Confidence: checked at one load only.",
        Given(Judged(0, "Outer", Met(DampingTarget.RollMinimum, 0.2, 0.3))) is var verdict
            ? verdict with { Choice = verdict.Layouts[0], Lightest = new LightestSide("empty", "pothole", 237.4, 0.0512, 287.1) }
            : null!);

    [Theory]
    [InlineData(0.2140, "0.21")]
    [InlineData(0.1984, "0.198")] // two decimals would say that it is met
    [InlineData(0.2004, "0.200")]
    [InlineData(0.2, "0.20")]
    [InlineData(0.0031, "<0.01")]
    [InlineData(0, "0.00")]
    public void Ratio_shows_on_which_side_of_its_limit_it_lies(double ratio, string text) => Assert.Equal(text, VerdictWords.Ratio(ratio, 0.2));

    [Fact]
    public void A_target_that_the_dampers_tolerance_loses_is_a_risk()
    {
        var soft = new ScatterMiss(new TargetMargin(DampingTarget.RollMinimum, "full", 0.2, 0.1926, -0.0074), new DamperTolerance(0.1, false), false);
        var hard = new ScatterMiss(new TargetMargin(DampingTarget.HeaveMaximum, null, 0.35, 0.402, -0.052), new DamperTolerance(0.157, true), true);

        Says(
            "“Outer” meets all targets, the closest one with 7 % in reserve (roll damping ratio 0.214, target at least 0.20). Risk: dampers 10 % softer (usual scatter) give a roll damping ratio of 0.19 in load state “full”, target at least 0.20. Confidence: checked at one load only.",
            Taken(Outer with { LostByScatter = soft }));
        Says(
            "“Outer” meets all targets, the closest one with 7 % in reserve (roll damping ratio 0.214, target at least 0.20). Risk: dampers 15.7 % harder (stated tolerance) give a heave damping ratio of 0.40, target at most 0.35. Confidence: checked at one load only.",
            Taken(Outer with { LostByScatter = hard }));
    }

    [Fact]
    public void The_roll_target_of_the_whole_vehicle_counts_like_the_others()
    {
        TargetMargin OnVehicle(double ratio, string? load = null) => Met(DampingTarget.RollMinimum, 0.2, ratio, load) with { IsOnVehicle = true };
        var missed = Outer with { Targets = [.. Outer.Targets, OnVehicle(0.19), OnVehicle(0.18, "full")] };
        var verge = Outer with { Targets = [.. Outer.Targets, OnVehicle(0.205)], LostByScatter = new ScatterMiss(OnVehicle(0.1992), new DamperTolerance(0.1, false), false) };

        Says(
            "“Outer” misses its targets: roll damping ratio of the whole vehicle 0.18 in load state “full”, target at least 0.20. The damper curve scaled by 1.15 meets all targets with room for the usual scatter of dampers, ±10 %. Its price: nothing compared gets noticeably worse. Confidence: checked at one load only.",
            Given(missed) with { Nearest = missed, Changes = Does(new TargetRemedy(null, 0, 0, 1.15) { Tolerance = new DamperTolerance(0.1, false), Room = 0.1, RollGradient = (0, 0) }) });
        Says(
            "“Outer” meets all targets, the closest one with 2 % in reserve (roll damping ratio of the whole vehicle 0.205, target at least 0.20). Risk: dampers 10 % softer (usual scatter) give a roll damping ratio of the whole vehicle of 0.199, target at least 0.20. Confidence: checked at one load only.",
            Taken(verge));
    }

    [Fact]
    public void Where_dampers_and_body_stand_is_a_risk_where_little_or_nothing_is_left() => Says(
        "“Outer” meets all targets, the closest one with 7 % in reserve (roll damping ratio 0.214, target at least 0.20). Risks: “Outer” sits within 2 mm of the end of its room: a bracket that much off takes the clearance (upper tube to brake); the body stands on its bump stops at rest in load state “full”, compressed by 12 mm; over the whole travel the dampers of “Outer” close metal to metal: 4.5 mm of stroke are missing; beyond the travel given, the dampers of “Outer” are pulled to their end before the stops touch: 12.0 mm of stroke are missing. Confidence: checked at one load only.",
        Taken(Outer) with
        {
            PlaceRisks =
            [
                new(PlaceRiskKind.EndOfRoom, null, 0.002, new Contact { Part = DamperPart.UpperTube, Against = "brake", Heave = 0, Roll = 0, Margin = -0.001 }),
                new(PlaceRiskKind.OnBumpStop, "full", 0.0121),
                new(PlaceRiskKind.TooLong, null, 0.0045),
                new(PlaceRiskKind.PulledBeforeStops, null, 0.012),
            ],
        });

    [Fact]
    public void A_value_beyond_what_was_followed_is_told_as_more_than_that_and_no_zero_has_a_sign()
    {
        var settling = Made("settling time", Unit.Second, 2, Better.Less, 10.4, 1.2) with { Beyond = 10.4 };
        var overshoot = Made("roll overshoot from rest", Unit.Percent, 0, Better.Less, 6, -0.4);

        Assert.Contains(
            "Price against “Inner”: settling time more than 10.40 instead of 1.20 s and roll overshoot from rest 6 instead of 0 %.",
            VerdictWords.Decision(Given(Outer, Inner) with { Choice = Outer, NextBest = Inner, Prices = [new Price(settling, Run[0], Inner), new Price(overshoot, Run[0], Inner)] }),
            StringComparison.Ordinal);
    }

    private static Verdict Taken(LayoutVerdict layout) => Given(layout) with { Choice = layout };

    private static ImmutableArray<TriedChange> Does(TargetRemedy remedy) => [new TriedChange(remedy.Kind, remedy, [])];

    private static void Says(string expected, Verdict verdict) => Assert.Equal(expected, VerdictWords.Decision(verdict));

    private static JsonObject Asking() => ShortScenario.Pair().With("targets", JsonNode.Parse(
        """{ "rollDampingRatioMinimum": 0.2, "heaveDampingRatioMinimum": 0.2, "heaveDampingRatioMaximum": 0.35, "damperVelocity_m_per_s": 0.13 }"""));

    private static Verdict Given(params LayoutVerdict[] layouts) => new() { States = Run, Layouts = [.. layouts], Quantities = [Overshoot, Seat, Load] };

    private static LayoutVerdict Judged(int index, string name, params TargetMargin[] targets) =>
        new() { Index = index, Name = name, IsCandidate = true, Targets = [.. targets], Obstacles = [], IsPlaceChecked = false };

    private static TargetMargin Met(DampingTarget target, double limit, double ratio, string? load = null) =>
        new(target, load, limit, ratio, target == DampingTarget.HeaveMaximum ? limit - ratio : ratio - limit);

    /// <summary>A quantity that is one value with the first layout of any run here and another with the second, whatever they did.</summary>
    private static DecidingQuantity Made(string name, Unit unit, int decimals, Better better, double first, double second) => new(
        name, unit, decimals, better, false, (run, _) => Run.Concat(Untargeted).Concat(Loaded).Any(state => ReferenceEquals(state.Result.Layouts[0].Metrics, run)) ? first : second);
}
