using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.DataFiles;
using RollRide.Vehicle;

namespace RollRide.Tests.Scenarios;

/// <summary>The vehicle around the axle as a file gives it: what becomes of it, how payload is shared, and what is refused.</summary>
public sealed class WholeVehicleTests
{
    private const double DegPerRad = 180 / Math.PI;

    [Fact]
    public void ShippedVan_IsTwoAxlesOnOneFrame()
    {
        var vehicle = Read("rescue-van-whole.json").Vehicle;
        var second = vehicle.SecondAxle!;
        Assert.Equal(Axle.Front, second.Place);
        Assert.Equal((3.45, 2600 * DegPerRad, 5600.0), (second.Chassis.Wheelbase, second.Chassis.TorsionalStiffness!.Value, second.Chassis.PitchInertia!.Value), Near);
        Assert.Equal((1215.0, 130.0, 1.64), (second.Vehicle.Body.Mass, second.Vehicle.Unsprung.Mass, second.Vehicle.Track), Near);
        Assert.Equal(0.84, second.Layout.Fitting.RollRatio, 1e-12);
        Assert.False(second.IsEstimated);

        // The stretcher stands 2.5 m behind the front axle, so 0.95 m ahead of the rear one.
        Assert.Equal(0.95, vehicle.SeatTowardsSecondAxle, 1e-12);
        Assert.Equal(3.45, Read("rescue-van-whole.json").Manoeuvre.Road.Wheelbase);

        static bool Near((double, double, double) a, (double, double, double) b) =>
            Math.Abs(a.Item1 - b.Item1) < 1e-9 && Math.Abs(a.Item2 - b.Item2) < 1e-6 && Math.Abs(a.Item3 - b.Item3) < 1e-9;
    }

    [Fact]
    public void Payload_LoadsBothAxlesByItsLeverArms()
    {
        // 600 kg at 2.9 of 3.65 m: 476.7 kg on the rear axle, 123.3 in front. The front axle's 1480 kg of load are those of the design load, half of that payload.
        var study = Read("delivery-van.json");
        var (empty, half, full) = (study.Loads[0], study.Loads[1], study.Loads[2]);
        var rear = 2900.0 / 3650;
        Assert.Equal(900, empty.BodyMass!.Value, 1e-9);
        Assert.Equal(900 + (600 * rear), half.BodyMass!.Value, 1e-9);
        Assert.Equal(900 + (1200 * rear), full.BodyMass!.Value, 1e-9);
        var front = 1480 * (1 - 0.08);
        Assert.Equal(front - (600 * (1 - rear)), empty.OtherAxle!.BodyMass!.Value, 1e-9);
        Assert.Equal(front, half.OtherAxle!.BodyMass!.Value, 1e-9);
        Assert.Equal(front + (600 * (1 - rear)), full.OtherAxle!.BodyMass!.Value, 1e-9);
        Assert.Equal(front, study.Vehicle.SecondAxle!.Vehicle.Body.Mass, 1e-9);

        // The front sinks by Δm g/(2 k) on springs of 1.3 Hz: 123.3 · g/(mass · (2π 1.3)²).
        var settled = (study with { Load = full }).Settle(study.Layouts[0])!.Car.Second!.Vehicle;
        var sunk = 600 * (1 - rear) * HalfCar.StandardGravity * ((1 / (front * Math.Pow(2 * Math.PI * 1.3, 2))) + (1 / (2 * 280e3)));
        Assert.Equal(full.OtherAxle!.CgHeight!.Value - sunk, settled.Body.CgHeight, 1e-6);
    }

