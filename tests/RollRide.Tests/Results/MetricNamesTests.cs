using System.Globalization;
using System.Reflection;
using System.Text.Json.Nodes;
using RollRide.Metrics;
using RollRide.Results;
using RollRide.Studies;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Results;

/// <summary>
/// Which key holds which property in which unit, for every metric. The table stands here by hand; the numbers are put into the results so that
/// no two are alike, and read back from the files.
/// </summary>
public class MetricNamesTests
{
    private const double Degree = 180 / Math.PI;

    // The same as that of the whole run, and named so where it stands beside that of the corner from rest.
    private const string InManoeuvre = "rollAngleLargestInManoeuvre_deg";

    private static readonly (string Key, string Unit, Func<RunMetrics, double?> Property, double Factor)[] OfCorner =
    [
        ("rollAngleSteady_deg", "deg", m => m.RollResponse!.SteadyAngle, Degree),
        ("rollGradient_deg_per_g", "deg/g", m => m.RollResponse!.Gradient, Degree * 9.80665), // from rad/(m/s²)
        ("rollAnglePeak_deg", "deg", m => m.RollResponse!.PeakAngle, Degree),
        ("rollOvershoot_percent", "%", m => m.RollResponse!.Overshoot, 100),
        ("rollOvershootToStep_percent", "%", m => m.RollResponse!.OvershootToStep, 100),
        ("rollResponseTime_s", "s", m => m.RollResponse!.ResponseTime, 1),
        ("rollPeakTime_s", "s", m => m.RollResponse!.PeakTime, 1),
        ("rollSettlingTime_s", "s", m => m.RollResponse!.SettlingTime, 1),
        (InManoeuvre, "deg", m => m.Whole.RollAnglePeak, Degree),
    ];

    private static readonly (string Key, string Unit, Func<PhaseMetrics, double?> Property, double Factor)[] OfPhase =
    [
        ("bodyAccelerationRms_m_per_s2", "m/s²", p => p.BodyAccelerationRms, 1),
        ("bodyAccelerationPeak_m_per_s2", "m/s²", p => p.BodyAccelerationPeak, 1),
        ("rollAccelerationRms_rad_per_s2", "rad/s²", p => p.RollAccelerationRms, 1),
        ("rollAccelerationPeak_rad_per_s2", "rad/s²", p => p.RollAccelerationPeak, 1),
        ("seatAccelerationRms_m_per_s2", "m/s²", p => p.SeatAccelerationRms, 1),
        ("seatAccelerationPeak_m_per_s2", "m/s²", p => p.SeatAccelerationPeak, 1),
        ("bodyWeightedRms_m_per_s2", "m/s²", p => p.BodyWeightedRms, 1),
        ("seatWeightedRms_m_per_s2", "m/s²", p => p.SeatWeightedRms, 1),
        ("seatVibrationDose_m_per_s1_75", "m/s^1.75", p => p[PhaseMetric.SeatVibrationDose], 1),
        ("seatCrestFactor", "", p => p[PhaseMetric.SeatCrestFactor], 1),
        ("rollAngleLargest_deg", "deg", p => p.RollAnglePeak, Degree),
        ("rollAngleLargestTime_s", "s", p => p[PhaseMetric.RollAngleLargestTime], 1),
        ("bumpTravelPeak_mm", "mm", p => p.BumpTravelPeak, 1000),
        ("reboundTravelPeak_mm", "mm", p => p.ReboundTravelPeak, 1000),
        ("relativeHeaveRms_mm", "mm", p => p[PhaseMetric.RelativeHeaveRms], 1000),
        ("relativeRollRms_deg", "deg", p => p[PhaseMetric.RelativeRollRms], Degree),
        ("bumpStopContacts", "", p => p.BumpStopContacts, 1),
        ("reboundStopContacts", "", p => p.ReboundStopContacts, 1),
        ("tyreLoadMinimum_N", "N", p => p.TyreLoadMinimum, 1),
        ("tyreLoadMinimumLeft_N", "N", p => p[PhaseMetric.TyreLoadMinimumLeft], 1),
        ("tyreLoadMinimumRight_N", "N", p => p[PhaseMetric.TyreLoadMinimumRight], 1),
        ("dynamicLoadCoefficient", "", p => p.DynamicLoadCoefficient, 1),
        ("loadTransferPeak_N", "N", p => p.LoadTransferPeak, 1),
        ("liftOffTime_s", "s", p => p.LiftOffTime, 1),
        ("liftOffTimeLeft_s", "s", p => p.LiftOffTimeLeft, 1),
        ("liftOffTimeRight_s", "s", p => p.LiftOffTimeRight, 1),
        ("liftOffFirstTime_s", "s", p => p[PhaseMetric.LiftOffFirstTime], 1),
        ("liftOffTimeOneTyre_s", "s", p => p[PhaseMetric.LiftOffTimeOneTyre], 1),
        ("damperCompressionVelocityPeak_m_per_s", "m/s", p => p.DamperCompressionVelocityPeak, 1),
        ("damperReboundVelocityPeak_m_per_s", "m/s", p => p.DamperReboundVelocityPeak, 1),
        ("damperTravelCompression_mm", "mm", p => p.DamperCompressionPeak, 1000),
        ("damperTravelRebound_mm", "mm", p => p.DamperExtensionPeak, 1000),
        ("damperEnergy_J", "J", p => p.DamperEnergy, 1),
        ("springFrictionEnergy_J", "J", p => p.SpringFrictionEnergy, 1),
        ("rideHeightShift_mm", "mm", p => p.RideHeightShift, 1000),
        ("pitchPeak_deg", "deg", p => p[PhaseMetric.PitchPeak], 180 / Math.PI),
        ("frameTwistPeak_deg", "deg", p => p[PhaseMetric.FrameTwistPeak], 180 / Math.PI),
        ("otherAxleTyreLoadMinimum_N", "N", p => p[PhaseMetric.OtherAxleTyreLoadMinimum], 1),
    ];

