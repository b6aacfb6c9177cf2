using System.Globalization;
using System.Text.Json.Nodes;
using RollRide.Roads;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Scenarios;

public class RoadScenarioTests
{
    private static string WithRandom(string random) => Trial.With("\"road\": {", $"\"road\": {{ \"random\": {{ {random} }},");

    private static string WithMeasured(string more = "") => Trial.With("\"road\": {", $"\"road\": {{ \"measured\": {{ \"file\": \"other.csv\"{more} }},");

    private static string Table(IEnumerable<(double X, double Left)> rows, string columns = "distance_m,left_mm") =>
        columns + "\n" + string.Concat(rows.Select(row => string.Create(CultureInfo.InvariantCulture, $"{row.X},{row.Left}\n")));

    private static IEnumerable<(double X, double Left)> Even(int count, double step = 0.25) =>
        Enumerable.Range(0, count).Select(i => (i * step, 5 * Math.Sin(i * step)));

    [Fact]
    public void A_class_becomes_a_random_road_with_the_vehicles_track_beside_the_events()
    {
        var road = Trial.Read(WithRandom("\"class\": \"d\", \"seed\": 9, \"contactLength_mm\": 120")).Study.Manoeuvre.Road;
        var random = road.Unevenness!;
        Assert.Equal(RoadClasses.Mean(RoadClass.D), random.Spectrum.ReferenceDensity);
        Assert.Equal(9, random.Seed);
        Assert.Equal(0.12, random.ContactLength, 1e-12);
        Assert.Equal(TrackCoherence.Isotropic(1.6).Gamma(0.1), random.Coherence.Gamma(0.1), 1e-12);
        Assert.Equal(0.05, road.Left.Value(11), 1e-12);
    }

    [Fact]
    public void A_spectrum_by_its_numbers_is_taken_over()
    {
        var spectrum = Trial.Read(WithRandom("""
            "spectrum": { "referenceDensity_m3": 3e-4, "waviness": 2.5, "breakWavenumber_per_m": 0.2, "wavinessAboveBreak": 1.8 }, "lowestWavenumber_per_m": 0.02,
            "highestWavenumber_per_m": 4, "coherence": { "gammas": [0.9, 0.1], "wavenumbers_per_m": [0.05, 0.5] }
            """)).Study.Manoeuvre.Road.Unevenness!;
        Assert.Equal(
            new RoughnessSpectrum
            {
                ReferenceDensity = 3e-4,
                Waviness = 2.5,
                BreakWavenumber = 0.2,
                WavinessAboveBreak = 1.8,
                LowestWavenumber = 0.02,
                HighestWavenumber = 4,
            },
            spectrum.Spectrum);
        Assert.Equal(0.9, spectrum.Coherence.Gamma(0.01));
    }

    [Theory]
    [InlineData("\"class\": \"a\", \"spectrum\": { \"referenceDensity_m3\": 1e-4 }", "class")]
    [InlineData("\"seed\": 1", "class")]
    [InlineData("\"class\": \"i\"", "class")]
    [InlineData("\"class\": \"a\", \"lowestWavenumber_per_m\": 3", "highestWavenumber_per_m")]
    [InlineData("\"class\": \"a\", \"coherence\": { \"gamma\": 1.5 }", "gamma")]
    [InlineData("\"class\": \"a\", \"coherence\": { \"gammas\": [1, 0.5] }", "wavenumbers_per_m")]
    [InlineData("\"class\": \"a\", \"coherence\": { \"gammas\": [1, 0.5], \"wavenumbers_per_m\": [0.1] }", "wavenumbers_per_m")]
    [InlineData("\"class\": \"a\", \"coherence\": { \"gammas\": [1, 0.5], \"wavenumbers_per_m\": [0.2, 0.1] }", "ascend")]
    [InlineData("\"spectrum\": { \"referenceDensity_m3\": 0 }", "referenceDensity_m3")]
    [InlineData("\"class\": \"a\", \"leadIn_m\": 90", "leadIn_m")]
    [InlineData("\"class\": \"a\", \"leadIn_m\": 0", "leadIn_m")]
    [InlineData("\"class\": \"a\", \"lowestWavenumber_per_m\": 1, \"highestWavenumber_per_m\": 1.005", "highestWavenumber_per_m")]
    public void A_random_road_that_makes_no_sense_is_refused_at_its_key(string random, string named) =>
        Assert.Contains(named, Trial.FaultOf(WithRandom(random)).ToString(), StringComparison.Ordinal);

    [Fact]
    public void A_road_rougher_than_class_h_draws_a_warning() =>
        Assert.Contains(Trial.WarningsOf(WithRandom("\"spectrum\": { \"referenceDensity_m3\": 16 }")), warning => warning.Contains("class h", StringComparison.Ordinal));

