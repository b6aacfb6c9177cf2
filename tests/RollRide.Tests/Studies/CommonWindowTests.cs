using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Studies;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Studies;

public sealed class CommonWindowTests
{
    private const double Gravity = 9.80665;
    private const double Kerb = 1000;
    private const double Laden = 1700;

    /// <summary>Heave at most 0.4 leaves a setting for both loads, 0.23 one for each but none for both.</summary>
    private static JsonObject WithTargets(JsonObject scenario, double heaveMaximum) => SettingWindowStudyTests.WithTargets(scenario, 0.25, 0.18, heaveMaximum);

    internal static JsonObject WithLoads(JsonObject scenario) => scenario.With("loadStates", new JsonObject
    {
        ["kerb"] = new JsonObject { ["mass_kg"] = Kerb },
        ["laden"] = new JsonObject { ["mass_kg"] = Laden },
    });

    /// <summary>
    /// The short scenario's car as it stands with another body mass, written as a scenario of its own. Two springs of 50 N/mm at a ratio of 1
    /// and two tyres of 250 N/mm give way by the change of weight; the roll centre stays on the axle.
    /// </summary>
    private static JsonObject Alone(double mass, double heaveMaximum)
    {
        var weight = (mass - 1200) * Gravity;
        var (axle, suspension) = (weight / 500, weight / 100); // mm
        return WithTargets(ShortScenario.Of(("Outer", 0.8)), heaveMaximum)
            .With("vehicle.body.mass_kg", mass)
            .With("vehicle.body.cgHeight_mm", 800 - axle - suspension)
            .With("vehicle.unsprung.cgHeight_mm", 350 - axle)
            .With("vehicle.rollCentreHeight_mm", 400 - axle);
    }

    private static SettingWindowResult[] InEachLoad(JsonObject scenario) =>
        [.. scenario.Read().Study.InEachLoad.Select(study => SettingWindowStudy.Run(study, TestContext.Current.CancellationToken))];

    private static SettingWindowResult Run(JsonObject scenario) => SettingWindowStudy.Run(scenario.Read().Study, TestContext.Current.CancellationToken);

    [Fact]
    public void Window_in_a_load_state_is_that_of_a_scenario_of_the_car_as_it_stands()
    {
        var states = InEachLoad(WithLoads(WithTargets(ShortScenario.Of(("Outer", 0.8)), 0.4)));

        foreach (var (state, mass) in states.Zip([Kerb, Laden]))
        {
            var alone = Run(Alone(mass, 0.4));
            var (here, there) = (state.Layouts[0].Verdict.Window, alone.Layouts[0].Verdict.Window);
            Assert.True(there.IsOpen);
            Assert.Equal(there.Lower.Coefficient, here.Lower.Coefficient, 1e-6 * there.Lower.Coefficient);
            Assert.Equal(there.Upper.Coefficient, here.Upper.Coefficient, 1e-6 * there.Upper.Coefficient);
            Assert.Equal((there.Lower.Binding, there.Upper.Binding), (here.Lower.Binding, here.Upper.Binding));
            Assert.Equal(alone.Upright[0].ClosingPosition!.Value, state.Upright[0].ClosingPosition!.Value, 1e-6);
            Assert.Equal(alone.Layouts[0].ClosingPosition!.Value, state.Layouts[0].ClosingPosition!.Value, 1e-6);
        }
    }

    [Fact]
    public void Setting_for_every_load_state_lies_where_the_windows_of_the_single_ones_overlap()
    {
        var common = Assert.Single(CommonWindow.Of(InEachLoad(WithLoads(WithTargets(ShortScenario.Of(("Outer", 0.8)), 0.4)))));

        // A heavier body asks for more, a lighter one bears less.
        var (kerb, laden) = (Run(Alone(Kerb, 0.4)).Layouts[0].Verdict, Run(Alone(Laden, 0.4)).Layouts[0].Verdict);
        Assert.True(kerb.Window.Lower.Coefficient < laden.Window.Lower.Coefficient && laden.Window.Lower.Coefficient < kerb.Window.Upper.Coefficient);
        Assert.Equal(laden.Window.Lower.Coefficient, common.Verdict.Window.Lower.Coefficient, 1e-2);
        Assert.Equal(kerb.Window.Upper.Coefficient, common.Verdict.Window.Upper.Coefficient, 1e-2);
        Assert.Equal(laden.LowerScale, common.Verdict.LowerScale, 1e-5);
        Assert.Equal(("laden", "kerb"), (common.LowerLoad, common.UpperLoad));
        Assert.Null(common.Missing);
        Assert.StartsWith("“Outer”: one damper setting serves every load state, ", WindowWords.Of(common), StringComparison.Ordinal);
    }

    [Fact]
    public void Load_states_that_contradict_each_other_are_named_with_their_edges_and_what_is_missing()
    {
        var states = InEachLoad(WithLoads(WithTargets(ShortScenario.Of(("Outer", 0.8)), 0.23)));
        Assert.All(states, state => Assert.True(state.Layouts[0].Verdict.Window.IsOpen));

        var common = Assert.Single(CommonWindow.Of(states));

        Assert.Equal(WindowStanding.Closed, common.Verdict.Standing);
        var (kerb, laden) = (Run(Alone(Kerb, 0.23)).Layouts[0].Verdict.Window, Run(Alone(Laden, 0.23)).Layouts[0].Verdict.Window);
        Assert.Equal(laden.Lower.Coefficient - kerb.Upper.Coefficient, common.Missing!.Value, 1e-2);
        Assert.Equal((DampingTarget.HeaveMinimum, DampingTarget.HeaveMaximum), (common.Verdict.Window.Lower.Binding, common.Verdict.Window.Upper.Binding));
        Assert.Matches(@"no damper setting serves every load state: in “laden” the heave minimum needs \d\.\d\d kN·s/m, in “kerb” the heave maximum allows \d\.\d\d; \d\.\d\d kN·s/m are missing\.$", WindowWords.Of(common));
    }

