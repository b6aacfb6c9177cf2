namespace RollRide.Tests.Scenarios;

/// <summary>What the single-track model of a scenario can get wrong.</summary>
public class SteeringTests
{
    [Theory]
    [InlineData("\"rearCorneringStiffness_kN_per_rad\": 110", "\"rearCorneringStiffness_kN_per_rad\": 50", "manoeuvre.cornering.steering.singleTrack", "above its critical speed of")]
    [InlineData("\"mass_kg\": 2000", "\"mass_kg\": 900", "manoeuvre.cornering.steering.singleTrack.mass_kg", "cannot weigh less than this one axle with its share of the body (1150 kg)")]
    [InlineData("\"yawInertia_kg_m2\": 3500", "\"yawInertia_kg_m2\": 3.5", "manoeuvre.cornering.steering.singleTrack", "would answer the steering within")]
    [InlineData("\"steeringRatio\": 17", "\"steeringRatio\": -17", "manoeuvre.cornering.steering.singleTrack.steeringRatio", "from 0.1 to 1000")]
    public void Read_impossible_vehicle_is_refused(string old, string replacement, string key, string reason)
    {
        var fault = Trial.FaultOf(Trial.With(Trial.Cornering, Trial.Steering.Replace(old, replacement, StringComparison.Ordinal)));
        Assert.Equal(key, fault.Key);
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"cgToFrontAxle_mm\": 1400, \"cgToRearAxle_mm\": 1500", "\"cgToFrontAxle_mm\": 640, \"cgToRearAxle_mm\": 660", "cgToFrontAxle_mm = 640: the wheelbase is 1300 mm")]
    [InlineData("\"frontCorneringStiffness_kN_per_rad\": 95", "\"frontCorneringStiffness_kN_per_rad\": 9.5", "frontCorneringStiffness_kN_per_rad = 9.5: this is 0.9 times the axle's load per rad")]
    [InlineData("\"yawInertia_kg_m2\": 3500", "\"yawInertia_kg_m2\": 350", "yawInertia_kg_m2 = 350: its radius of gyration is 0.14 of the wheelbase")]
    [InlineData("\"steeringRatio\": 17", "\"steeringRatio\": 1.7", "steeringRatio = 1.7: road vehicles have 5 to 40")]
    [InlineData("\"amplitude_deg\": 30", "\"amplitude_deg\": 300", "the lateral acceleration reaches")]
    public void Read_implausible_vehicle_is_warned_of(string old, string replacement, string warning)
    {
        var warnings = Trial.WarningsOf(Trial.With(Trial.Cornering, Trial.Steering.Replace(old, replacement, StringComparison.Ordinal)));
        Assert.Contains(warnings, text => text.Contains(warning, StringComparison.Ordinal));
    }

    [Fact]
    public void Read_steering_record_is_in_degrees()
    {
        var text = Trial.With(Trial.Cornering, Trial.Steering.Replace(
            "\"events\": [ { \"start_s\": 2, \"amplitude_deg\": 30, \"rampStep\": { \"rampDuration_s\": 0.3 } } ]", "\"file\": \"other.csv\"", StringComparison.Ordinal));
        var given = Trial.Read(Trial.With(Trial.Cornering, Trial.Steering)).Study.Manoeuvre.Cornering;
        var record = Trial.Read(text, otherFile: "time_s,steeringWheelAngle_deg\n0,0\n2,0\n2.3,30\n5,30\n").Study.Manoeuvre.Cornering;
        Assert.Equal(given.FinalLateralAcceleration, record.FinalLateralAcceleration, 12);
    }
}
