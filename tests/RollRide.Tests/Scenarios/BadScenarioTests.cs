namespace RollRide.Tests.Scenarios;

/// <summary>Every kind of mistake in a scenario: the message has the line, the key, the value and what is accepted.</summary>
public class BadScenarioTests
{
    private const string Mounts = "\"axleEnd_mm\": [0, 600, 300], \"bodyEnd_mm\": [0, 600, 750]";
    private const string Spring = "\"rate_N_per_mm\": 45,";
    private const string Bump = "\"bump\": { \"length_m\": 2, \"height_mm\": 50 }";
    private const string Phases = "\"duration_s\": 5,";

    [Theory]
    // Keys and kinds of values.
    [InlineData("\"mass_kg\": 1000", "\"mass_kg\": 1000, \"colour\": 1", 9, "vehicle.body.colour", "1", "unknown key; known here: mass_kg, rollInertia_kg_m2, cgHeight_mm")]
    [InlineData("\"antiRollBar_N_m_per_deg\": 300", "\"antiRollBar_N_m_per_rad\": 300", 25, "vehicle.antiRollBar_N_m_per_rad", "300", "the unit is in the key: did you mean antiRollBar_N_m_per_deg?")]
    [InlineData("\"mass_kg\": 1000,", "", 8, "vehicle.body.mass_kg", null, "this key is missing: sprung mass on this axle; a number from 1 to 100000 is expected")]
    [InlineData("\"mass_kg\": 1000", "\"mass_kg\": -1000", 9, "vehicle.body.mass_kg", "-1000", "a number from 1 to 100000 is expected")]
    [InlineData("\"mass_kg\": 1000", "\"mass_kg\": \"1000\"", 9, "vehicle.body.mass_kg", "1000", "without quotes")]
    [InlineData("\"cgHeight_mm\": 800", "\"cgHeight_mm\": -800", 11, "vehicle.body.cgHeight_mm", "-800", "a number from 1 to 10000 is expected")]
    [InlineData("\"liveAxle\"", "\"liveaxle\"", 5, "vehicle.suspension", "liveaxle", "did you mean liveAxle?")]
    [InlineData("\"mass_kg\": 1000,", "\"mass_kg\": 1000, \"mass_kg\": 900,", 9, "vehicle.body.mass_kg", null, "twice")]
    [InlineData("\"side\": \"left\"", "\"side\": \"middle\"", 55, "manoeuvre.road.events[0].side", "middle", "\"left\", \"right\", \"both\"")]
    // Alternatives.
    [InlineData(Spring, Spring + " \"tableFromRideHeight\": { \"compression_mm\": [0, 1], \"force_N\": [0, 40] },", 18, "vehicle.springs", null, "at most one of rate_N_per_mm, tableFromFreeLength, tableFromRideHeight is expected")]
    [InlineData(Spring, "", 18, "vehicle.springs", null, "exactly one of rate_N_per_mm, tableFromFreeLength, tableFromRideHeight is expected; found: none")]
    [InlineData(Spring, "\"left\": { \"rate_N_per_mm\": 45 },", 18, "vehicle.springs.right", null, "the right spring has neither rate nor table: give one of rate_N_per_mm, tableFromFreeLength, tableFromRideHeight here")]
    [InlineData(Spring, "\"right\": { \"rate_N_per_mm\": 45 }, \"left\": { \"preloadChange_N\": 100 },", 19, "vehicle.springs.left", null, "the left spring has neither rate nor table")]
    [InlineData(Spring, Spring + " \"left\": { \"tableFromFreeLength\": { \"compression_mm\": [0, 100], \"force_N\": [0, 4000] } },", 19, "vehicle.springs.left.tableFromFreeLength.force_N", null, "each spring must carry")]
    [InlineData("{ \"dyno\": \"dyno.csv\" }", "{ \"gasForce_N\": 100 }", 36, "dampers[\"rear soft\"]", null, "exactly one of curve, dyno is expected; found: none")]
    [InlineData(Bump, Bump + ", \"ramp\": { \"length_m\": 2, \"height_mm\": 50 }", 55, "manoeuvre.road.events[0]", null, "exactly one of bump, ramp, step, pothole, sine, sweptSine is expected")]
    // Vehicle.
    [InlineData("\"axleRollInertia_kg_m2\": 50", "\"axleRollInertia_kg_m2\": 0", 16, "vehicle.unsprung.axleRollInertia_kg_m2", "0", "from 0.01 to 1000000")]
    [InlineData(",\n      \"axleRollInertia_kg_m2\": 50", "", 13, "vehicle.unsprung.axleRollInertia_kg_m2", null, "a live axle needs its own roll inertia")]
    [InlineData("\"damping_N_s_per_m\": 300 }", "\"dualSpacing_mm\": 1700 }", 26, "vehicle.tyres.dualSpacing_mm", "1700", "wider than the track (1600 mm)")]
    [InlineData("\"damping_N_s_per_m\": 300 }", "\"damping_N_s_per_m\": 30000 }", 26, "vehicle.tyres.damping_N_s_per_m", "30000", "the axle does not oscillate, so it has no modes to find")]
    [InlineData("{ \"heave\": 1, \"roll\": 0.65 }", "{ \"heave\": 0, \"roll\": 0.65 }", 20, "vehicle.springs.placement", null, "must be greater than 0 to carry the body")]
    [InlineData("{ \"heave\": 1, \"roll\": 0.65 }", "{ \"heave\": 1e-9, \"roll\": 0.65 }", 18, "vehicle.springs", null, "one motion of the vehicle has almost no stiffness")]
    [InlineData("\"atCompression_mm\": 30", "\"atCompression_mm\": 30, \"placement\": { \"motionRatios\": { \"heave\": 0, \"roll\": 1 } }", 23, "vehicle.bumpStops.placement", null, "with 0 the stop would never touch")]
    [InlineData("\"antiRollBar_N_m_per_deg\": 300", "\"antiRollBar_N_m_per_deg\": 0, \"seatOffset_mm\": 5001", 25, "vehicle.seatOffset_mm", "5001", "from -5000 to 5000")]
    [InlineData("\"cgHeight_mm\": 800", "\"cgHeight_mm\": 8000", 25, "vehicle.antiRollBar_N_m_per_deg", "300", "the body cannot stand")]
    // Friction of springs.
    [InlineData(Spring, Spring + " \"friction\": { \"force_N\": 300 },", 19, "vehicle.springs.friction.force_N", "300", "also needs buildUp_mm")]
    [InlineData(Spring, Spring + " \"friction\": { \"force_N\": 0, \"buildUp_mm\": 3 },", 19, "vehicle.springs.friction.buildUp_mm", "3", "there is no friction that builds up")]
    [InlineData(Spring, Spring + " \"friction\": { \"loop\": \"none.csv\", \"buildUp_mm\": 3 },", 19, "vehicle.springs.friction.buildUp_mm", "3", "the build-up follows from the loop (line 19)")]
    // Gas.
    [InlineData("\"closedLength_mm\": 300", "\"gas\": { \"absolutePressure_bar\": 0.8, \"volume_cm3\": 100, \"rodDiameter_mm\": 12 }", 34, "dampers.soft.gas.absolutePressure_bar", "0.8", "would pull the rod in")]
    [InlineData("\"closedLength_mm\": 300", "\"gasForce_N\": 100, \"gas\": { \"gaugePressure_bar\": 20, \"volume_cm3\": 100, \"rodDiameter_mm\": 12 }", 34, "dampers.soft.gasForce_N", "100", "leave out one of the two")]
    [InlineData("\"closedLength_mm\": 300", "\"gas\": { \"gaugePressure_bar\": 20, \"volume_cm3\": 100, \"rodDiameter_mm\": 12, \"pistonDiameter_mm\": 12 }", 34, "dampers.soft.gas.pistonDiameter_mm", "12", "the piston must be thicker than its rod (12 mm)")]
    [InlineData("\"closedLength_mm\": 300", "\"closedLength_mm\": 300, \"gas\": { \"gaugePressure_bar\": 20, \"volume_cm3\": 10, \"rodDiameter_mm\": 12 }", 34, "dampers.soft.gas.volume_cm3", "10", "the rod displaces all of this volume within 88.4 mm: it could not close")]
    [InlineData("\"closedLength_mm\": 300", "\"gas\": { \"gaugePressure_bar\": 200, \"volume_cm3\": 500, \"rodDiameter_mm\": 22 }", 34, "dampers.soft.gas", null, "so nothing is left for the springs; less is needed")]
    // Spring tables.
    [InlineData(Spring, "\"tableFromFreeLength\": { \"compression_mm\": [0, 100], \"force_N\": [0, 4000] },", 19, "vehicle.springs.tableFromFreeLength.force_N", null, "each spring must carry 4903 N at ride height, but the table covers 0 N to 4000 N")]
    [InlineData(Spring, "\"tableFromFreeLength\": { \"compression_mm\": [0, 100, 200], \"force_N\": [0, 7000, 6000] },", 19, "vehicle.springs.tableFromFreeLength.force_N[2]", "6000", "the force falls from 7000 N")]
    [InlineData(Spring, "\"tableFromFreeLength\": { \"compression_mm\": [0, 100, 100], \"force_N\": [0, 7000, 8000] },", 19, "vehicle.springs.tableFromFreeLength.compression_mm[2]", "100", "compressions must ascend, each given once")]
    [InlineData(Spring, "\"tableFromFreeLength\": { \"compression_mm\": [0, 100], \"force_N\": [0, 7000, 8000] },", 19, "vehicle.springs.tableFromFreeLength", null, "compression_mm has 2 values and force_N has 3")]
    [InlineData(Spring, "\"tableFromRideHeight\": { \"compression_mm\": [-50, 50], \"force_N\": [1000, 9000] },", 19, "vehicle.springs.tableFromRideHeight.force_N", null, "one point of the table must be 0 N at 0 mm; total forces belong in tableFromFreeLength")]
    [InlineData(Spring, "\"tableFromRideHeight\": { \"compression_mm\": [-50, 0, 50], \"force_N\": [0, 0, 0] },", 18, "vehicle.springs", null, "nothing holds the body at ride height")]
    // Placements.
    [InlineData(Mounts, "\"axleEnd_mm\": [0, 600], \"bodyEnd_mm\": [0, 600, 750]", 41, "layouts[0].placement.mounts.axleEnd_mm", null, "a list of 3 is expected; this has 2")]
    [InlineData(Mounts, "\"axleEnd_mm\": [0, 600, 300], \"bodyEnd_mm\": [0, 600, 300]", 41, "layouts[0].placement.mounts.bodyEnd_mm", null, "at least 1 mm apart; they lie 0 mm apart")]
    [InlineData(Mounts, "\"axleEnd_mm\": [0, 0.6, 0.3], \"bodyEnd_mm\": [0, 0.6, 0.78093]", 41, "layouts[0].placement.mounts.bodyEnd_mm", null, "they lie 0.481 mm apart; positions are in mm: are these metres?")]
    [InlineData(Mounts, "\"axleEnd_mm\": [0, 600, 480], \"bodyEnd_mm\": [0, 600, 750]", 41, "layouts[0].placement", null, "the mounts are 270.0 mm apart at ride height, but damper “soft” is 300 mm long when closed: 30.0 mm are missing")]
    [InlineData(Mounts, "\"axleEnd_mm\": [0, 600, -300], \"bodyEnd_mm\": [0, 600, 750]", 41, "layouts[0].placement.mounts.axleEnd_mm[2]", "-300", "under the road")]
    [InlineData(Mounts, "\"axleEnd_mm\": [0, 600, 750], \"bodyEnd_mm\": [0, 600, 300]", 41, "layouts[0].placement", null, "heave ratio is -1; it must be greater than 0")]
    [InlineData("\"mounts\": { " + Mounts + " }", "\"arm\": { \"pivot_mm\": [300, 200], \"outerJoint_mm\": [700, 200], \"armMount_mm\": [500, 200], \"bodyMount_mm\": [500, 600] }", 41, "layouts[0].placement.arm", null, "this vehicle has a live axle; give mounts or motionRatios")]
    [InlineData("\"roll\": 0.5 }", "\"roll\": -0.5 }", 46, "layouts[1].placement.motionRatios.roll", "-0.5", "from 0 to 3")]
    // Layouts.
    [InlineData("\"name\": \"In\"", "\"name\": \"out\"", 45, "layouts[1].name", "out", "layouts[0] has this name; each layout needs its own")]
    [InlineData("\"damper\": \"soft\"", "\"damper\": \"sofd\"", 42, "layouts[0].damper", "sofd", "there is no such damper; did you mean soft? known: soft, rear soft")]
    // Curves in the file.
    [InlineData("[-0.5, -0.1, 0, 0.1, 0.5]", "[-0.5, -0.1, -0.1, 0.1, 0.5]", 31, "dampers.soft.curve.velocity_m_per_s[2]", "-0.1", "velocities must ascend, each given once")]
    [InlineData("[-0.5, -0.1, 0, 0.1, 0.5]", "[-0.5, -0.1, 0, 1e-12, 0.5]", 31, "dampers.soft.curve.velocity_m_per_s[3]", "1e-12", "the force changes by 300 N within 1E-12 m/s")]
    [InlineData("[-0.5, -0.1, 0, 0.1, 0.5]", "[0.1, 0.2, 0.3, 0.4, 0.5]", 31, "dampers.soft.curve.velocity_m_per_s", null, "rebound (v < 0) has no points; a curve needs both directions")]
    [InlineData("[-0.5, -0.1, 0, 0.1, 0.5]", "[-0.5, -0.4, -0.3, -0.1, 0]", 31, "dampers.soft.curve.velocity_m_per_s", null, "compression (v > 0) has no points")]
    [InlineData("[-0.5, -0.1, 0, 0.1, 0.5]", "[-0.5, -0.1, 0.1, 0.5]", 30, "dampers.soft.curve", null, "velocity_m_per_s has 4 values and force_N has 5")]
    [InlineData("[-1500, -500, 0, 300, 900]", "[-1500, -500, 0, -1, 900]", 32, "dampers.soft.curve.force_N[3]", "-1", "at 0.1 m/s the force of -1 N pushes the way the damper moves")]
    [InlineData("[-1500, -500, 0, 300, 900]", "[-1500, -500, 1, 300, 900]", 32, "dampers.soft.curve.force_N[2]", "1", "needs 0 N at 0 m/s")]
    [InlineData("[-1500, -500, 0, 300, 900]", "[1500, 500, 0, -300, -900]", 32, "dampers.soft.curve.force_N[0]", "1500", "turn the sign of the forces or of the velocities")]
    [InlineData("[-0.5, -0.1, 0, 0.1, 0.5],\n        \"force_N\": [-1500, -500, 0, 300, 900]", "[-0.5, -0.1, 0.1, 0.5],\n        \"force_N\": [-1500, -500, 300, 900]", 32, "dampers.soft.curve.force_N", null, "the force at rest (0 m/s) is -100 N")]
    [InlineData("\"closedLength_mm\": 300", "\"closedLength_mm\": 300, \"extendedLength_mm\": 290", 34, "dampers.soft.closedLength_mm", "300", "less than the extended length (290 mm)")]
    [InlineData("\"closedLength_mm\": 300", "\"extendedLength_mm\": 400", 41, "layouts[0].placement", null, "damper “soft” reaches only 400 mm when extended: 50.0 mm are missing")]
    [InlineData("\"closedLength_mm\": 300", "\"gasForce_N\": 5000", 34, "dampers.soft.gasForce_N", "5000", "the gas lifts 5000 N a side at the wheel and the body weighs 4903 N a side")]
    [InlineData("[-1500, -500, 0, 300, 900]\n      },", "[-1500, -500, 0, 300, 300]\n      }, \"topMountStiffness_N_per_mm\": 500,", 33, "dampers.soft.topMountStiffness_N_per_mm", "500", "the force must rise with velocity everywhere")]
    // Manoeuvre.
    [InlineData("\"speed_km_per_h\": 72", "\"speed_km_per_h\": 0", 51, "manoeuvre.speed_km_per_h", "0", "from 1 to 400")]
    [InlineData("\"side\": \"left\"", "\"side\": \"left\", \"lag_m\": 1", 55, "manoeuvre.road.events[0].lag_m", "1", "needs \"side\": \"both\"")]
    [InlineData(Bump, "\"pothole\": { \"length_m\": 0.2, \"depth_mm\": 50, \"edgeLength_m\": 0.1 }", 55, "manoeuvre.road.events[0].pothole.length_m", "0.2", "longer than its two edges")]
    [InlineData("\"amplitude_m_per_s2\": 3,", "\"amplitude_m_per_s2\": 30,", 60, "manoeuvre.cornering.lateralAcceleration.events[0].amplitude_m_per_s2", "30", "from -15 to 15")]
    [InlineData(Phases, Phases + " \"phases\": [{ \"name\": \"late\", \"start_s\": 4, \"end_s\": 6 }],", 52, "manoeuvre.phases[0].end_s", "6", "the phase ends after the run (5 s)")]
    [InlineData(Phases, Phases + " \"phases\": [{ \"name\": \"back\", \"start_s\": 4, \"end_s\": 3 }],", 52, "manoeuvre.phases[0].end_s", "3", "must end after its start (4 s)")]
    [InlineData(Phases, Phases + " \"phases\": [{ \"name\": \"blink\", \"start_s\": 4, \"end_s\": 4.0000000000001 }],", 52, "manoeuvre.phases[0].end_s", "4.0000000000001", "by a nanosecond at least")]
    [InlineData(Phases, Phases + " \"phases\": [{ \"name\": \"a\", \"start_s\": 0, \"end_s\": 1 }, { \"name\": \"A\", \"start_s\": 1, \"end_s\": 2 }],", 52, "manoeuvre.phases[1].name", "A", "each phase needs its own name")]
    // Settings.
    [InlineData("\"name\": \"Trial\",", "\"name\": \"Trial\", \"analysis\": { \"damperVelocities_m_per_s\": [0.1, 0.2, 0.1] },", 2, "analysis.damperVelocities_m_per_s[2]", "0.1", "twice")]
    [InlineData("\"name\": \"Trial\",", "\"name\": \"Trial\", \"analysis\": { \"damperVelocities_m_per_s\": [] },", 2, "analysis.damperVelocities_m_per_s", null, "a list of 1 to 1000 is expected; this has 0")]
    [InlineData("\"name\": \"Trial\",", "\"name\": \"Trial\", \"solver\": { \"relativeTolerance\": 0 },", 2, "solver.relativeTolerance", "0", "from 1E-12 to 0.001")]
    public void Read_refuses_with_line_key_value_and_what_is_accepted(string old, string replacement, int line, string key, string? value, string reason)
    {
        var fault = Trial.FaultsOf(Trial.With(old, replacement))[0];
        Assert.Equal(("trial.json", line, key, value), (fault.File, fault.Line, fault.Key, fault.Value));
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }
}
