using System.Text.Json.Nodes;
using OxyPlot.Annotations;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Plots.Figures;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Scenarios;
using RollRide.Vehicle;

namespace RollRide.Tests.Studies;

public sealed class SettingWindowStudyTests
{
    [Fact]
    public void Layouts_stand_where_their_own_windows_say()
    {
        var result = Run(WithTargets(ShortScenario.Of(("Outer", 0.8), ("Inner", 0.3)), 0.25, 0.2, 0.4));

        var (outer, inner) = (result.Layouts[0], result.Layouts[1]);
        Assert.True(outer.Verdict.Window.IsOpen);
        Assert.Empty(outer.Remedies);
        Assert.Equal(0.8 * 0.8, outer.Position!.Value, 1e-12);
        Assert.Equal(WindowStanding.Closed, inner.Verdict.Standing);
        Assert.StartsWith("closed: no setting short of locking the suspension reaches the roll minimum", WindowWords.Of(inner.Verdict), StringComparison.Ordinal);
        Assert.Equal(5, inner.Remedies.Length);
        Assert.All(inner.Remedies, remedy => Assert.NotEmpty(RemedyWords.Of(remedy, result.Study)));
    }

    [Fact]
    public void Window_closes_between_the_layouts_where_a_damper_moved_there_just_loses_it()
    {
        var scenario = WithTargets(ShortScenario.Of(("Outer", 0.8), ("Inner", 0.3)), 0.25, 0.2, 0.4);
        var result = Run(scenario);
        var upright = Assert.Single(result.Upright);
        var closing = upright.ClosingPosition!.Value;

        bool IsOpenAt(double y) => Verdict(WithTargets(ShortScenario.Of(("Here", y / 0.8)), 0.25, 0.2, 0.4)).Window.IsOpen;
        Assert.True(IsOpenAt(closing + 1e-9));
        Assert.False(IsOpenAt(closing - 1e-9));
        Assert.All(result.Layouts, layout => Assert.Equal(closing, layout.ClosingPosition!.Value));
        Assert.Equal(upright.ByPosition.Length, upright.ByPosition.Count(at => at.Window.IsOpen == at.Position >= closing));
    }

