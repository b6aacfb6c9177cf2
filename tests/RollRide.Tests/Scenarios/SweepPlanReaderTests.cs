using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Tests.Sweeps;

namespace RollRide.Tests.Scenarios;

public class SweepPlanReaderTests
{
    [Theory]
    [InlineData("""{ "parameters": [ { "path": "vehicle.spring.rate_N_per_mm", "values": [1] } ] }""", "sweep.parameters[0].path", "did you mean vehicle.springs.rate_N_per_mm")]
    [InlineData("""{ "parameters": [ { "path": "dampers.plain.topMountStiffness_N_per_mm", "values": [1] } ] }""", "sweep.parameters[0].path", "give it one there first")]
    [InlineData("""{ "parameters": [ { "path": "vehicle.track_mm", "linear": { "from": 5, "to": 5, "count": 3 } } ] }""", "sweep.parameters[0]", "range from 5 to 5 is empty")]
    [InlineData("""{ "parameters": [ { "path": "layouts[0].placement.motionRatios.roll", "values": [1] }, { "path": "layouts[Outer].placement.motionRatios.roll", "values": [1] } ] }""", "sweep.parameters[1].path", "varied twice")]
    [InlineData("""{ "parameters": [ { "path": "vehicle.track_mm", "normal": { "mean": 5, "deviation": 1 } } ] }""", "sweep.design", "choose a sampled design")]
    [InlineData("""{ "parameters": [ { "path": "vehicle.track_mm", "linear": { "from": 1, "to": 2, "count": 1000000 } }, { "path": "vehicle.body.mass_kg", "linear": { "from": 1, "to": 2, "count": 1000000 } } ] }""", "sweep.design", "fewer levels")]
    [InlineData("""{ }""", "sweep.parameters", "nothing is varied")]
    [InlineData("""{ "parameters": [ { "path": "vehicle.track_mm", "values": [1600] } ], "targets": [ { "metric": "rollOvershoot_percnt", "atMost": 3 } ] }""", "sweep.targets[0].metric", "did you mean rollOvershoot_percent")]
    [InlineData("""{ "parameters": [ { "path": "vehicle.track_mm", "values": [1600] } ], "metrics": [ "x" ] }""", "sweep.metrics[0]", "bump.bodyAccelerationRms_m_per_s2")]
    [InlineData("""{ "loadStates": { "full": { "vehicle.body.mass_kg": 1000 } } }""", "sweep.loadStates", "at the top level, under the key loadStates")]
    public void What_makes_no_sense_is_refused_at_its_place(string sweep, string key, string reason)
    {
        var fault = Assert.Single(Assert.Throws<DataFileException>(() => new SweepTrial(sweep).Dispose()).Faults);
        Assert.Equal(key, fault.Key);
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
        Assert.Equal(1, fault.Line);
    }

    [Theory]
    [InlineData("mass_kg", 900)]
    [InlineData("cgHeight_mm", 700)]
    [InlineData("rollInertia_kg_m2", 400)]
    public void Number_of_the_body_that_a_load_state_sets_is_not_varied(string key, double value)
    {
        var sweep = $$"""{ "parameters": [ { "path": "vehicle.body.{{key}}", "values": [{{value}}] } ] }""";
        var fault = Assert.Single(Assert.Throws<DataFileException>(
            () => new SweepTrial(sweep, loadStates: $$"""{ "empty": {}, "two up": { "{{key}}": {{value + 1}} } }""").Dispose()).Faults);
        Assert.Equal("sweep.parameters[0].path", fault.Key);
        Assert.Contains($"loadStates[two up].{key} sets it outright: they contradict each other", fault.Reason, StringComparison.Ordinal);

        // A state that only adds masses takes the body as it is varied.
        using var trial = new SweepTrial(sweep, loadStates: """{ "two up": { "payload": [ { "mass_kg": 80, "height_mm": 900 } ] } }""");
        Assert.Equal(1, trial.Plan.VariantCount);
    }

    [Fact]
    public void Fault_of_an_option_names_the_option()
    {
        using var trial = SweepTrial.Twelve();
        var fault = Assert.Single(Assert.Throws<DataFileException>(() => SweepPlanReader.Read(trial.Template, new SweepOptions { Vary = ["nowhere=1"] })).Faults);
        Assert.Equal(("--vary", null), (fault.File, fault.Key));
    }

    [Fact]
    public void Plan_shows_metrics_with_a_target_or_else_what_most_ask()
    {
        using var trial = SweepTrial.Twelve();
        Assert.Equal(["bodyAccelerationRms_m_per_s2"], trial.Plan.Shown.Select(metric => metric.Key));
        var plain = SweepPlanReader.Read(trial.Template, trial.Template.Sweep! with { Targets = [] });
        Assert.Equal(["rollOvershoot_percent", "bodyAccelerationRms_m_per_s2"], plain.Shown.Select(metric => metric.Key));
    }

    [Fact]
    public void Layouts_can_be_chosen()
    {
        using var trial = SweepTrial.Twelve();
        Assert.Equal(["Inner"], SweepPlanReader.Read(trial.Template, new SweepOptions { Layouts = [1] }).LayoutNames);
    }

    [Fact]
    public void Load_states_can_be_chosen_and_numbers_of_the_others_are_not_varied()
    {
        using var trial = new SweepTrial(
            """{ "parameters": [ { "path": "loadStates.kerb.mass_kg", "values": [900, 950] } ] }""", loadStates: """{ "kerb": { "mass_kg": 900 }, "half": {}, "full": { "mass_kg": 1500 } }""");
        var (kerb, full) = (trial.Plan.LoadStates[0], trial.Plan.LoadStates[2]);
        var plan = SweepPlanReader.Read(trial.Template, new SweepOptions { Loads = [full, kerb] });
        Assert.Equal(4, plan.VariantCount);
        Assert.Equal((1500, 1500, 900, 950), (Mass(0), Mass(1), Mass(2), Mass(3)));

        var fault = Assert.Single(Assert.Throws<DataFileException>(() => SweepPlanReader.Read(trial.Template, new SweepOptions { Loads = [full] })).Faults);
        Assert.Contains("load state “kerb” is not among those chosen", fault.Reason, StringComparison.Ordinal);

        double Mass(long variant) => plan.CaseOf(variant).Study is { } study ? study.Assemble(study.Layouts[0]).Vehicle.Body.Mass : 0;
    }
}