    [Fact] // Nearer to the centre roll asks for more than heave bears without any load to contradict it.
    public void Load_state_whose_own_window_is_closed_is_said_to_be_the_reason()
    {
        var common = Assert.Single(CommonWindow.Of(InEachLoad(WithLoads(WithTargets(ShortScenario.Of(("Mid", 0.7)), 0.28)))));

        Assert.Equal(("kerb", "kerb"), (common.LowerLoad, common.UpperLoad));
        Assert.Contains("“kerb” has none of its own: the roll minimum needs ", WindowWords.Of(common), StringComparison.Ordinal);
    }

    [Fact]
    public void Damper_at_the_centre_serves_no_load_state()
    {
        var common = Assert.Single(CommonWindow.Of(InEachLoad(WithLoads(WithTargets(ShortScenario.Of(("Centre", 0)), 0.4)))));

        Assert.Equal(double.PositiveInfinity, common.Missing);
        Assert.EndsWith("none short of locking the suspension reaches the roll minimum.", WindowWords.Of(common), StringComparison.Ordinal);
    }

    [Fact]
    public void Upright_dampers_serve_every_load_state_where_they_serve_each()
    {
        var states = InEachLoad(WithLoads(WithTargets(ShortScenario.Of(("Outer", 0.8)), 0.4)));

        var common = Assert.Single(CommonWindow.OfUpright(states));

        Assert.Contains(common.ByPosition, at => at.Window.IsOpen);
        Assert.Contains(common.ByPosition, at => !at.Window.IsOpen);
        foreach (var (at, i) in common.ByPosition.Select((at, i) => (at, i)))
        {
            Assert.Equal(states.Max(state => state.Upright[0].ByPosition[i].Window.Lower.Coefficient), at.Window.Lower.Coefficient);
            Assert.Equal(states.Min(state => state.Upright[0].ByPosition[i].Window.Upper.Coefficient), at.Window.Upper.Coefficient);
        }
    }

    [Fact] // What is said goes into the scenario, whose mounts are drawn at the design load.
    public void Mounts_that_open_the_window_under_a_load_are_said_as_the_scenario_writes_them()
    {
        static JsonObject Scenario(double position) => PlacementScenario.WithMountsAt(position)
            .With("targets.rollDampingRatioMinimum", 0.14)
            .With("loadStates", new JsonObject { ["laden"] = new JsonObject { ["mass_kg"] = 1620 } });
        static LayoutWindow Laden(JsonObject scenario) =>
            SettingWindowStudy.Run(Assert.Single(scenario.Understood().Study.InEachLoad), TestContext.Current.CancellationToken).Layouts[0];
        var closed = Laden(Scenario(340));
        Assert.False(closed.Verdict.Window.IsOpen);

        var (axleEnd, bodyEnd) = closed.Remedies.Single(remedy => remedy.Kind == RemedyKind.DamperPosition).Mounts!.Value;

        Assert.Equal(0.300, axleEnd.Z, 1e-12);
        Assert.Equal(0.770, bodyEnd.Z, 1e-12);
        Assert.True(Laden(Scenario(Math.Round(axleEnd.Y * 1e3, 1))).Verdict.Window.IsOpen);
        Assert.NotEqual(0.300, ((RollRide.Mounting.LiveAxleMountFitting)closed.Car.Layout.Fitting).AxleEnd.Z, 1e-3);
    }

    [Fact] // Each state has a window of its own, but no setting lies in both.
    public void Mounts_that_are_advised_open_the_window_that_all_load_states_share()
    {
        static JsonObject Scenario(double position) => PlacementScenario.WithMountsAt(position)
            .With("targets.rollDampingRatioMinimum", 0.2)
            .With("loadStates", new JsonObject { ["kerb"] = new JsonObject { ["mass_kg"] = 1080 }, ["full"] = new JsonObject { ["mass_kg"] = 1620 } });
        static SettingWindowResult[] Windows(double position) =>
            [.. Scenario(position).Understood().Study.InEachLoad.Select(study => SettingWindowStudy.Run(study, TestContext.Current.CancellationToken))];
        static bool Shared(double position) => CommonWindow.Of(Windows(position))[0].Verdict.Window.IsOpen;
        var states = Windows(580);
        Assert.All(states, state => Assert.True(state.Layouts[0].Verdict.Window.IsOpen));
        Assert.False(Shared(580));

        Assert.All(states, state =>
        {
            var remedy = state.Layouts[0].Remedies.Single(remedy => remedy.Kind == RemedyKind.DamperPosition);
            var place = remedy.Mounts!.Value.AxleEnd.Y * 1e3;
            Assert.Equal(MountFit.Fits, remedy.Move!.Fit);
            Assert.True(Shared(place));
            Assert.False(Shared(place - 1));
        });
        Assert.All(Windows(640), state => Assert.Empty(state.Layouts[0].Remedies));
    }
}
