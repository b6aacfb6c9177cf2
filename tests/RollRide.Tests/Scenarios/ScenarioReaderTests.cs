using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;
using RollRide.Vehicle;

namespace RollRide.Tests.Scenarios;

public class ScenarioReaderTests
{
    [Fact]
    public void Read_turns_the_units_of_the_file_into_SI()
    {
        var study = Trial.Read(Trial.LiveAxle).Study;
        Assert.Equal(1.6, study.Vehicle.Track, 12);
        Assert.Equal(0.45, study.Vehicle.RollCentreHeight, 12);
        Assert.Equal(0.8, study.Vehicle.Body.CgHeight, 12);
        Assert.Equal(new LinearSpring(45e3), study.Vehicle.Spring.Characteristic);
        Assert.Equal(0.07, study.Vehicle.BumpStop!.Clearance, 12);

        // 5000 N at 30 mm with the default exponent 2.
        Assert.Equal(5000, study.Vehicle.BumpStop.Force(0.03), 9);
        Assert.Equal(300 * 180 / Math.PI, study.Vehicle.AntiRollBar, 9);
        Assert.Equal(250e3, study.Vehicle.Tyre.Stiffness, 9);
        Assert.Equal(300, study.Vehicle.Tyre.Damping, 9);
        Assert.Equal(20, study.Manoeuvre.Road.Speed, 12);
        Assert.Equal(0.05, study.Manoeuvre.Road.Left.Value(11), 12);
        Assert.Equal(0, study.Manoeuvre.Road.Right.Value(11));
        Assert.Equal(3, study.Manoeuvre.Cornering.FinalLateralAcceleration);
    }

    [Fact]
    public void Read_takes_a_layout_for_a_candidate_unless_it_says_otherwise()
    {
        var written = Trial.Read(Trial.With("\"name\": \"In\",", "\"name\": \"In\", \"candidate\": false,")).Study.Layouts;

        Assert.Equal([true, false], written.Select(layout => layout.IsCandidate));
        Assert.All(Trial.Read(Trial.LiveAxle).Study.Layouts, layout => Assert.True(layout.IsCandidate));
    }

    [Fact]
    public void Read_hands_author_and_date_on_as_they_are_written()
    {
        var source = Trial.Read(Trial.With("\"name\": \"Trial\",", "\"name\": \"Trial\", \"author\": \"A. Meier, chassis\", \"date\": \"week 12\",")).Study.Provenance;

        Assert.Equal(("A. Meier, chassis", "week 12"), (source.Author, source.Date));
        Assert.Equal((null, null), (Trial.Read(Trial.LiveAxle).Study.Provenance.Author, Trial.Read(Trial.LiveAxle).Study.Provenance.Date));
    }

    [Fact]
    public void Read_takes_motion_ratios_from_mounts_or_as_given()
    {
        var layouts = Trial.Read(Trial.LiveAxle).Study.Layouts;
        Assert.Equal(["Out", "In"], layouts.Select(layout => layout.Name));

        // Upright at 600 mm of 800 mm: heave ratio 1, roll ratio 0.75 (y/T, exact).
        Assert.Equal((1, 0.75), (Math.Round(layouts[0].Fitting.HeaveRatio, 12), Math.Round(layouts[0].Fitting.RollRatio, 12)));
        Assert.Equal((1, 0.5), (layouts[1].Fitting.HeaveRatio, layouts[1].Fitting.RollRatio));

        // 450 mm between the mounts, 300 mm closed.
        Assert.Equal(0.15, layouts[0].CompressionTravel!.Value, 12);
        Assert.Null(layouts[0].ReboundTravel);
        Assert.Equal(900, layouts[1].Damper.Force(0.5), 9);
    }

    [Fact]
    public void Read_chooses_the_phases_bump_and_corner()
    {
        var phases = Trial.Read(Trial.LiveAxle).Study.Manoeuvre.Phases;

        // The bump starts after 10 m at 20 m/s, the cornering at 2 s.
        Assert.Equal([("bump", 0.5, 2), ("corner", 2, 5)], phases.Select(phase => (phase.Name, phase.Start, phase.End)));
    }