    // Of the two seats put in, the second is the worse; of the two sides, the first carries less and the second lifts more.
    private static readonly (string Key, string Unit, Func<RideMetrics, double?> Property, double Factor)[] OfRide =
    [
        ("rideSeatTotal_m_per_s2", "m/s²", r => Math.Sqrt(Square(r.Seats[1].Vertical.Rms) + Square(r.Seats[1].Lateral.Rms) + Square(0.63 * r.Seats[1].Roll.Rms)), 1),
        ("rideSeatVertical_m_per_s2", "m/s²", r => r.Seats[1].Vertical.Rms, 1),
        ("rideSeatLateral_m_per_s2", "m/s²", r => r.Seats[1].Lateral.Rms, 1),
        ("rideSeatRoll_rad_per_s2", "rad/s²", r => r.Seats[1].Roll.Rms, 1),
        ("rideSeatMtvv_m_per_s2", "m/s²", r => r.Seats[1].Vertical.MaximumTransient, 1),
        ("rideSeatDose_m_per_s1_75", "m/s^1.75", r => r.Seats[1].Vertical.DoseValue, 1),
        ("rideSeatCrestFactor", "", r => r.Seats[1].Vertical.Peak / r.Seats[1].Vertical.Rms, 1),
        ("rideBodyAccelerationRms_m_per_s2", "m/s²", r => r.BodyAccelerationRms, 1),
        ("rideRollAccelerationRms_rad_per_s2", "rad/s²", r => r.RollAccelerationRms, 1),
        ("rideDynamicLoadCoefficient", "", r => r.Loads[1].DynamicLoadCoefficient, 1),
        ("rideLoadExceeded99_N", "N", _ => 301, 1), // a hundredth of the way through the first side's only bin, from 300 to 400 N
        ("rideLiftShare_percent", "%", r => r.Loads[1].LiftShare, 100),
        ("rideWheelTravelRms_mm", "mm", r => r.WheelTravelRms, 1000),
        ("rideBumpContacts_per_km", "1/km", r => r.BumpStopContactsPerMetre, 1000),
        ("rideReboundContacts_per_km", "1/km", r => r.ReboundStopContactsPerMetre, 1000),
        ("rideDamperVelocityRms_m_per_s", "m/s", r => r.DamperVelocityRms, 1),
        ("rideDamperPower_W", "W", r => r.DamperPower[1], 1),
    ];

