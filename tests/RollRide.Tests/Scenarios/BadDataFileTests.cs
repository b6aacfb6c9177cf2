namespace RollRide.Tests.Scenarios;

/// <summary>Every kind of mistake in a file that a scenario names: the message has that file and its line.</summary>
public class BadDataFileTests
{
    private const string Profile = "distance_m,left_mm\n0,0\n50,20\n200,0\n";

    private static string WithProfile => Trial.With("\"events\": [\n        { \"start_m\"", "\"profile\": \"other.csv\", \"events\": [\n        { \"start_m\"");

    private static string WithRecord => Trial.With(Trial.Cornering, "\"lateralAcceleration\": { \"file\": \"other.csv\" }");

    [Theory]
    [InlineData("-0.1,-500", "-0.1,abc", 4, "force_N", "abc", "a number is expected")]
    [InlineData("-0.1,-500", "-0.1,NaN", 4, "force_N", "NaN", "a finite number is expected")]
    [InlineData("-0.1,-500", "-0.1", 4, null, null, "1 field where the header has 2")]
    [InlineData("-0.1,-500", "\"-0.1,-500", 4, null, null, "double quote")]
    [InlineData("-0.1,-500", "-0.5,-500", 4, "force_N", "-500", "line 3 gives 1500 N at the same velocity")]
    [InlineData("velocity_m_per_s,force_N", "# positive: rebound\nvelocity_m_per_s,force_N", null, "positive", "rebound", "reads these two columns with compression positive")]
    [InlineData("0.1,300", "1e-300,300", 6, "velocity_m_per_s", "1E-300", "the force changes by 300 N within 1E-300 m/s; 1000000000 N·s/m is the steepest accepted")]
    [InlineData("0.5,900", "1e9,900", 7, "velocity_m_per_s", "1000000000", "from -1000 to 1000 is expected: no damper moves so fast")]
    [InlineData("0.1,300", "0.1,-300", 6, "force_N", "-300", "at 0.1 m/s the force of -300 N pushes the way the damper moves")]
    [InlineData("0,0", "0,100", 5, "force_N", "100", "needs 0 N at 0 m/s")]
    [InlineData("0,0\n", "", null, "force_N", null, "the force at rest (0 m/s) is -100 N")]
    [InlineData("-0.5,-1500\n-0.1,-500\n0,0\n", "", 3, "velocity_m_per_s", "0.1", "no velocity is below 0, so rebound has no points")]
    [InlineData("0.1,300\n0.5,900", "", 5, "velocity_m_per_s", "0", "no velocity is above 0, so compression has no points")]
    [InlineData("-0.1,-500\n0,0\n0.1,300\n0.5,900", "", 3, "velocity_m_per_s", "-0.5", "the only row; at least 2 are needed")]
    [InlineData("velocity_m_per_s", "velocity_mm_per_s", 2, "velocity_mm_per_s", null, "the unit is in the key")]
    [InlineData(",force_N", "", 2, "force_N", null, "missing from the header")]
    [InlineData("velocity_m_per_s,force_N\n-0.5,-1500\n-0.1,-500\n0,0\n0.1,300\n0.5,900", "", null, null, null, "the file is empty")]
    public void Read_bad_dyno_file_is_refused_at_its_line(string old, string replacement, int? line, string? key, string? value, string reason)
    {
        Assert.Contains(old, Trial.Dyno, StringComparison.Ordinal);
        var fault = Trial.FaultsOf(Trial.LiveAxle, Trial.Dyno.Replace(old, replacement, StringComparison.Ordinal))[0];
        Assert.Equal(("dyno.csv", line, key, value), (fault.File, fault.Line, fault.Key, fault.Value));
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_inverted_dyno_file_is_one_fault()
    {
        var inverted = "velocity_m_per_s,force_N\n-0.5,1500\n-0.1,500\n0,0\n0.1,-300\n0.5,-900\n";
        var fault = Trial.FaultOf(Trial.LiveAxle, inverted);
        Assert.Equal(("dyno.csv", 2, "1500"), (fault.File, fault.Line, fault.Value));
        Assert.Contains("both count positive in compression", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_missing_data_file_is_refused_where_it_is_named()
    {
        var fault = Trial.FaultOf(Trial.LiveAxle, dyno: null);
        Assert.Equal(("trial.json", 36, "dampers[\"rear soft\"].dyno", "dyno.csv"), (fault.File, fault.Line, fault.Key, fault.Value));
        Assert.Contains("there is no such file; paths are relative to the scenario's folder", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_slight_push_of_measured_data_is_warned_of_and_kept()
    {
        // 2 % of 1500 N are 30 N.
        var dyno = Trial.Dyno.Replace("0,0", "0,20", StringComparison.Ordinal);
        var warning = Assert.Single(Trial.WarningsOf(Trial.LiveAxle, dyno));
        Assert.StartsWith("dyno.csv:5: force_N = 20: the force at rest (0 m/s) is 20 N", warning, StringComparison.Ordinal);
        Assert.Contains("less than 2 % of the largest force", warning, StringComparison.Ordinal);
        Assert.Equal(20, Trial.Read(Trial.LiveAxle, dyno).Study.Layouts[1].Damper.Force(0));

        var fault = Trial.FaultOf(Trial.LiveAxle, dyno.Replace("0,20", "0,31", StringComparison.Ordinal));
        Assert.Equal(("dyno.csv", 5), (fault.File, fault.Line));
    }

    [Theory]
    [InlineData(0.1, 0.3, 0.7)]
    [InlineData(0.013, 0.029, 1234.567)]
    [InlineData(1e-3, 3, 98765.4321)]
    public void Read_line_through_the_origin_without_a_point_there_passes_whatever_it_rounds_to(double below, double above, double slope)
    {
        var dyno = FormattableString.Invariant($"velocity_m_per_s,force_N\n{-below:R},{-below * slope:R}\n{above:R},{above * slope:R}\n");
        var damper = Trial.Read(Trial.LiveAxle, dyno).Study.Layouts[1].Damper;

        // No more than the rounding of the larger force (a double has 53 bits).
        Assert.InRange(damper.Force(0), -above * slope * 2e-15, above * slope * 2e-15);
    }

    [Theory]
    [InlineData("0,0\n50,20", "0,0\n0,20", 3, "distance_m", "0", "repeats the value of line 2")]
    [InlineData("\n0,0\n", "\n-5,0\n", 2, "distance_m", "-5", "the first must be 0 or greater")]
    [InlineData("left_mm", "left_m", 1, "left_m", null, "unit")]
    [InlineData(",left_mm\n0,0\n50,20\n200,0", "\n0\n50\n200", null, null, null, "neither column left_mm nor right_mm")]
    public void Read_bad_profile_is_refused_at_its_line(string old, string replacement, int? line, string? key, string? value, string reason)
    {
        var fault = Trial.FaultsOf(WithProfile, otherFile: Profile.Replace(old, replacement, StringComparison.Ordinal))[0];
        Assert.Equal(("other.csv", line, key, value), (fault.File, fault.Line, fault.Key, fault.Value));
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_profile_in_metres_by_mistake_is_warned_of()
    {
        var warning = Assert.Single(Trial.WarningsOf(WithProfile, otherFile: "distance_m,left_mm\n0,0.0\n50,0.02\n200,0.01\n"));
        Assert.StartsWith("trial.json:54: manoeuvre.road.profile = other.csv: ", warning, StringComparison.Ordinal);
        Assert.Contains("is it in m?", warning, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_profile_of_towering_height_is_warned_of() =>
        Assert.Contains("is it in mm?", Assert.Single(Trial.WarningsOf(WithProfile, otherFile: "distance_m,left_mm\n0,0\n50,20000\n200,0\n")), StringComparison.Ordinal);

    [Fact]
    public void Read_profile_shorter_than_the_run_is_warned_of() =>
        Assert.Contains(
            "the profile ends at 50.0 m and the run at 100.0 m; its last height is held",
            Assert.Single(Trial.WarningsOf(WithProfile, otherFile: "distance_m,left_mm\n0,0\n50,20\n")),
            StringComparison.Ordinal);

    [Theory]
    [InlineData("0,0\n1,2\n1,3\n9,3", 4, "repeats the value of line 3 (1)")]
    [InlineData("0,0\n1,2\n0.5,3\n9,3", 4, "is below the value of line 3 (1)")]
    public void Read_record_whose_time_does_not_ascend_is_refused(string rows, int line, string reason)
    {
        var fault = Trial.FaultOf(WithRecord, otherFile: $"time_s,lateralAcceleration_m_per_s2\n{rows}\n");
        Assert.Equal(("other.csv", line, "time_s"), (fault.File, fault.Line, fault.Key));
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_record_that_ends_before_the_run_is_warned_of() =>
        Assert.Contains(
            "the record ends at 2 s and the run at 5 s; its last value is held",
            Assert.Single(Trial.WarningsOf(WithRecord, otherFile: "time_s,lateralAcceleration_m_per_s2\n0,0\n2,3\n")),
            StringComparison.Ordinal);

    [Fact]
    public void Read_faults_of_the_scenario_and_of_its_files_come_together()
    {
        var text = Trial.With("\"damper\": \"soft\"", "\"damper\": \"hard\"")
            .Replace("\"side\": \"left\"", "\"side\": \"left\", \"lag_m\": 2", StringComparison.Ordinal)
            .Replace("[-1500, -500, 0, 300, 900]", "[-1500, 500, 0, -300, 900]", StringComparison.Ordinal);
        var faults = Trial.FaultsOf(text, Trial.Dyno.Replace("0.1,300", "0.1,x", StringComparison.Ordinal));
        Assert.Equal(
            [
                ("trial.json", 32, "dampers.soft.curve.force_N[1]"), ("trial.json", 32, "dampers.soft.curve.force_N[3]"),
                ("trial.json", 42, "layouts[0].damper"), ("trial.json", 55, "manoeuvre.road.events[0].lag_m"),
                ("dyno.csv", 6, "force_N"),
            ],
            faults.Select(fault => (fault.File, fault.Line!.Value, fault.Key!)));
    }

    [Fact]
    public void Read_scenario_that_breaks_off_says_which_bracket_is_open()
    {
        var fault = Trial.FaultOf(Trial.LiveAxle[..Trial.LiveAxle.IndexOf("\"layouts\"", StringComparison.Ordinal)]);
        Assert.Contains("the file ends before the “{” of line 1 is closed", fault.Reason, StringComparison.Ordinal);
    }
}