    [Fact]
    public void A_random_road_has_a_phase_of_its_own() =>
        Assert.Equal(["rough road", "bump", "corner"], Trial.Read(WithRandom("\"class\": \"a\", \"leadIn_m\": 5")).Study.Manoeuvre.Phases.Select(phase => phase.Name));

    [Fact]
    public void A_random_road_that_still_grows_when_the_corner_begins_has_no_phase() =>
        Assert.Equal(["bump", "corner"], Trial.Read(WithRandom("\"class\": \"a\"")).Study.Manoeuvre.Phases.Select(phase => phase.Name));

    [Fact]
    public void A_measured_road_is_read_prepared_and_added_to_the_events()
    {
        var road = Trial.Read(WithMeasured(", \"detrend\": true, \"spacing_mm\": 100, \"contactLength_mm\": 100"), otherFile: Table(Even(500))).Study.Manoeuvre.Road;

        // The straight line through twenty waves of 5 mm is almost level: 0.1 mm over 10 m is allowed for it.
        Assert.Equal(0.005 * (Math.Sin(50) - Math.Sin(40)), road.Right.Value(50) - road.Right.Value(40), 1e-4);
        Assert.Equal(0.05, road.Left.Value(11) - road.Right.Value(11), 1e-9);
    }

    [Fact]
    public void A_gap_in_a_measured_road_is_named_with_its_line()
    {
        var fault = Trial.FaultOf(WithMeasured(), otherFile: Table(Even(100).Where(row => row.X is < 10 or > 12)));
        Assert.Contains("gap", fault.Reason, StringComparison.Ordinal);
        Assert.Equal(42, fault.Line); // header, forty rows up to 9.75 m, then the row after the gap
    }

    [Fact]
    public void Uneven_steps_are_named_with_their_line()
    {
        var fault = Trial.FaultOf(WithMeasured(), otherFile: Table(Even(100).Select((row, i) => (i == 50 ? row.X + 0.05 : row.X, row.Left))));
        Assert.Contains("not even", fault.Reason, StringComparison.Ordinal);
        Assert.Equal(52, fault.Line);
    }

    [Fact]
    public void Steps_that_stretch_little_by_little_are_refused() =>
        Assert.Contains("not even", Trial.FaultOf(WithMeasured(), otherFile: Table(Even(2000).Select(row => (row.X * (1 + (1e-5 * row.X)), row.Left)))).Reason, StringComparison.Ordinal);

    [Fact]
    public void Millimetres_given_as_metres_draw_a_warning()
    {
        // A 'road' of 50 m bumps: 50 mm written as 50000.
        using var folder = new TemporaryFolder();
        var high = MeasuredProfileReader.Read(folder.Write("road.csv", Table(Even(400).Select(row => (row.X, row.Left * 10_000)))));
        Assert.Single(high.Warnings, warning => warning.Contains("is it in mm", StringComparison.Ordinal));

        var low = MeasuredProfileReader.Read(folder.Write("flat.csv", Table(Even(400).Select(row => (row.X, row.Left / 1000)))));
        Assert.Single(low.Warnings, warning => warning.Contains("metres written as mm", StringComparison.Ordinal));

        // A road of 100 mm written in metres.
        var metres = MeasuredProfileReader.Read(folder.Write("metres.csv", Table(Even(400).Select(row => (row.X, row.Left / 50)))));
        Assert.Single(metres.Warnings, warning => warning.Contains("metres written as mm", StringComparison.Ordinal));
    }

    [Fact]
    public void Phase_over_a_measured_road_is_called_so()
    {
        using var folder = new TemporaryFolder();
        folder.Write("road.csv", Table(Even(400)));
        var scenario = ShortScenario.Pair().With("manoeuvre.road", JsonNode.Parse("""{ "measured": { "file": "road.csv" } }"""));
        Assert.Equal(["measured road", "corner"], ScenarioReader.Read(scenario.WriteTo(folder)).Study.Manoeuvre.Phases.Select(phase => phase.Name));
    }