    private static readonly ComparisonResult Result = WithDistinctNumbers();

    [Fact]
    public void No_two_numbers_put_in_are_alike()
    {
        double?[] values = [.. ExpectedOfRun(Result.Layouts[0].Metrics).Where(value => value.Key != InManoeuvre).Select(value => value.Value), .. ExpectedOfRide(Result.Layouts[0].Ride!).Values];

        Assert.Equal(values.Length, values.Distinct().Count());
        Assert.DoesNotContain(null, values);
    }

    [Fact]
    public void Table_holds_each_property_under_its_key_in_its_unit()
    {
        using var output = new StringWriter();
        MetricsTable.Write(output, [new ComparisonFindings(Result)]);
        var lines = output.ToString().TrimEnd('\n').Split('\n').Select(line => line.Split(',')).ToArray();
        var expected = ExpectedOfRun(Result.Layouts[0].Metrics);

        Assert.Equal(["layout", "phase", "heaveRatio", "rollRatio", "start_s", "end_s", .. expected.Keys], lines[0]);
        Assert.Equal("run", lines[1][1]);
        foreach (var (key, value) in expected)
            Assert.Equal(value, double.Parse(lines[1][Array.IndexOf(lines[0], key)], CultureInfo.InvariantCulture), Rounding * value);
    }

    [Fact]
    public void Summary_holds_each_property_under_its_key_in_its_unit()
    {
        using var output = new StringWriter();
        Summary.Write(output, [new ComparisonFindings(Result)], []);
        var layout = JsonNode.Parse(output.ToString())!["layouts"]![0]!;
        var (metrics, ride) = (layout["metrics"]!.AsObject(), layout["ride"]!.AsObject());

        foreach (var (key, value) in ExpectedOfRun(Result.Layouts[0].Metrics))
            Assert.Equal(value, (double)metrics[key]!, Rounding * value);
        foreach (var (key, value) in ExpectedOfRide(Result.Layouts[0].Ride!))
            Assert.Equal(value, (double)ride[key]!, Rounding * value);
        Assert.Equal(OfRide.Select(metric => metric.Key), ride.Select(entry => entry.Key).Except(["start_s", "distance_m", "velocityHistogram"]));
        Assert.Equal((Result.Layouts[0].Ride!.Start, Result.Layouts[0].Ride!.Distance), ((double)ride["start_s"]!, (double)ride["distance_m"]!));
    }

    [Fact]
    public void Seeds_table_holds_each_property_under_its_key_in_its_unit()
    {
        var layout = Result.Layouts[0];
        using var output = new StringWriter();
        SeedsTable.Write(output, [new ComparisonFindings(Result) { Seeds = [new SeededRuns(layout.Name, [.. Enumerable.Range(1, 2).Select(seed => new SeededRun(seed, layout.Metrics, layout.Ride!))])] }]);
        var rows = output.ToString().TrimEnd('\n').Split('\n').Select(line => line.Split(',')).ToArray();

        foreach (var (phase, expected) in (ReadOnlySpan<(string, Dictionary<string, double>)>)[("run", ExpectedOfPhase(layout.Metrics.Whole)), ("ride", ExpectedOfRide(layout.Ride!))])
        {
            Assert.Equal(expected.Keys, rows.Where(row => row[1] == phase).Select(row => row[2]));
            foreach (var (key, value) in expected)
                Assert.Equal(value, double.Parse(rows.Single(row => row[1] == phase && row[2] == key)[4], CultureInfo.InvariantCulture), Rounding * value);
        }
    }

