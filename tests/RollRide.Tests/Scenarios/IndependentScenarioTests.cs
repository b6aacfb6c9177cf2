namespace RollRide.Tests.Scenarios;

/// <summary>What the two kinds of suspension ask for differently.</summary>
public class IndependentScenarioTests
{
    private const string AxleInertia = ",\n      \"axleRollInertia_kg_m2\": 50";
    private const string Mounts = "\"mounts\": { \"axleEnd_mm\": [0, 600, 300], \"bodyEnd_mm\": [0, 600, 750] }";
    private const string Arm = "\"arm\": { \"pivot_mm\": [300, 200], \"outerJoint_mm\": [700, 200], \"armMount_mm\": [500, 200], \"bodyMount_mm\": [500, 600] }";

    private static string Independent => Trial.With("\"liveAxle\"", "\"independent\"")
        .Replace(AxleInertia, "", StringComparison.Ordinal)
        .Replace("\"roll\": 0.65", "\"roll\": 1", StringComparison.Ordinal)
        .Replace("\"roll\": 0.5 ", "\"roll\": 1 ", StringComparison.Ordinal)
        .Replace(Mounts, Arm, StringComparison.Ordinal);

    [Fact]
    public void Read_arm_gives_one_ratio_for_heave_and_roll()
    {
        // Upright at half of a level arm: 0.5 (lever, exact).
        var fitting = Trial.Read(Independent).Study.Layouts[0].Fitting;
        Assert.Equal(0.5, fitting.HeaveRatio, 12);
        Assert.Equal(0.5, fitting.RollRatio, 12);
    }

    [Fact]
    public void Read_all_live_axle_keys_on_an_independent_axle_are_refused_at_once()
    {
        var faults = Trial.FaultsOf(Trial.With("\"liveAxle\"", "\"independent\""));
        Assert.Equal(
            [
                (16, "vehicle.unsprung.axleRollInertia_kg_m2"), (20, "vehicle.springs.placement.motionRatios.roll"),
                (41, "layouts[0].placement.mounts"), (46, "layouts[1].placement.motionRatios.roll"),
            ],
            faults.Select(fault => (fault.Line!.Value, fault.Key!)));
        Assert.Contains("leave this key out", faults[0].Reason, StringComparison.Ordinal);
        Assert.Contains("must equal heave (1)", faults[1].Reason, StringComparison.Ordinal);
        Assert.Contains("this vehicle has independent suspension; give arm or motionRatios", faults[2].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_arm_joint_inboard_of_its_pivot_is_refused()
    {
        var fault = Trial.FaultOf(Independent.Replace("\"outerJoint_mm\": [700", "\"outerJoint_mm\": [200", StringComparison.Ordinal));
        Assert.Equal("layouts[0].placement.arm.outerJoint_mm", fault.Key);
        Assert.Contains("outer joint (y = 200 mm) must lie outboard of its pivot (y = 300 mm)", fault.Reason, StringComparison.Ordinal);
    }
}