    [Fact]
    public void A_table_without_a_track_or_rows_is_refused()
    {
        Assert.Contains("neither", Trial.FaultOf(WithMeasured(), otherFile: "distance_m\n0\n1\n2\n").Reason, StringComparison.Ordinal);
        Assert.Contains("three rows", Trial.FaultOf(WithMeasured(), otherFile: Table(Even(2))).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void One_track_stands_for_both_and_draws_a_warning()
    {
        using var folder = new TemporaryFolder();
        var measured = MeasuredProfileReader.Read(folder.Write("road.csv", Table(Even(40), "distance_m,right_mm")));
        Assert.Equal(measured.Profile.Left, measured.Profile.Right);
        Assert.True(measured.IsOneTrack);
        Assert.Contains("only right_mm is given and taken for both tracks", Assert.Single(measured.Warnings), StringComparison.Ordinal);

        var both = MeasuredProfileReader.Read(folder.Write("both.csv", "distance_m,left_mm,right_mm\n0,1,2\n1,2,4\n2,0,1\n"));
        Assert.Empty(both.Warnings);
        Assert.False(both.IsOneTrack);
    }

    [Fact]
    public void A_measured_road_stays_where_its_distances_say()
    {
        var road = Trial.Read(WithMeasured(), otherFile: Table(Even(500).Select(row => (row.X + 50, row.Left)))).Study.Manoeuvre.Road;
        Assert.Equal(0, road.Right.Value(49.9));
        Assert.Equal(0.005 * Math.Sin(10), road.Right.Value(60), 1e-5); // the cubic between samples of 0.25 m

        Assert.Contains(
            Trial.WarningsOf(WithMeasured(), otherFile: Table(Even(500).Select(row => (row.X + 500, row.Left)))),
            warning => warning.Contains("the profile begins at 500.0 m and the run ends at 100.0 m", StringComparison.Ordinal));
        Assert.Contains("must be 0 or greater", Trial.FaultOf(WithMeasured(), otherFile: Table(Even(500).Select(row => (row.X - 1, row.Left)))).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Profile_and_measured_together_are_refused() =>
        Assert.Contains("measured", Trial.FaultOf(Trial.With("\"road\": {", "\"road\": { \"profile\": \"other.csv\", \"measured\": { \"file\": \"other.csv\" },"), otherFile: Table(Even(100))).ToString(), StringComparison.Ordinal);

    private const string Bump = "\"bump\": { \"length_m\": 2, \"height_mm\": 50 }";

    [Theory]
    [InlineData("\"ramp\": { \"length_m\": 0.001, \"height_mm\": 100000 }", "rises or falls by 100 m with a slope of 1E+05")]
    [InlineData("\"sine\": { \"wavelength_m\": 3, \"amplitude_mm\": -100000, \"cycles\": 2 }", "rises or falls by 100 m with a slope of 209")]
    [InlineData("\"step\": { \"height_mm\": 2000, \"edgeLength_m\": 0.001 }", "a slope of 1000 is the steepest accepted")]
    public void Obstacle_that_no_wheel_can_follow_is_refused_at_its_event(string shape, string reason)
    {
        var fault = Trial.FaultOf(Trial.With(Bump, shape));
        Assert.Equal(("manoeuvre.road.events[0]", 55), (fault.Key, fault.Line));
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Theory] // A kerb of 150 mm with an edge of 1 mm, and a hill.
    [InlineData("\"step\": { \"height_mm\": 150, \"edgeLength_m\": 0.001 }")]
    [InlineData("\"ramp\": { \"length_m\": 90, \"height_mm\": 20000 }")]
    public void Steep_or_high_obstacle_is_still_accepted(string shape) => Assert.NotNull(Trial.Read(Trial.With(Bump, shape)));

    [Fact]
    public void Profile_that_no_wheel_can_follow_is_refused_at_its_row()
    {
        var text = Trial.With("\"road\": {", "\"road\": { \"profile\": \"other.csv\",");
        var fault = Trial.FaultOf(text, otherFile: "distance_m,left_mm\n0,0\n1,20000\n200,0\n");
        Assert.Equal(("other.csv", 3, "left_mm"), (fault.File, fault.Line, fault.Key));
        Assert.Contains("rises or falls by 20 m with a slope of 20", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Resampling_into_more_samples_than_find_room_is_refused_with_what_would_do()
    {
        var rows = Table(Enumerable.Range(0, 5).Select(i => (i * 5000.0, 0.0)));
        var fault = Trial.FaultOf(WithMeasured(", \"spacing_mm\": 1"), otherFile: rows);
        Assert.Equal("manoeuvre.road.measured.spacing_mm", fault.Key);
        Assert.Contains("this makes 20000000 samples; at most 10000000 are accepted: give at least 2 mm", fault.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"targets\": { \"rollDampingRatioMinimum\": 0.2, \"heaveDampingRatioMinimum\": 0.2, \"heaveDampingRatioMaximum\": 0.3, \"damperVelocity_m_per_s\": 1e-320 },", "targets.damperVelocity_m_per_s", "from 0.001 to 10")]
    public void Absurd_number_is_refused_at_its_key(string more, string key, string reason)
    {
        var fault = Trial.FaultOf(Trial.With("\"layouts\": [", more + " \"layouts\": ["));
        Assert.Equal(key, fault.Key);
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }
}