    [Fact]
    public void Unit_in_tables_is_the_one_of_the_key()
    {
        Assert.Equal(OfCorner.Select(metric => (metric.Key, metric.Unit)), RollMetric.All.Select(metric => (metric.Key, metric.Unit.Symbol)));
        Assert.Equal(OfPhase.Select(metric => (metric.Key, metric.Unit)), PhaseMetric.All.Select(metric => (metric.Key, metric.Unit.Symbol)));
        Assert.Equal(OfRide.Select(metric => (metric.Key, metric.Unit)), RideMetric.All.Select(metric => (metric.Key, metric.Unit.Symbol)));
    }

    // Files hold the shortest text that reads back as the same number; a factor or a mean of two equal numbers may round once or twice.
    private const double Rounding = 1e-14;

    private static double Square(double value) => value * value;

    private static Dictionary<string, double> ExpectedOfRun(RunMetrics metrics)
    {
        var values = OfCorner.ToDictionary(metric => metric.Key, metric => metric.Factor * metric.Property(metrics)!.Value);
        foreach (var (key, value) in ExpectedOfPhase(metrics.Whole))
            values.Add(key, value);
        return values;
    }

    private static Dictionary<string, double> ExpectedOfPhase(PhaseMetrics phase) =>
        OfPhase.ToDictionary(metric => metric.Key, metric => metric.Factor * metric.Property(phase)!.Value);

    private static Dictionary<string, double> ExpectedOfRide(RideMetrics ride) =>
        OfRide.ToDictionary(metric => metric.Key, metric => metric.Factor * metric.Property(ride)!.Value);

    /// <summary>The result of a short ride with every figure of the run and the ride overwritten.</summary>
    private static ComparisonResult WithDistinctNumbers()
    {
        var result = ShortScenario.Pair().With("manoeuvre.road", JsonNode.Parse("""{ "random": { "class": "a", "leadIn_m": 2 } }""")).With("manoeuvre.duration_s", 2).Run();
        var layout = result.Layouts[0];
        var next = 0.0;
        double Next() => next += 1.25;
        VibrationMeasures Vibration() => new(Next(), Next(), Next(), Next(), Next());
        SeatComfort Seat(string name) => new(new SeatPosition(name, Next(), Next()), Vibration(), Vibration(), Vibration());
        LoadDistribution Load(int firstBin) => new(Next(), Next(), Next(), new Histogram(100, firstBin, [1]));

        var whole = PhaseMetric.All.Aggregate(layout.Metrics.Whole, (phase, metric) => phase.With(metric, Next()));
        var ride = Filled(layout.Ride!, Next) with
        {
            Seats = [Seat("first"), Seat("second")],
            Loads = [Load(3), Load(5)],
            DamperPower = [Next(), Next()],
        };
        var metrics = layout.Metrics with { Whole = whole, RollResponse = Filled(layout.Metrics.RollResponse!, Next) };
        return result with { Layouts = [layout with { Metrics = metrics, Ride = ride }] };
    }

    /// <summary>A copy of a record with another number in each property that holds one.</summary>
    private static T Filled<T>(T record, Func<double> next)
        where T : class
    {
        var copy = (T)typeof(T).GetMethod("<Clone>$", BindingFlags.Instance | BindingFlags.Public)!.Invoke(record, null)!;
        foreach (var property in typeof(T).GetProperties().Where(property => property.CanWrite))
        {
            if (property.PropertyType == typeof(double) || property.PropertyType == typeof(double?))
                property.SetValue(copy, next());
            else if (property.PropertyType == typeof(int))
                property.SetValue(copy, 1000 + (int)next());
        }

        return copy;
    }
}