    [Fact]
    public void PitchInertia_WithPayload_IsThatOfParallelAxes()
    {
        // Bare body 1215 + 1350 kg, its centre 1.8158 m behind the front axle and 0.86 m high; 300 kg at 3 m and 1.2 m.
        var study = Read("rescue-van-whole.json", text => text.Replace("\"dampers\": {", "\"loadStates\": { \"laden\": { \"payload\": [{ \"mass_kg\": 300, \"height_mm\": 1200, \"behindFrontAxle_mm\": 3000 }] } }, \"dampers\": {", StringComparison.Ordinal));
        double m = 1215 + 1350, x = 3.45 * 1350 / m, z = ((1215 * 0.76) + (1350 * 0.95)) / m, all = m + 300;
        double xc = ((m * x) + (300 * 3.0)) / all, zc = ((m * z) + (300 * 1.2)) / all;
        double Far(double dx, double dz) => (dx * dx) + (dz * dz);
        var expected = 5600 + (m * Far(x - xc, z - zc)) + (300 * Far(3 - xc, 1.2 - zc));
        Assert.Equal(expected, study.Loads[0].PitchInertia!.Value, 1e-9);
        var settled = (study with { Load = study.Loads[0] }).Assemble(study.Layouts[0]).Vehicle;
        Assert.Equal(expected, settled.SecondAxle!.Chassis.PitchInertia!.Value, 1e-9);
        Assert.Equal(1350 + (300 * 3000.0 / 3450), settled.Body.Mass, 1e-9);
    }

    [Fact]
    public void PitchInertiaAtTheDesignLoad_IsThatOfItsLoadState_WhoseOtherAxleIsEstimatedWithThePayload()
    {
        // Empty 900 kg behind; 600 kg at 2.9 of 3.65 m and 0.95 m high are in the front axle's estimate already, which has the height of the rear one's body.
        var study = Read("delivery-van.json", text => Replaced(text, "\"wheelbase_mm\": 3650,", "\"wheelbase_mm\": 3650, \"pitchInertia_kg_m2\": 4000,"));
        double rear = 2900.0 / 3650, front = 1480 * 0.92, payload = 600 * (1 - rear);
        var height = ((900 * 0.78) + (600 * rear * 0.95)) / (900 + (600 * rear));
        (double Mass, double X, double Z)[] parts = [(900, 3.65, 0.78), (front - payload, 0, ((front * height) - (payload * 0.95)) / (front - payload))];
        var bare = (Mass: parts.Sum(part => part.Mass), X: Mean(parts, part => part.X), Z: Mean(parts, part => part.Z));
        (double Mass, double X, double Z)[] laden = [bare, (600, 2.9, 0.95)];
        var (x, z) = (Mean(laden, part => part.X), Mean(laden, part => part.Z));
        var expected = 4000 + laden.Sum(part => part.Mass * (((part.X - x) * (part.X - x)) + ((part.Z - z) * (part.Z - z))));
        Assert.Equal(4000, study.Loads[0].PitchInertia!.Value, 1e-9);
        Assert.Equal(expected, study.Loads[1].PitchInertia!.Value, 1e-9);
        Assert.Equal(expected, study.Vehicle.SecondAxle!.Chassis.PitchInertia!.Value, 1e-9);

        static double Mean((double Mass, double X, double Z)[] parts, Func<(double Mass, double X, double Z), double> of) => parts.Sum(part => part.Mass * of(part)) / parts.Sum(part => part.Mass);
    }

    [Fact]
    public void MassOnTheOtherAxleInALoadState_IsThatWithoutPayload_BesideAnEstimateToo()
    {
        var full = Read("delivery-van.json", text => Replaced(text, "\"full\": {", "\"full\": { \"otherAxle\": { \"mass_kg\": 1000 },")).Loads[2];
        Assert.Equal(1000 + (1200 * (1 - (2900.0 / 3650))), full.OtherAxle!.BodyMass!.Value, 1e-9);
    }

    [Fact]
    public void Estimate_HasTheLoadRideFrequencyRollStiffnessAndDampingGiven()
    {
        var second = Read("pickup.json").Vehicle.SecondAxle!;
        var (axle, damper) = (second.Vehicle, second.Layout.Damper);
        Assert.True(second.IsEstimated);
        Assert.Equal(1150, axle.Body.Mass + axle.Unsprung.Mass, 1e-9);
        var rate = ((LinearSpring)axle.Spring.Characteristic).Rate;
        Assert.Equal(1.25, Math.Sqrt(2 * rate / axle.Body.Mass) / (2 * Math.PI), 1e-12);
        var arm = axle.Spring.Fitting.RollRatio * axle.HalfTrack;
        Assert.Equal(1800 * DegPerRad, (2 * rate * arm * arm) + axle.AntiRollBar, 1e-6);

        // Two dampers of c at the wheels: ζ = 2c/(2 m ω).
        Assert.Equal(0.27, damper.EquivalentCoefficient(0.1) / (axle.Body.Mass * 2 * Math.PI * 1.25), 1e-12);
    }

