using System.Globalization;
using CsCheck;

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

    // Times as people write them and as programs do: no sample may fall beyond the end of what was integrated.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(15)]
    public void Read_any_times_of_a_steering_event_is_understood(int decimals)
    {
        double Rounded(double value) => Math.Round(value, decimals);
        Gen.Select(Gen.Double[0.5, 12], Gen.Double[0.1, 10], Gen.Double[0.1, 1]).SampleSame(120, times =>
        {
            var (duration, start, ramp) = (Rounded(times.Item1), Rounded(times.Item2), Rounded(times.Item3));
            var text = Trial.With(Trial.Cornering, Trial.Steering)
                .Replace("\"duration_s\": 5", $"\"duration_s\": {duration.ToString("R", CultureInfo.InvariantCulture)}", StringComparison.Ordinal)
                .Replace("\"start_s\": 2,", $"\"start_s\": {start.ToString("R", CultureInfo.InvariantCulture)},", StringComparison.Ordinal)
                .Replace("\"rampDuration_s\": 0.3", $"\"rampDuration_s\": {ramp.ToString("R", CultureInfo.InvariantCulture)}", StringComparison.Ordinal);
            var cornering = Trial.Read(text).Study.Manoeuvre.Cornering;

            // ay = V ψ̇ in steady state, whenever the ramp begins: 30 deg of the wheel at 72 km/h, by the textbook's L + K V².
            const double v = 20, mass = 2000, a = 1.4, b = 1.5, front = 95e3, rear = 110e3;
            var understeer = mass * ((b * rear) - (a * front)) / ((a + b) * front * rear);
            Assert.Equal(v * v * 30 / 17 * Math.PI / 180 / (a + b + (understeer * v * v)), cornering.FinalLateralAcceleration, 1e-9);
        });
    }

    [Theory]
    [InlineData("6.7", "2.1", "0.3")] // 2.4 + 4.3·200/200 is 6.700000000000001.
    [InlineData("6.86", "1.7", "0.2")]
    public void Read_times_whose_sum_is_rounded_up_are_understood(string duration, string start, string ramp)
    {
        var text = Trial.With(Trial.Cornering, Trial.Steering)
            .Replace("\"duration_s\": 5", $"\"duration_s\": {duration}", StringComparison.Ordinal)
            .Replace("\"start_s\": 2,", $"\"start_s\": {start},", StringComparison.Ordinal)
            .Replace("\"rampDuration_s\": 0.3", $"\"rampDuration_s\": {ramp}", StringComparison.Ordinal);
        Assert.NotNull(Trial.Read(text).Study.Manoeuvre.Cornering);
    }

    [Theory]
    [InlineData("-1e6,0\n5,10\n", 2, "time_s", "from -7200 to 1000000 is expected: times count from the start of the run")]
    [InlineData("0,0\n5,1e5\n", 3, "steeringWheelAngle_deg", "from -10000 to 10000 is expected: no steering wheel turns so often")]
    public void Read_steering_record_out_of_all_proportion_is_refused_at_its_line(string rows, int line, string column, string reason)
    {
        var text = Trial.With(Trial.Cornering, Trial.Steering.Replace(
            "\"events\": [ { \"start_s\": 2, \"amplitude_deg\": 30, \"rampStep\": { \"rampDuration_s\": 0.3 } } ]", "\"file\": \"other.csv\"", StringComparison.Ordinal));
        var fault = Trial.FaultOf(text, otherFile: "time_s,steeringWheelAngle_deg\n" + rows);
        Assert.Equal(("other.csv", line, column), (fault.File, fault.Line, fault.Key));
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }
}