    [Fact]
    public void Read_bump_within_the_corner_lasts_to_the_end()
    {
        var phases = Trial.Read(Trial.With("\"start_m\": 10", "\"start_m\": 60")).Study.Manoeuvre.Phases;
        Assert.Equal([("bump", 3, 5), ("corner", 2, 5)], phases.Select(phase => (phase.Name, phase.Start, phase.End)));
    }

    [Fact]
    public void Read_bump_that_the_corner_ends_at_once_has_no_phase()
    {
        var phases = Trial.Read(Trial.With("\"start_s\": 2", "\"start_s\": 0.5000000000001")).Study.Manoeuvre.Phases;
        Assert.Equal(["corner"], phases.Select(phase => phase.Name));
    }

    [Fact]
    public void Read_without_events_has_no_phases()
    {
        var text = Trial.With("\"cornering\": {", "\"phases\": [], \"cornering\": {");
        Assert.Empty(Trial.Read(text).Study.Manoeuvre.Phases);
    }

    [Fact]
    public void Read_steering_runs_the_single_track_model()
    {
        var cornering = Trial.Read(Trial.With(Trial.Cornering, Trial.Steering)).Study.Manoeuvre.Cornering;

        // Steady state: ay = V²/(l (1 + K V²)) δ with K = m/l² (b/Cf − a/Cr) (Gillespie 1992, ch. 6; Wong 2001, ch. 5).
        var k = 2000 / (2.9 * 2.9) * (1.5 / 95e3 - 1.4 / 110e3);
        var expected = 400 / (2.9 * (1 + k * 400)) * (30 * Math.PI / 180 / 17);
        Assert.Equal(expected, cornering.FinalLateralAcceleration, 10);
    }

    [Fact]
    public void Read_lag_delays_the_right_wheel_and_a_negative_one_the_left()
    {
        var right = Trial.Read(Trial.With("\"side\": \"left\"", "\"side\": \"both\", \"lag_m\": 3")).Study.Manoeuvre.Road;
        Assert.Equal((0.05, 0), (Math.Round(right.Left.Value(11), 9), right.Right.Value(11)));
        Assert.Equal(0.05, right.Right.Value(14), 9);
        var left = Trial.Read(Trial.With("\"start_m\": 10, \"side\": \"left\"", "\"start_m\": 1, \"side\": \"both\", \"lag_m\": -3")).Study.Manoeuvre.Road;
        Assert.Equal(0.05, left.Right.Value(2), 9);
        Assert.Equal(0.05, left.Left.Value(5), 9);
    }

    [Fact]
    public void Read_profile_counts_heights_from_its_first_sample()
    {
        var text = Trial.With("\"events\": [\n        { \"start_m\"", "\"profile\": \"other.csv\", \"events\": [\n        { \"start_m\"");
        var road = Trial.Read(text, otherFile: "distance_m,right_mm\n0,500\n50,530\n200,500\n").Study.Manoeuvre.Road;
        Assert.Equal(0, road.Right.Value(0));
        Assert.Equal(0.03, road.Right.Value(50), 9);
        Assert.Equal(0.05, road.Left.Value(11), 9);
    }

    [Fact]
    public void Read_hash_depends_on_the_scenario_and_every_file_it_names()
    {
        var first = Trial.Read(Trial.LiveAxle).Study.Provenance;
        Assert.Equal(64, first.Sha256.Length);
        Assert.Equal("trial.json", first.File);
        Assert.Equal(first, Trial.Read(Trial.LiveAxle).Study.Provenance);
        Assert.NotEqual(first.Sha256, Trial.Read(Trial.LiveAxle + "\n").Study.Provenance.Sha256);
        Assert.NotEqual(first.Sha256, Trial.Read(Trial.LiveAxle, Trial.Dyno + "\n").Study.Provenance.Sha256);
    }

    [Fact]
    public void Read_missing_scenario_names_the_file()
    {
        using var folder = new TemporaryFolder();
        var fault = Assert.Single(Assert.Throws<DataFileException>(() => ScenarioReader.Read(folder["none.json"])).Faults);
        Assert.Equal((folder["none.json"], "the file does not exist"), (fault.File, fault.Reason));
    }

    [Fact]
    public void Read_the_trial_has_only_the_warning_it_should_have() =>
        Assert.Empty(Trial.WarningsOf(Trial.LiveAxle));
}