    [Fact]
    public void EstimateBesideDualTyres_HasOneOfThemASide()
    {
        var vehicle = Read("lorry.json").Vehicle;
        Assert.Equal((880e3, 900.0, (double?)null), (vehicle.SecondAxle!.Vehicle.Tyre.Stiffness, vehicle.SecondAxle.Vehicle.Tyre.Damping, vehicle.SecondAxle.Vehicle.Tyre.DualSpacing));
    }

    [Fact]
    public void Estimate_SofterInRollThanItsSpringsAtTheWheels_HasThemFurtherInboardAndNoBar()
    {
        var axle = Read("pickup.json", text => text.Replace("\"rollStiffness_N_m_per_deg\": 1800", "\"rollStiffness_N_m_per_deg\": 500", StringComparison.Ordinal)).Vehicle.SecondAxle!.Vehicle;
        var arm = axle.Spring.Fitting.RollRatio * axle.HalfTrack;
        Assert.Equal(0, axle.AntiRollBar);
        Assert.Equal(500 * DegPerRad, 2 * ((LinearSpring)axle.Spring.Characteristic).Rate * arm * arm, 1e-6);
    }

    [Theory]
    [InlineData("\"torsionalStiffness_N_m_per_deg\": 2600,", "\"torsionalStiffness_N_m_per_deg\": 0, \"rigid\": true,", "wholeVehicle", "torsionalStiffness_N_m_per_deg")]
    [InlineData("\"torsionalStiffness_N_m_per_deg\": 2600,", "\"rigid\": false,", "wholeVehicle.rigid", "torsionalStiffness_N_m_per_deg")]
    [InlineData("\"torsionalStiffness_N_m_per_deg\": 2600,", "\"rigid\": true, \"torsionalDamping_N_m_s_per_deg\": 3,", "wholeVehicle.torsionalDamping_N_m_s_per_deg", "leave this key out")]
    [InlineData("\"wheelbase_mm\": 3450", "\"wheelbase_mm\": 700", "wholeVehicle.wheelbase_mm", "720")]
    [InlineData("\"duration_s\": 8,", "\"duration_s\": 0.2,", "manoeuvre.duration_s", "rear axle would never reach the road")]
    [InlineData("\"roll\": 0.84 } }, \"damper\": \"front strut\"", "\"roll\": 0.84 } }, \"damper\": \"front strat\"", "wholeVehicle.otherAxle.layout.damper", "front strut")]
    [InlineData("\"springs\": { \"rate_N_per_mm\": 48, \"placement\": { \"motionRatios\": { \"heave\": 1.0", "\"springs\": { \"rate_N_per_mm\": 48, \"placement\": { \"motionRatios\": { \"heave\": -1.0", "wholeVehicle.otherAxle.vehicle.springs.placement.motionRatios.heave", "-1")]
    [InlineData("\"antiRollBar_N_m_per_deg\": 420,", "\"antiRollBar_N_m_per_deg\": 420, \"seatOffset_mm\": 100,", "wholeVehicle.otherAxle.vehicle.seatOffset_mm", "seatBehindFrontAxle_mm")]
    [InlineData("\"lateralAcceleration\": {", "\"lateralAcceleration\": { \"rearDelay_s\": 3,", "manoeuvre.cornering.lateralAcceleration.rearDelay_s", "2")]
    public void FaultOfTheVehicle_IsRefusedAtItsKey(string from, string to, string key, string said)
    {
        var fault = Assert.Throws<DataFileException>(() => Read("rescue-van-whole.json", text => Replaced(text, from, to))).Faults[0];
        Assert.Equal(key, fault.Key);
        Assert.NotNull(fault.Line);
        Assert.Contains(said, fault.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"rollStiffness_N_m_per_deg\": 2100", "\"rollStiffness_N_m_per_deg\": 1", "wholeVehicle.otherAxle.estimate.rollStiffness_N_m_per_deg", "cannot stand")]
    [InlineData("\"estimate\": {", "\"layout\": { \"name\": \"front\", \"placement\": { \"motionRatios\": { \"heave\": 1, \"roll\": 1 } }, \"damper\": \"van\" }, \"estimate\": {", "wholeVehicle.otherAxle.layout", "dampingRatio")]
    [InlineData("\"half\": {", "\"half\": { \"otherAxle\": { \"mass_kg\": 1000 },", "loadStates.half.otherAxle", "axleLoad_kg")]
    [InlineData("{ \"mass_kg\": 600,", "{ \"mass_kg\": 50, \"height_mm\": 900, \"lateralOffset_mm\": 300, \"behindFrontAxle_mm\": 0 }, { \"mass_kg\": 600,", "designLoad", "other axle")]
    public void FaultOfAnEstimate_IsRefusedAtItsKey(string from, string to, string key, string said)
    {
        var fault = Assert.Throws<DataFileException>(() => Read("delivery-van.json", text => Replaced(text, from, to))).Faults[0];
        Assert.Equal(key, fault.Key);
        Assert.NotNull(fault.Line);
        Assert.Contains(said, fault.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"mass_kg\": 2700", "manoeuvre.cornering.steering.singleTrack.mass_kg", "2880")]
    [InlineData("\"cgToFrontAxle_mm\": 1700", "manoeuvre.cornering.steering.singleTrack.cgToFrontAxle_mm", "1838.8")]
    public void SingleTrackThatContradictsTheAxles_IsRefusedWithTheirNumbers(string change, string key, string said)
    {
        var right = "\"mass_kg\": 2880, \"yawInertia_kg_m2\": 6500, \"cgToFrontAxle_mm\": 1838.8, \"cgToRearAxle_mm\": 1611.2";
        var wrong = right.Replace(change.StartsWith("\"mass", StringComparison.Ordinal) ? "\"mass_kg\": 2880" : "\"cgToFrontAxle_mm\": 1838.8", change, StringComparison.Ordinal);
        Assert.NotNull(Read("rescue-van-whole.json", text => Steered(text, right)));
        var fault = Assert.Throws<DataFileException>(() => Read("rescue-van-whole.json", text => Steered(text, wrong))).Faults[0];
        Assert.Equal(key, fault.Key);
        Assert.Contains(said, fault.Reason, StringComparison.Ordinal);

        static string Steered(string text, string model)
        {
            var start = text.IndexOf("\"lateralAcceleration\": {", StringComparison.Ordinal);
            var end = text.IndexOf("// What one damper setting should reach", StringComparison.Ordinal);
            return $$"""
                {{text[..start]}}"steering": {
                  "singleTrack": { {{model}}, "frontCorneringStiffness_kN_per_rad": 130, "rearCorneringStiffness_kN_per_rad": 170, "steeringRatio": 18 },
                  "events": [{ "start_s": 3.4, "amplitude_deg": 40, "rampStep": { "rampDuration_s": 0.4 } }] } } },
                {{text[end..]}}
                """;
        }
    }