    [Fact] // Table, text and figure read the same windows: those of a layout where an upright damper in its own mount stands.
    public void Layouts_in_top_mounts_have_the_windows_of_upright_dampers_in_such_mounts()
    {
        var scenario = WithTargets(ShortScenario.Of(("Rigid", 0.8), ("Rubber", 0.8), ("Rubber, inner", 0.6)), 0.25, 0.2, 0.4);
        scenario["dampers"]!["soft"] = scenario["dampers"]!["plain"]!.DeepClone();
        scenario["dampers"]!["soft"]!["topMountStiffness_N_per_mm"] = 150;
        scenario["layouts"]![1]!["damper"] = "soft";
        scenario["layouts"]![2]!["damper"] = "soft";
        var result = Run(scenario);

        Assert.Equal([null, 150e3], result.Upright.Select(upright => upright.MountStiffness));
        Assert.Equal([[0], [1, 2]], result.Upright.Select(upright => upright.Layouts.ToArray()));
        foreach (var upright in result.Upright)
        {
            foreach (var layout in upright.Layouts.Select(i => result.Layouts[i]))
            {
                // 0.8 and 0.6 of the half-track are two of the 41 positions.
                var window = upright.ByPosition.Single(at => Math.Abs(at.Position - layout.Position!.Value) < 1e-9).Window;
                Assert.Equal(window.Lower.Coefficient, layout.Verdict.Window.Lower.Coefficient, 1e-6);
                Assert.Equal(window.Upper.Coefficient, layout.Verdict.Window.Upper.Coefficient, 1e-6);
                Assert.Equal((window.Lower.Binding, window.Upper.Binding), (layout.Verdict.Window.Lower.Binding, layout.Verdict.Window.Upper.Binding));
                Assert.Equal(upright.ClosingPosition, layout.ClosingPosition);
            }
        }

        // The mount moves the place where the window closes; the figure draws both, and the sentences say both.
        Assert.True(Math.Abs(result.Upright[1].ClosingPosition!.Value - result.Upright[0].ClosingPosition!.Value) > 1e-4);
        var panels = SettingWindowFigure.Build(result).Panels;
        Assert.Equal(2, panels.Count);
        for (var i = 0; i < 2; i++)
        {
            var line = FormattableString.Invariant($"{result.Upright[i].ClosingPosition * 1e3:F0} mm");
            Assert.Contains(panels[i].Model.Annotations.OfType<LineAnnotation>(), annotation => Math.Abs(annotation.X - (result.Upright[i].ClosingPosition!.Value * 1e3)) < 1e-9);
            Assert.Contains(line, WindowConclusions.Of(result)[i], StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Scale_on_the_curve_moves_the_setting_to_the_edges()
    {
        var verdict = Verdict(WithTargets(ShortScenario.Of(("Outer", 0.8)), 0.25, 0.2, 0.4));
        var scaled = WithTargets(ShortScenario.Of(("Outer", 0.8)), 0.25, 0.2, 0.4).With("dampers.plain.forceScale", verdict.LowerScale * (1 + 1e-9));
        var tooSoft = WithTargets(ShortScenario.Of(("Outer", 0.8)), 0.25, 0.2, 0.4).With("dampers.plain.forceScale", 0.9 * verdict.LowerScale);
        var tooHard = WithTargets(ShortScenario.Of(("Outer", 0.8)), 0.25, 0.2, 0.4).With("dampers.plain.forceScale", 1.1 * verdict.UpperScale);

        Assert.Equal(WindowStanding.Inside, Verdict(scaled).Standing);
        Assert.Equal(WindowStanding.TooSoft, Verdict(tooSoft).Standing);
        Assert.Equal(WindowStanding.TooHard, Verdict(tooHard).Standing);
    }

    [Fact] // Each answer is put into the scenario itself: at the value the window is open, short of it it is not.
    public void Remedies_open_the_window_and_less_does_not()
    {
        JsonObject Scenario() => WithTargets(ShortScenario.Of(("Inner", 0.6)), 0.2, 0.1, 0.35).With("vehicle.antiRollBar_N_m_per_deg", 300);
        var result = Run(Scenario());
        var remedies = result.Layouts[0].Remedies.ToDictionary(remedy => remedy.Kind);
        string Said(RemedyKind kind) => RemedyWords.Of(remedies[kind], result.Study);
        bool IsOpen(JsonObject scenario) => Verdict(scenario).Window.IsOpen;
        JsonObject WithDamper(double y)
        {
            var scenario = Scenario();
            scenario["layouts"]![0]!["placement"]!["motionRatios"]!["roll"] = y / 0.8;
            return scenario;
        }

        Assert.True(IsOpen(WithDamper(remedies[RemedyKind.DamperPosition].Needed!.Value)));
        Assert.False(IsOpen(WithDamper(remedies[RemedyKind.DamperPosition].Needed!.Value - 1e-4)));

        var springs = remedies[RemedyKind.SpringPosition].Needed!.Value;
        Assert.True(springs < remedies[RemedyKind.SpringPosition].Present);
        Assert.True(IsOpen(Scenario().With("vehicle.springs.placement.motionRatios.roll", springs / 0.8)));
        Assert.False(IsOpen(Scenario().With("vehicle.springs.placement.motionRatios.roll", (springs + 2e-4) / 0.8)));

        var bar = remedies[RemedyKind.AntiRollBar].Needed!.Value * Math.PI / 180;
        Assert.Contains("deg/g", Said(RemedyKind.SpringPosition), StringComparison.Ordinal);
        Assert.Contains(
            $"with more roll: the gradient goes from {Gradient(Scenario())} to {Gradient(Scenario().With("vehicle.antiRollBar_N_m_per_deg", bar))} deg/g.",
            Said(RemedyKind.AntiRollBar), StringComparison.Ordinal);
        Assert.True(bar < 300);
        Assert.True(IsOpen(Scenario().With("vehicle.antiRollBar_N_m_per_deg", bar)));
        Assert.False(IsOpen(Scenario().With("vehicle.antiRollBar_N_m_per_deg", bar + 0.5)));
    }

    /// <summary>The roll gradient of the simulation's own steady state, deg/g, as it is written.</summary>
    private static string Gradient(JsonObject scenario)
    {
        var study = scenario.Read().Study;
        const double slight = 0.01; // m/s², so that sin φ is φ
        var roll = StaticEquilibrium.Find(new AssembledHalfCar(study.Vehicle, study.Layouts[0]), slight).BodyRoll / slight;
        return FormattableString.Invariant($"{Math.Abs(roll) * HalfCar.StandardGravity * 180 / Math.PI:F1}");
    }

    [Fact] // The mean alone counts in heave and in roll, so only a heave maximum for compression alone leaves room for a split.
    public void Split_keeps_the_mean_that_roll_needs_and_the_compression_that_heave_allows()
    {
        var layout = Run(WithTargets(ShortScenario.Of(("Inner", 0.6)), 0.2, 0.1, 0.35).With("vehicle.antiRollBar_N_m_per_deg", 300)).Layouts[0];
        var split = layout.Remedies.Single(remedy => remedy.Kind == RemedyKind.CompressionShare);
        var linear = LinearHalfCar.AtRest(layout.Car);

        Assert.Equal(1, split.Present!.Value, 1e-12); // The curve is a straight line.
        var mean = layout.Verdict.Window.Lower.Coefficient;
        Assert.Equal(0.2, ModeFollower.Solve(linear, mean).Roll.DampingRatio, 1e-9);
        Assert.Equal(0.35, ModeFollower.Solve(linear, split.Needed!.Value * mean).Heave.DampingRatio, 1e-9);
    }

    [Fact] // All other positions stay in millimetres: the arm of a ratio on a live axle does not grow with the track.
    public void Track_is_changed_alone()
    {
        var study = WithTargets(ShortScenario.Of(("Inner", 0.6)), 0.2, 0.1, 0.35).Read().Study;
        var wide = LayoutVariation.WithHalfTrack(new AssembledHalfCar(study.Vehicle, study.Layouts[0]), 1.0);

        Assert.Equal(2, wide.Vehicle.Track, 1e-12);
        Assert.Equal(0.6 * 0.8, LayoutVariation.PositionOf(wide.Layout.Fitting, 1.0), 1e-12);
        Assert.Equal(0.7 * 0.8, LayoutVariation.PositionOf(wide.Vehicle.Spring.Fitting, 1.0), 1e-12);
    }

    /// <summary>Each way in which a wheel can be guided and a damper mounted: vehicle.linkage, then the placement of the dampers.</summary>
    public static TheoryData<string?, string> Mountings => new()
    {
        { null, """{ "motionRatios": { "heave": 0.8, "roll": 0.8 } }""" },
        { null, """{ "arm": { "pivot_mm": [380, 235], "outerJoint_mm": [740, 225], "armMount_mm": [583, 232], "bodyMount_mm": [563, 566] } }""" },
        { Strut, """{ "strut": true }""" },
        { Strut, """{ "onLinkage": { "part": "lowerArm", "partEnd_mm": [0, 550, 220], "bodyEnd_mm": [0, 500, 720] } }""" },
        { DoubleWishbone, """{ "onLinkage": { "part": "lowerArm", "partEnd_mm": [0, 580, 230], "bodyEnd_mm": [0, 540, 600] } }""" },
        { DoubleWishbone, """{ "onLinkage": { "part": "upright", "partEnd_mm": [0, 700, 350], "bodyEnd_mm": [0, 640, 700] } }""" },
        { TrailingArm, """{ "onLinkage": { "part": "trailingArm", "partEnd_mm": [-100, 650, 250], "bodyEnd_mm": [-100, 620, 650] } }""" },
    };

    private const string Strut = """{ "wheelCentreHeight_mm": 310, "strut": { "lowerPivot_mm": [350, 220], "lowerJoint_mm": [720, 190], "foot_mm": [640, 270], "topMount_mm": [570, 820] } }""";
    private const string DoubleWishbone = """{ "wheelCentreHeight_mm": 310, "doubleWishbone": { "lowerPivot_mm": [350, 220], "lowerJoint_mm": [720, 200], "upperPivot_mm": [420, 480], "upperJoint_mm": [690, 500] } }""";
    private const string TrailingArm = """{ "wheelCentreHeight_mm": 310, "trailingArm": { "innerPivot_mm": [350, 300, 320], "outerPivot_mm": [420, 650, 300] } }""";

    [Theory]
    [MemberData(nameof(Mountings))]
    public void Closed_window_of_any_independent_suspension_is_told_with_its_remedies(string? linkage, string placement)
    {
        var result = Run(Guided(linkage, placement));
        var layout = result.Layouts[0];

        Assert.False(layout.Verdict.Window.IsOpen);
        Assert.Equal(Enum.GetValues<RemedyKind>().Order(), layout.Remedies.Select(remedy => remedy.Kind).Order());
        Assert.All(layout.Remedies, remedy => Assert.NotEmpty(RemedyWords.Of(remedy, result.Study)));
    }

    [Theory] // The scenario itself with another track is the same vehicle.
    [MemberData(nameof(Mountings))]
    public void Track_of_any_independent_suspension_is_changed_alone(string? linkage, string placement)
    {
        var before = Guided(linkage, placement).Read().Study;
        var wide = LayoutVariation.WithHalfTrack(new AssembledHalfCar(before.Vehicle, before.Layouts[0]), 0.87);
        var expected = Guided(linkage, placement).With("vehicle.track_mm", 1740).Read().Study;

        Assert.Equal(expected.Vehicle.Track, wide.Vehicle.Track, 1e-12);
        Assert.Equal(expected.Vehicle.RollCentreHeight, wide.Vehicle.RollCentreHeight, 1e-12);
        Assert.Equal(expected.Layouts[0].Fitting.HeaveRatio, wide.Layout.Fitting.HeaveRatio, 1e-12);
        Assert.Equal(expected.Layouts[0].Fitting.At(0.02, 0.01, Side.Left), wide.Layout.Fitting.At(0.02, 0.01, Side.Left));
        Assert.Equal(expected.Vehicle.Linkage is null, wide.Vehicle.Linkage is null);
    }

    [Fact] // Whoever adds a kind of fitting adds a mounting above, or says here why its track does not change.
    public void Mountings_hold_every_kind_of_fitting()
    {
        var tried = Mountings.Select(row => Guided(row.Data.Item1, row.Data.Item2).Read().Study.Layouts[0].Fitting.GetType()).Append(typeof(LiveAxleMountFitting));
        var all = typeof(IFitting).Assembly.GetTypes().Where(type => type is { IsClass: true, IsAbstract: false } && type.IsAssignableTo(typeof(IFitting)));
        Assert.Equal(all.Select(type => type.Name).Order(), tried.Select(type => type.Name).Distinct().Order());
    }

    [Fact] // Moved inward the springs would have to carry more than their table reaches to: such a vehicle is passed over.
    public void Variation_that_cannot_be_built_is_no_remedy()
    {
        var scenario = Guided(DoubleWishbone, """{ "onLinkage": { "part": "lowerArm", "partEnd_mm": [0, 580, 230], "bodyEnd_mm": [0, 540, 600] } }""");
        scenario["vehicle"]!["springs"]!.AsObject().Remove("rate_N_per_mm");
        scenario["vehicle"]!["springs"]!["tableFromFreeLength"] = JsonNode.Parse("""{ "compression_mm": [0, 150], "force_N": [0, 9000] }""");
        scenario["vehicle"]!["springs"]!["placement"] = JsonNode.Parse("""{ "onLinkage": { "part": "lowerArm", "partEnd_mm": [0, 620, 225], "bodyEnd_mm": [0, 590, 600] } }""");
        var study = scenario.Read().Study;
        Assert.Throws<ArgumentOutOfRangeException>(() => LayoutVariation.WithHalfTrack(new AssembledHalfCar(study.Vehicle, study.Layouts[0]), 1.3 * 0.8));

        Assert.Contains(Run(scenario).Layouts[0].Remedies, remedy => remedy.Kind == RemedyKind.Track);
    }

    private static JsonObject Guided(string? linkage, string placement)
    {
        var scenario = WithTargets(ShortScenario.Of(("Both", 0.6)), 0.6, 0.2, 0.25)
            .With("vehicle.suspension", "independent")
            .With("vehicle.unsprung.axleRollInertia_kg_m2", null)
            .With("vehicle.springs.placement.motionRatios.roll", 1);
        if (linkage is not null)
            scenario.With("vehicle.rollCentreHeight_mm", null).With("vehicle.linkage", JsonNode.Parse(linkage));
        scenario["layouts"]![0]!["placement"] = JsonNode.Parse(placement);
        return scenario;
    }

    [Fact] // 30 % less than a track of 1600 mm is less than this spacing: such a narrow axle is not tried.
    public void Track_is_not_made_narrower_than_dual_tyres_are_wide()
    {
        var scenario = WithTargets(ShortScenario.Of(("Inner", 0.3)), 0.25, 0.2, 0.4).With("vehicle.tyres.dualSpacing_mm", 1300);

        var track = Run(scenario).Layouts[0].Remedies.Single(remedy => remedy.Kind == RemedyKind.Track);

        Assert.Equal(1.6, track.Present!.Value, 1e-12);
        Assert.True(track.Needed is null or > 1.3);
    }

    [Fact]
    public void Mounts_are_moved_by_what_their_effect_moves()
    {
        var study = ScenarioReader.Read(Shipped.PathOf("scenarios", "bump-then-corner.json")).Study;
        foreach (var layout in study.Layouts)
        {
            var before = LayoutVariation.PositionOf(layout.Fitting, study.Vehicle.HalfTrack);
            var after = LayoutVariation.PositionOf(LayoutVariation.Shifted(layout.Fitting, 0.05), study.Vehicle.HalfTrack);
            Assert.Equal(before + 0.05, after, 1e-12);
        }
    }

    [Fact]
    public void Independent_suspension_has_one_window_at_every_position()
    {
        var result = Run(Independent());

        Assert.IsType<IndependentSuspension>(result.Study.Vehicle.Suspension);
        Assert.Empty(result.Upright);
        Assert.Null(result.Layouts[0].ClosingPosition);
        Assert.Null(result.Layouts[0].Position);
    }

    [Fact]
    public void Damper_without_force_is_named()
    {
        var scenario = WithTargets(ShortScenario.Of(("Outer", 0.8)), 0.25, 0.2, 0.4);
        scenario["dampers"]!["plain"]!["curve"]!["force_N"] = new JsonArray(0, 0, 0);

        var e = Assert.Throws<StudyException>(() => Run(scenario));

        Assert.IsType<NoDampingException>(e.InnerException);
        Assert.Contains("“plain” gives no damping", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Comparison_carries_the_verdict()
    {
        var layouts = WithTargets(ShortScenario.Pair(), 0.25, 0.2, 0.4).Run().Layouts;

        Assert.True(layouts[0].Window!.Window.IsOpen);
        Assert.Equal(WindowStanding.Closed, layouts[1].Window!.Standing);
        Assert.All(ShortScenario.Pair().Run().Layouts, layout => Assert.Null(layout.Window));
    }

    internal static JsonObject WithTargets(JsonObject scenario, double roll, double heaveMinimum, double heaveMaximum) =>
        scenario.With("targets", new JsonObject
        {
            ["rollDampingRatioMinimum"] = roll,
            ["heaveDampingRatioMinimum"] = heaveMinimum,
            ["heaveDampingRatioMaximum"] = heaveMaximum,
        });

    /// <summary>A case whose wheels each move their own damper.</summary>
    internal static JsonObject Independent()
    {
        var scenario = WithTargets(ShortScenario.Of(("Both", 0.6)), 0.25, 0.2, 0.4)
            .With("vehicle.suspension", "independent")
            .With("vehicle.unsprung.axleRollInertia_kg_m2", null)
            .With("vehicle.springs.placement.motionRatios.roll", 1);
        scenario["layouts"]![0]!["placement"]!["motionRatios"] = new JsonObject { ["heave"] = 0.6, ["roll"] = 0.6 };
        return scenario;
    }

    /// <summary>The first layout's verdict alone.</summary>
    private static WindowVerdict Verdict(JsonObject scenario)
    {
        var study = scenario.Read().Study;
        return WindowVerdict.Of(new AssembledHalfCar(study.Vehicle, study.Layouts[0]), study.Targets!, includeFriction: false);
    }

    private static SettingWindowResult Run(JsonObject scenario) => SettingWindowStudy.Run(scenario.Read().Study, TestContext.Current.CancellationToken);
}
