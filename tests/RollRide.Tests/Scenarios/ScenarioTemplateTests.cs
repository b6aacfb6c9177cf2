using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;
using RollRide.Vehicle;

namespace RollRide.Tests.Scenarios;

public class ScenarioTemplateTests
{
    [Theory]
    [InlineData("vehicle.springs.rate_N_per_mm", 45.0)]
    [InlineData("layouts[0].placement.mounts.axleEnd_mm[1]", 600.0)]
    [InlineData("layouts[Out].placement.mounts.axleEnd_mm[1]", 600.0)]
    [InlineData("layouts[In].placement.motionRatios.roll", 0.5)]
    [InlineData("dampers.soft.curve.force_N[0]", -1500.0)]
    [InlineData("dampers[rear soft].forceScale", 1.0)]
    [InlineData("dampers[\"rear soft\"].forceScale", 1.0)]
    [InlineData("solver.relativeTolerance", 3e-8)]
    [InlineData("manoeuvre.road.events[0].bump.height_mm", 50.0)]
    public void Find_takes_indices_names_and_defaults(string path, double value) => Assert.Equal(value, Read().Find(path)?.Value);

    [Fact]
    public void Find_knows_a_number_that_is_neither_in_the_file_nor_has_a_default()
    {
        var address = Read().Find("dampers.soft.topMountStiffness_N_per_mm");
        Assert.NotNull(address);
        Assert.Null(address.Value);
    }

    [Theory]
    [InlineData("vehicle.spring.rate_N_per_mm", "vehicle.springs.rate_N_per_mm")]
    [InlineData("vehicle.springs.rate_N_per_m", "vehicle.springs.rate_N_per_mm")]
    [InlineData("layouts[Ouut].placement.mounts.axleEnd_mm[1]", "layouts[Out].placement.mounts.axleEnd_mm[1]")]
    public void Unknown_path_is_answered_with_the_nearest(string path, string nearest)
    {
        Assert.Null(Read().Find(path));
        Assert.Contains(nearest, Read().NearestTo(path), StringComparison.Ordinal);
    }

    [Fact]
    public void With_a_number_reads_as_the_edited_file_does()
    {
        var replaced = With(("vehicle.springs.rate_N_per_mm", 52.5)).Study;
        var edited = Trial.Read(Trial.With("\"rate_N_per_mm\": 45", "\"rate_N_per_mm\": 52.5")).Study;

        // Fittings are compared by reference; everything else by value, which its text shows.
        Assert.Equal(edited.Vehicle.ToString(), replaced.Vehicle.ToString());
        Assert.Equal(52_500, Assert.IsType<LinearSpring>(replaced.Vehicle.Spring.Characteristic).Rate);
    }

    [Fact]
    public void With_adds_keys_and_objects_that_the_file_leaves_out()
    {
        var study = With(("solver.maximumStep_ms", 5), ("dampers.soft.forceScale", 2)).Study;

        Assert.Equal(0.005, study.Solver.MaximumStep);
        // The curve's 300 N at 0.1 m/s, twice.
        Assert.Equal(600, study.Layouts[0].Damper.Curve.Force(0.1), 1e-9);
    }

    [Fact]
    public void With_a_number_outside_its_limits_says_where_it_stands()
    {
        var fault = Assert.Single(Assert.Throws<DataFileException>(() => With(("vehicle.track_mm", 100))).Faults);
        Assert.Equal((6, "vehicle.track_mm", "100"), (fault.Line!.Value, fault.Key, fault.Value));
    }

    [Fact]
    public void With_a_length_whose_history_would_fill_the_memory_is_read_since_none_is_kept()
    {
        // 20 kHz over an hour: 72 million rows, which compare and simulate refuse.
        var hour = With(("manoeuvre.duration_s", 3600), ("output.rate_Hz", 20_000));
        Assert.Equal(3600, hour.Study.Manoeuvre.Duration);
        Assert.DoesNotContain(hour.Warnings, warning => warning.Contains("rows", StringComparison.Ordinal));
    }

    [Fact]
    public void With_nothing_is_the_scenario_itself()
    {
        var template = Read();
        Assert.Equal(template.Scenario.Study.Vehicle.ToString(), template.With().Study.Vehicle.ToString());
        Assert.Equal(template.Scenario.Study.Provenance, template.With().Study.Provenance);
    }

    [Fact]
    public void Variants_take_over_what_they_leave_as_it_is()
    {
        var template = Read();
        var variant = template.With(KeyValuePair.Create("vehicle.springs.rate_N_per_mm", 52.5), KeyValuePair.Create("dampers.soft.forceScale", 2.0)).Study;

        Assert.Same(template.Scenario.Study.Manoeuvre, variant.Manoeuvre);
        Assert.NotSame(template.Scenario.Study.Layouts[0].Damper, variant.Layouts[0].Damper);
    }

    [Fact]
    public void Variants_repeat_the_warnings_of_what_they_leave_as_it_is()
    {
        using var folder = new TemporaryFolder();
        folder.Write("dyno.csv", Trial.Dyno);
        var template = ScenarioTemplate.Read(folder.Write("trial.json", Trial.With("\"height_mm\": 50", "\"height_mm\": 0.5")));
        Assert.Contains(template.Scenario.Warnings, warning => warning.Contains("is this one in m?", StringComparison.Ordinal));

        var variant = template.With(KeyValuePair.Create("vehicle.springs.rate_N_per_mm", 52.5));
        Assert.Equal(template.Scenario.Warnings, variant.Warnings);
    }

    private static ScenarioTemplate Read()
    {
        using var folder = new TemporaryFolder();
        folder.Write("dyno.csv", Trial.Dyno);
        return ScenarioTemplate.Read(folder.Write("trial.json", Trial.LiveAxle));
    }

    // The files are gone when the variant is made: they are read once.
    private static Scenario With(params (string Path, double Value)[] numbers)
    {
        using var folder = new TemporaryFolder();
        folder.Write("dyno.csv", Trial.Dyno);
        var template = ScenarioTemplate.Read(folder.Write("trial.json", Trial.LiveAxle));
        return template.With([.. numbers.Select(number => KeyValuePair.Create(template.Find(number.Path)!.Path, number.Value))]);
    }
}
