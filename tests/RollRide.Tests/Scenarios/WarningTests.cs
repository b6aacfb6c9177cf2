namespace RollRide.Tests.Scenarios;

/// <summary>What is possible but not plausible is read, with a warning that has its place.</summary>
public class WarningTests
{
    private const string Bump = "\"bump\": { \"length_m\": 2, \"height_mm\": 50 }";

    [Theory]
    [InlineData("\"track_mm\": 1600", "\"track_mm\": 700", "trial.json:6: vehicle.track_mm = 700: road vehicles have 800 to 3000 mm")]
    [InlineData("\"cgHeight_mm\": 800", "\"cgHeight_mm\": 430", "trial.json:7: vehicle.rollCentreHeight_mm = 450: the roll centre lies above the centre of gravity")]
    [InlineData("\"rollInertia_kg_m2\": 400", "\"rollInertia_kg_m2\": 4", "trial.json:10: vehicle.body.rollInertia_kg_m2 = 4: its radius of gyration is 0.04 of the track")]
    [InlineData("\"mass_kg\": 150", "\"mass_kg\": 1500", "trial.json:14: vehicle.unsprung.mass_kg = 1500: the unsprung mass is more than the sprung mass")]
    [InlineData("\"axleRollInertia_kg_m2\": 50", "\"axleRollInertia_kg_m2\": 55e3", "trial.json:16: vehicle.unsprung.axleRollInertia_kg_m2 = 55e3: its radius of gyration is 11.97 of the track")]
    [InlineData("\"closedLength_mm\": 300", "\"friction_N\": 3000", "trial.json:34: dampers.soft.friction_N = 3000: the friction is more than the largest force of the curve (1500 N)")]
    [InlineData("[-1500, -500, 0, 300, 900]", "[-360, -120, 0, 300, 900]", "trial.json:30: dampers.soft.curve: rebound gives 0.40 of the compression force at 0.5 m/s; most dampers give as much in rebound or more: are the directions swapped?")]
    [InlineData("\"height_mm\": 50", "\"height_mm\": 500", "trial.json:55: manoeuvre.road.events[0]: the bump is 500 mm high and 2 m long")]
    [InlineData("\"stiffness_N_per_mm\": 250", "\"stiffness_N_per_mm\": 25000", "trial.json:26: vehicle.tyres.stiffness_N_per_mm = 25000: at rest the tyre is pressed in by 0.2 mm")]
    [InlineData("\"damping_N_s_per_m\": 300 }", "\"damping_N_s_per_m\": 300 }, \"seatOffset_mm\": 3000", "trial.json:26: vehicle.seatOffset_mm = 3000: the seat lies outside the vehicle")]
    [InlineData("\"damping_N_s_per_m\": 300 }", "\"damping_N_s_per_m\": 300 }, \"seatOffset_mm\": 0.42", "trial.json:26: vehicle.seatOffset_mm = 0.42: the seat lies 0.42 mm off the centre plane: is this one in m?")]
    [InlineData("\"antiRollBar_N_m_per_deg\": 300", "\"antiRollBar_N_m_per_deg\": 34377", "trial.json:25: vehicle.antiRollBar_N_m_per_deg = 34377: the bar alone would hold roll to 0.10 deg per g: is this one in N·m per rad?")]
    [InlineData("\"roll\": 0.65", "\"roll\": 2.62", "trial.json:20: vehicle.springs.placement: the springs' roll ratio is 2.62")]
    [InlineData("\"rollCentreHeight_mm\": 450", "\"rollCentreHeight_mm\": -500", "trial.json:7: vehicle.rollCentreHeight_mm = -500: the roll centre lies 500 mm below the road")]
    [InlineData("\"rate_N_per_mm\": 45", "\"rate_N_per_mm\": 4500", "trial.json:18: vehicle.springs: on these springs the body's natural frequency in heave is 15.10 Hz")]
    [InlineData("[-1500, -500, 0, 300, 900]", "[-1.5, -0.5, 0, 0.3, 0.9]", "trial.json:30: dampers.soft.curve: the largest force of the curve is 1.5 N; dampers give hundreds or thousands of newtons: are these kN?")]
    [InlineData("[-0.5, -0.1, 0, 0.1, 0.5]", "[-500, -100, 0, 100, 500]", "trial.json:30: dampers.soft.curve: the curve reaches 500 m/s; dampers seldom pass 3 m/s: are these mm/s?")]
    [InlineData("[-0.5, -0.1, 0, 0.1, 0.5]", "[-0.5, -0.1, 0, 0.05, 0.09]", "trial.json:30: dampers.soft.curve: the curve covers -0.5 to 0.09 m/s")]
    [InlineData("[-1500, -500, 0, 300, 900]", "[-1500, -500, 0, 300, 200]", "trial.json:30: dampers.soft.curve: the force falls with velocity at the end of the curve (0.5 m/s); extended straight, it would push beyond 1.30 m/s")]
    [InlineData("\"closedLength_mm\": 300", "\"forceScale\": 20", "trial.json:42: layouts[0].damper = soft: at 0.13 m/s these dampers give the body a damping ratio of about")]
    [InlineData("\"damper\": \"soft\"", "\"damper\": \"rear soft\"", "trial.json:29: dampers.soft: no layout uses this damper")]
    [InlineData("[0, 600, 300]", "[0, -600, 300]", "trial.json:41: layouts[0].placement.mounts.axleEnd_mm[1] = -600: the left element stands right of the centre plane")]
    [InlineData("\"roll\": 0.5 }", "\"roll\": 1.5 }", "trial.json:46: layouts[1].placement: the damper's roll ratio is 1.50: it stands well outside the tyre contact")]
    [InlineData("\"dyno\": \"dyno.csv\"", "\"dyno\": \"dyno.csv\", \"closedLength_mm\": 300", "trial.json:46: layouts[1].placement: ratios alone do not tell the distance between mounts, so the lengths of damper “rear soft” are not checked")]
    [InlineData("\"start_m\": 10", "\"start_m\": 120", "trial.json:55: manoeuvre.road.events[0].start_m = 120: the run ends after 100.0 m, before this obstacle")]
    [InlineData("\"start_m\": 10", "\"start_m\": 99", "trial.json:55: manoeuvre.road.events[0].start_m = 99: the run ends after 100.0 m, before the end of this obstacle at 101.0 m")]
    [InlineData("\"start_m\": 10, \"side\": \"left\"", "\"start_m\": 96, \"side\": \"both\", \"lag_m\": 3", "trial.json:55: manoeuvre.road.events[0].start_m = 96: the run ends after 100.0 m, before the end of this obstacle at 101.0 m")]
    [InlineData("\"start_m\": 10, \"side\": \"left\"", "\"start_m\": 96, \"side\": \"both\", \"lag_m\": -3", "trial.json:55: manoeuvre.road.events[0].start_m = 96: the run ends after 100.0 m, before the end of this obstacle at 101.0 m")]
    [InlineData("\"height_mm\": 50", "\"height_mm\": 0.05", "trial.json:55: manoeuvre.road.events[0]: the obstacle is 0.05 mm high; heights are in mm: is this one in m?")]
    [InlineData(Bump, "\"ramp\": { \"length_m\": 50, \"height_mm\": 5000 }", "trial.json:55: manoeuvre.road.events[0]: the obstacle is 5.0 m high; heights are in mm")]
    [InlineData("\"start_s\": 2", "\"start_s\": 6", "trial.json:60: manoeuvre.cornering.lateralAcceleration.events[0].start_s = 6: the run ends at 5 s, before this event")]
    [InlineData("\"amplitude_m_per_s2\": 3,", "\"amplitude_m_per_s2\": 14,", "trial.json:59: manoeuvre.cornering.lateralAcceleration: the lateral acceleration reaches 14.0 m/s²; road tyres hold about 10")]
    public void Read_warns_with_the_place(string old, string replacement, string warning)
    {
        var warnings = Trial.WarningsOf(Trial.With(old, replacement));
        Assert.Contains(warnings, text => text.StartsWith(warning, StringComparison.Ordinal));
    }

    [Fact]
    public void Read_long_run_at_a_high_rate_is_warned_of_and_then_refused()
    {
        string Text(int seconds) => Trial.With("\"duration_s\": 5", $"\"duration_s\": {seconds}").Replace("\"name\": \"Trial\",", "\"name\": \"Trial\", \"output\": { \"rate_Hz\": 10000 },", StringComparison.Ordinal);
        Assert.Contains("2000000 rows per layout", Assert.Single(Trial.WarningsOf(Text(200))), StringComparison.Ordinal);
        Assert.Equal("output.rate_Hz", Trial.FaultOf(Text(2000)).Key);
        Assert.Empty(Trial.Read(Text(2000), isRecorded: false).Warnings);
    }
}
