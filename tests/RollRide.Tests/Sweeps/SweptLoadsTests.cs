using System.Text.Json.Nodes;
using RollRide.Dynamics;
using RollRide.Scenarios;
using RollRide.Sweeps;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Sweeps;

/// <summary>Where the vehicle of a variant stands, against closed forms: springs and tyres are linear, and a spring moves with the wheel.</summary>
public class SweptLoadsTests
{
    // Of ShortScenario: springs k = 50 N/mm, tyres kt = 250 N/mm, two of each, body 1200 kg on an axle of 160 kg.
    private const double Spring = 50_000, Tyre = 250_000, Gravity = 9.80665;
    private const double SpringForce = 1200 * Gravity / 2, TyreLoad = 1360 * Gravity / 2;

    private const string Payload = """{ "two up": { "payload": [ { "mass_kg": 150, "height_mm": 900 } ] } }""";

    [Fact]
    public void Swept_mass_sinks_body_and_axle() =>
        AssertStands("vehicle.body.mass_kg", 1300, axle: -100 * Gravity / (2 * Tyre), travel: 100 * Gravity / (2 * Spring));

    [Fact]
    public void Swept_payload_sinks_body_and_axle() =>
        AssertStands("loadStates[two up].payload[0].mass_kg", 100, axle: -100 * Gravity / (2 * Tyre), travel: 100 * Gravity / (2 * Spring), loadStates: Payload);

    [Fact]
    public void Swept_mass_of_the_body_stands_under_the_payload_too() =>
        AssertStands("vehicle.body.mass_kg", 1300, axle: -250 * Gravity / (2 * Tyre), travel: 250 * Gravity / (2 * Spring), loadStates: Payload);

    [Fact] // 200 N of each damper, which moves with the wheel, are taken off its spring; the tyres carry what they did.
    public void Swept_gas_force_raises_the_body() => AssertStands("dampers.plain.gasForce_N", 200, axle: 0, travel: -200 / Spring);

    [Fact]
    public void Swept_rate_leaves_the_body_where_its_springs_are_set()
    {
        using var trial = Trial(SweepTrial.Rate, 60, SweepPreload.Set, null);
        var study = trial.Plan.CaseOf(0).Study!;
        Assert.Null(study.Settle(study.Layouts[0]));
        Assert.Equal((60e3 * 0.5) + SpringForce, study.Assemble(study.Layouts[0]).Vehicle.Spring.Characteristic.AtRideHeight(SpringForce).Value(0.5), 1e-6);
    }

    [Fact] // Set anew for the stiffer springs, then loaded.
    public void Swept_rate_carries_the_payload_from_the_design_position() =>
        AssertStands(SweepTrial.Rate, 60, axle: -150 * Gravity / (2 * Tyre), travel: 150 * Gravity / (2 * 60_000), loadStates: Payload);

    [Theory] // A stiffer spring compressed as far pushes more, so the body rises: P = k x0 = k' (x0 + q).
    [InlineData(60)]
    [InlineData(40)]
    public void Swept_rate_with_kept_preload_moves_the_body(double rate) =>
        AssertStands(SweepTrial.Rate, rate, axle: 0, travel: SpringForce * ((1 / (rate * 1e3)) - (1 / Spring)), preload: SweepPreload.Kept);

    [Fact]
    public void Swept_tyre_with_kept_preload_moves_axle_and_body() =>
        AssertStands("vehicle.tyres.stiffness_N_per_mm", 300, axle: TyreLoad * ((1 / Tyre) - (1 / 300e3)), travel: 0, preload: SweepPreload.Kept);

    [Fact]
    public void Kept_preload_moves_nothing_where_neither_spring_nor_tyre_changes() =>
        AssertStands(SweepTrial.Scale, 2, axle: 0, travel: 0, preload: SweepPreload.Kept);

    // By hand from the file, for all layouts: the axle sinks by Δm g/(2 · 290 N/mm), the springs by Δm g/(2 · 62 N/mm) more.
    // Then, with the arm h from roll centre to centre of gravity, Ks = 2 · 62e3 · (0.62 · 0.83)² + 600 · 180/π N·m/rad between body and axle and
    // Kt = 2 · 290e3 · 0.83² below, angles small: roll/g = g [m h/Ks + (m hcg + mu hu)/Kt] / [1 − m g h (1/Ks + 1/Kt)].
    [Theory]
    [InlineData("kerb", 25.92, 4.57, 5.753)]
    [InlineData("half", 0, 0, 7.783)]
    [InlineData("full", -25.92, -4.57, 10.134)]
    public void Shipped_load_states_stand_and_roll_as_worked_out_by_hand(string name, double body, double axle, double gradient)
    {
        var study = ScenarioReader.Read(Shipped.Scenario("sweep-load-states.json")).Study.InEachLoad.Single(study => study.Load!.Name == name);
        foreach (var layout in study.Layouts)
        {
            var loaded = study.Settle(layout)!;
            Assert.Equal(body, loaded.Rest.BodyHeave * 1e3, 0.005);
            Assert.Equal(axle, loaded.Rest.UnsprungHeave * 1e3, 0.005);

            // A tenth of the corner's 4 m/s², so that angles are small and no stop touches.
            var roll = StaticEquilibrium.Find(loaded.Car, 0.4).BodyRoll * 180 / Math.PI;
            Assert.Equal(gradient, roll / (0.4 / Gravity), 2e-3 * gradient);
        }
    }

    [Fact] // 150 kg use up 14.7 mm of the springs' travel; the stops are 10 mm away.
    public void Row_counts_what_is_unusual_about_the_rest_under_its_load()
    {
        using var trial = new SweepTrial(
            $$"""{ "parameters": [ { "path": "loadStates[two up].payload[0].mass_kg", "values": [0, 150] } ] }""",
            scenario => scenario.With("vehicle.bumpStops", JsonNode.Parse("""{ "clearance_mm": 10, "force_N": 4000, "atCompression_mm": 20, "exponent": 2, "placement": { "motionRatios": { "heave": 1, "roll": 0.7 } } }""")),
            Payload.Replace("150", "0", StringComparison.Ordinal));
        var warnings = VariantResult.Run(trial.Plan, 0, 2, TestContext.Current.CancellationToken).Select(result => result.Layouts[0].Warnings).ToArray();
        Assert.Equal(1, warnings[1] - warnings[0]);
    }

    private static void AssertStands(
        string path, double value, double axle, double travel, SweepPreload preload = SweepPreload.Set, string? loadStates = null)
    {
        const double micrometre = 1e-6;
        using var trial = Trial(path, value, preload, loadStates);
        var study = trial.Plan.CaseOf(0).Study!;
        foreach (var layout in study.Layouts)
        {
            var rest = study.Settle(layout)!.Rest;
            Assert.Equal(axle, rest.UnsprungHeave, micrometre);
            Assert.Equal(travel, rest.Travel, micrometre);
        }
    }

    private static SweepTrial Trial(string path, double value, SweepPreload preload, string? loadStates) => new(
        new JsonObject
        {
            ["parameters"] = new JsonArray(new JsonObject { ["path"] = path, ["values"] = new JsonArray(value) }),
            ["preload"] = preload == SweepPreload.Kept ? "kept" : "set",
        }.ToJsonString(),
        loadStates: loadStates);
}