    [Theory]
    [InlineData("\"payload\": [{ \"mass_kg\": 100, \"height_mm\": 900, \"behindFrontAxle_mm\": 2000 }]", "loadStates.laden.payload[0].behindFrontAxle_mm")]
    [InlineData("\"otherAxle\": { \"mass_kg\": 900 }", "loadStates.laden.otherAxle")]
    public void WhatBelongsToTwoAxles_IsRefusedOnOne(string state, string key)
    {
        var fault = Assert.Throws<DataFileException>(() => Read("bump-then-corner.json", text => text.Replace("\"dampers\": {", $"\"loadStates\": {{ \"laden\": {{ {state} }} }}, \"dampers\": {{", StringComparison.Ordinal))).Faults[0];
        Assert.Equal(key, fault.Key);
        Assert.Contains("wholeVehicle", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void LoadBesideTheCentrePlane_IsRefusedOnTheVehicle()
    {
        var faults = Assert.Throws<DataFileException>(() => Read("rescue-van-whole.json", text => text.Replace("\"dampers\": {", "\"loadStates\": { \"aside\": { \"payload\": [{ \"mass_kg\": 200, \"height_mm\": 900, \"lateralOffset_mm\": 300 }] } }, \"dampers\": {", StringComparison.Ordinal))).Faults;
        Assert.Equal("loadStates.aside", faults[0].Key);
        Assert.Contains("one axle only", faults[0].Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"rate_N_per_mm\": 62,", "vehicle.springs.left.preloadChange_N")]
    [InlineData("\"rate_N_per_mm\": 48,", "wholeVehicle.otherAxle.vehicle.springs.left.preloadChange_N")]
    public void SaggedSpring_IsRefusedOnEitherAxle(string rate, string key)
    {
        var fault = Assert.Single(Assert.Throws<DataFileException>(() => Read("rescue-van-whole.json", text => Replaced(text, rate, rate + " \"left\": { \"preloadChange_N\": -400 },"))).Faults);
        Assert.Equal((key, "-400"), (fault.Key, fault.Value));
        Assert.Contains("leaning is modelled for one axle only", fault.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"behindFrontAxle_mm\": 0, \"lateralOffset_mm\": 300", "\"rate_N_per_mm\": 48,")]
    [InlineData("\"behindFrontAxle_mm\": 1000", "\"rate_N_per_mm\": 48, \"left\": { \"rate_N_per_mm\": 60 },")]
    public void LoadThatWouldMakeTheOtherAxleLean_IsRefused(string place, string rate)
    {
        var fault = Assert.Throws<DataFileException>(() => Read("rescue-van-whole.json", text => Replaced(
            Replaced(text, "\"rate_N_per_mm\": 48,", rate),
            "\"dampers\": {",
            $"\"loadStates\": {{ \"laden\": {{ \"payload\": [{{ \"mass_kg\": 200, \"height_mm\": 900, {place} }}] }} }}, \"dampers\": {{"))).Faults[0];
        Assert.Equal("loadStates.laden", fault.Key);
        Assert.Contains("one axle only", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void EstimateThatItsDesignPayloadExceeds_IsRefusedAtItsLoad()
    {
        var fault = Assert.Throws<DataFileException>(() => Read("delivery-van.json", text => Replaced(text, "\"axleLoad_kg\": 1480", "\"axleLoad_kg\": 100"))).Faults[0];
        Assert.Equal("wholeVehicle.otherAxle.estimate.axleLoad_kg", fault.Key);
        Assert.Contains("123.3 kg of payload", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void AxleWithoutDampers_IsWarnedOfAndHasModes()
    {
        using var folder = new TemporaryFolder();
        var scenario = ScenarioReader.Read(Written(folder, "rescue-van-whole.json", text =>
            Replaced(text, "\"layout\": { \"name\": \"front\", \"placement\": { \"motionRatios\": { \"heave\": 0.84, \"roll\": 0.84 } }, \"damper\": \"front strut\" },", "")));
        Assert.Contains("no dampers", Assert.Single(scenario.Warnings, warning => warning.Contains("wholeVehicle.otherAxle.layout", StringComparison.Ordinal)), StringComparison.Ordinal);
        var found = ModesStudy.Run(scenario.Study, TestContext.Current.CancellationToken).Layouts[0].OnVehicle!;
        Assert.Equal(0, found.Modes.Roll.DampingShares!.Second);
    }

    internal static StudyCase Read(string shipped, Func<string, string>? change = null)
    {
        using var folder = new TemporaryFolder();
        return ScenarioReader.Read(Written(folder, shipped, change ?? (text => text))).Study;
    }

    private static string Written(TemporaryFolder folder, string shipped, Func<string, string> change)
    {
        foreach (var data in (string[])["valley-damper-dyno.csv", "timber-axle-dyno.csv"])
            folder.Write(data, File.ReadAllText(Shipped.PathOf("scenarios", data)));
        return folder.Write("scenario.json", change(File.ReadAllText(Shipped.Scenario(shipped))));
    }

    internal static string Replaced(string text, string from, string to)
    {
        Assert.Contains(from, text, StringComparison.Ordinal);
        return text.Replace(from, to, StringComparison.Ordinal);
    }
}
