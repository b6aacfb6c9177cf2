using System.Globalization;
using System.Text.Json.Nodes;
using RollRide.Tests.Cli;
using RollRide.Tests.DataFiles;

namespace RollRide.Tests.Results;

/// <summary>
/// The files that <c>compare</c> writes, value by value, against an independent run of the same car (<see cref="PlainHalfCar"/>). Names, units and
/// factors stand here by hand.
/// </summary>
public sealed class OutputFilesTests(OutputFilesTests.Files files) : IClassFixture<OutputFilesTests.Files>
{
    private const double Degree = Math.PI / 180;

    /// <summary>
    /// A live axle on dual tyres over a bump on either side, high enough for stops and tyre lift, then into a left turn. Every element has ratios
    /// of its own.
    /// </summary>
    private const string Scenario =
        """
        {
          "name": "Files",
          "solver": { "relativeTolerance": 1e-9, "absoluteTolerance": 1e-11 },
          "vehicle": {
            "name": "Test cart",
            "suspension": "liveAxle",
            "track_mm": 1600,
            "rollCentreHeight_mm": 400,
            "body": { "mass_kg": 1200, "rollInertia_kg_m2": 450, "cgHeight_mm": 800 },
            "unsprung": { "mass_kg": 160, "cgHeight_mm": 350, "axleRollInertia_kg_m2": 50 },
            "springs": { "rate_N_per_mm": 50, "placement": { "motionRatios": { "heave": 1, "roll": 0.7 } } },
            "bumpStops": { "clearance_mm": 25, "force_N": 12000, "atCompression_mm": 20, "exponent": 2, "placement": { "motionRatios": { "heave": 0.95, "roll": 0.6 } } },
            "reboundStops": { "clearance_mm": 22, "force_N": 9000, "atCompression_mm": 15, "exponent": 1, "placement": { "motionRatios": { "heave": 0.9, "roll": 0.65 } } },
            "antiRollBar_N_m_per_deg": 100,
            "tyres": { "stiffness_N_per_mm": 150, "damping_N_s_per_m": 200, "dualSpacing_mm": 300 },
            "seatOffset_mm": 350
          },
          "dampers": {
            "uneven": { "gasForce_N": 120, "curve": { "velocity_m_per_s": [-1, -0.1, 0, 0.1, 1], "force_N": [-4000, -900, 0, 500, 2000] } }
          },
          "layouts": [
            { "name": "Outer", "placement": { "motionRatios": { "heave": 0.9, "roll": 0.75 } }, "damper": "uneven" },
            { "name": "Inner", "placement": { "motionRatios": { "heave": 1, "roll": 0.4 } }, "damper": "uneven" }
          ],
          "manoeuvre": {
            "speed_km_per_h": 36,
            "duration_s": 3.5,
            "road": { "events": [
              { "start_m": 1, "side": "left", "bump": { "length_m": 2, "height_mm": 80 } },
              { "start_m": 5, "side": "right", "bump": { "length_m": 1.6, "height_mm": 60 } }
            ] },
            "cornering": { "lateralAcceleration": { "events": [ { "start_s": 1.2, "amplitude_m_per_s2": 5, "rampStep": { "rampDuration_s": 0.2 } } ] } }
          }
        }
        """;

    private static readonly (string Name, double Start, double End)[] Spans = [("run", 0, 3.5), ("bump", 0.1, 1.2), ("corner", 1.2, 3.5)];

    /// <summary>Column, channel and factor of the time history.</summary>
    // The scenario's springs have none.
    private const string NoFriction = "";

    private static readonly (string Column, string Channel, double Factor)[] Columns =
    [
        ("roadLeft_mm", "roadLeft", 1000),
        ("roadRight_mm", "roadRight", 1000),
        ("lateralAcceleration_m_per_s2", "lateralAcceleration", 1),
        ("bodyHeave_mm", "bodyHeave", 1000),
        ("bodyRoll_deg", "bodyRoll", 1 / Degree),
        ("unsprungHeave_mm", "unsprungHeave", 1000),
        ("unsprungRoll_deg", "unsprungRoll", 1 / Degree),
        ("bodyHeaveVelocity_m_per_s", "bodyHeaveVelocity", 1),
        ("bodyRollVelocity_deg_per_s", "bodyRollVelocity", 1 / Degree),
        ("unsprungHeaveVelocity_m_per_s", "unsprungHeaveVelocity", 1),
        ("unsprungRollVelocity_deg_per_s", "unsprungRollVelocity", 1 / Degree),
        ("bodyAcceleration_m_per_s2", "bodyAcceleration", 1),
        ("bodyRollAcceleration_rad_per_s2", "bodyRollAcceleration", 1),
        ("unsprungAcceleration_m_per_s2", "unsprungAcceleration", 1),
        ("unsprungRollAcceleration_rad_per_s2", "unsprungRollAcceleration", 1),
        ("seatAcceleration_m_per_s2", "seatAcceleration", 1),
        ("wheelTravelLeft_mm", "wheelTravelLeft", 1000),
        ("wheelTravelRight_mm", "wheelTravelRight", 1000),
        ("damperTravelLeft_mm", "damperTravelLeft", 1000),
        ("damperTravelRight_mm", "damperTravelRight", 1000),
        ("damperVelocityLeft_m_per_s", "damperVelocityLeft", 1),
        ("damperVelocityRight_m_per_s", "damperVelocityRight", 1),
        ("damperForceLeft_N", "damperForceLeft", 1),
        ("damperForceRight_N", "damperForceRight", 1),
        ("springForceLeft_N", "springForceLeft", 1),
        ("springForceRight_N", "springForceRight", 1),
        ("springFrictionLeft_N", NoFriction, 1),
        ("springFrictionRight_N", NoFriction, 1),
        ("bumpStopForceLeft_N", "bumpStopForceLeft", 1),
        ("bumpStopForceRight_N", "bumpStopForceRight", 1),
        ("reboundStopForceLeft_N", "reboundStopForceLeft", 1),
        ("reboundStopForceRight_N", "reboundStopForceRight", 1),
        ("tyreLoadLeft_N", "tyreLoadLeft", 1),
        ("tyreLoadRight_N", "tyreLoadRight", 1),
        ("tyreLoadLeftOuter_N", "tyreLoadLeftOuter", 1),
        ("tyreLoadLeftInner_N", "tyreLoadLeftInner", 1),
        ("tyreLoadRightInner_N", "tyreLoadRightInner", 1),
        ("tyreLoadRightOuter_N", "tyreLoadRightOuter", 1),
    ];

    [Theory]
    [InlineData("Outer")]
    [InlineData("Inner")]
    public void History_holds_the_motion_of_an_independent_run(string layout)
    {
        var car = files.Cars[layout];
        var (header, rows) = files.Table($"history-{layout}.csv");

        Assert.Equal(["time_s", .. Columns.Select(column => column.Column)], header);
        Assert.Equal(3501, rows.Count); // 3.5 s at 1000 samples a second, both ends
        for (var c = 0; c < Columns.Length; c++)
        {
            var (column, channel, factor) = Columns[c];
            if (channel == NoFriction)
            {
                Assert.All(rows, row => Assert.Equal("0", row[c + 1]));
                continue;
            }

            var expected = car[channel];

            // The solver's tolerance is 1e-9 of each step; the accelerations jump where a bump begins, and follow the stops and tyres at their kinks.
            var range = factor * (expected.Max() - expected.Min());
            Assert.True(range > 0, column);
            for (var k = 0; k < rows.Count; k++)
            {
                var got = double.Parse(rows[k][c + 1], CultureInfo.InvariantCulture);
                Assert.True(Math.Abs(got - (factor * expected[10 * k])) <= 1e-4 * range, FormattableString.Invariant($"{column} at {k} ms: {got}, not {factor * expected[10 * k]}"));
            }
        }

        Assert.All(Enumerable.Range(0, rows.Count), k => Assert.Equal(k / 1000.0, double.Parse(rows[k][0], CultureInfo.InvariantCulture)));
    }

    [Fact]
    public void Metrics_table_holds_the_figures_of_an_independent_run()
    {
        var (header, rows) = files.Table("metrics.csv");

        var outer = files.Cars["Outer"];
        Assert.Equal(["layout", "phase", "heaveRatio", "rollRatio", "start_s", "end_s", .. RollResponse(outer, files.Corners["Outer"]).Select(f => f.Key), .. Phase(outer, 0, 3.5).Select(f => f.Key)], header);
        Assert.Equal(
            ["Outer run", "Outer bump", "Outer corner", "Inner run", "Inner bump", "Inner corner"],
            rows.Select(row => $"{row[0]} {row[1]}"));
        foreach (var row in rows)
        {
            var (span, start, end) = Spans.Single(span => span.Name == row[1]);
            string Field(string key) => row[Array.IndexOf(header, key)];
            double Number(string key) => double.Parse(Field(key), CultureInfo.InvariantCulture);
            Assert.Equal(row[0] == "Outer" ? (0.9, 0.75) : (1, 0.4), (Number("heaveRatio"), Number("rollRatio")));
            Assert.Equal((start, end), (Number("start_s"), Number("end_s")));
            if (span != "run")
                Assert.All(RollResponse(outer, files.Corners["Outer"]), figure => Assert.Equal("", Field(figure.Key)));
            Assert.All(Expected(row[0], span, start, end), figure => figure.Agrees(Field(figure.Key) is { Length: > 0 } text ? double.Parse(text, CultureInfo.InvariantCulture) : null));
        }
    }

    [Fact]
    public void Summary_holds_the_figures_of_an_independent_run()
    {
        var layouts = files.Summary["layouts"]!.AsArray();

        Assert.Equal(["Outer", "Inner"], layouts.Select(layout => (string?)layout!["name"]));
        foreach (var layout in layouts)
        {
            var name = (string)layout!["name"]!;
            var ratios = layout["motionRatios"]!;
            Assert.Equal(name == "Outer" ? (0.9, 0.75) : (1, 0.4), ((double)ratios["heave"]!, (double)ratios["roll"]!));
            // What is left of half the body's weight after the gas.
            Assert.Equal((1200 * 9.80665 / 2) - ((name == "Outer" ? 0.9 : 1) * 120), (double)layout["springPreload_N"]!, 1e-9);
            foreach (var (span, start, end) in Spans)
            {
                var values = (span == "run" ? layout["metrics"]! : layout["phases"]![span]!).AsObject();
                Figure[] expected = Expected(name, span, start, end);
                Assert.Equal((start, end), ((double)values["start_s"]!, (double)values["end_s"]!));
                Assert.Equal(expected.Select(f => f.Key).Order(), values.Select(entry => entry.Key).Except(["start_s", "end_s", "velocityHistogram"]).Order());
                Assert.All(expected, figure => figure.Agrees((double?)values[figure.Key]));
            }
        }
    }

    private Figure[] Expected(string layout, string span, double start, double end) =>
        [.. span == "run" ? RollResponse(files.Cars[layout], files.Corners[layout]) : [], .. Phase(files.Cars[layout], start, end)];

    /// <summary>The response to the corner from rest, and the largest roll of the manoeuvre, in the order of the columns.</summary>
    private static Figure[] RollResponse(PlainHalfCar car, PlainHalfCar alone)
    {
        const double half = PlainHalfCar.RampDuration / 2;
        var roll = alone["bodyRoll"];
        var steady = car.SteadyRoll(PlainHalfCar.FinalLateralAcceleration);
        var corner = new PlainFigures(alone, 0, PlainHalfCar.CornerDuration);
        var (peak, peakTime) = corner.Largest(i => roll[i]);

        // The ramp is shorter than half the roll period, so no step is asked for.
        var gradient = steady / PlainHalfCar.FinalLateralAcceleration;
        Assert.True(PlainHalfCar.RampDuration < Math.PI * Math.Sqrt(gradient * PlainHalfCar.RollInertia / PlainHalfCar.MassMoment));
        return
        [
            new("rollAngleSteady_deg", steady / Degree),
            new("rollGradient_deg_per_g", gradient * 9.80665 / Degree),
            new("rollAnglePeak_deg", peak / Degree),
            new("rollOvershoot_percent", 100 * ((peak / steady) - 1), 0.01),
            new("rollOvershootToStep_percent", null),
            Figure.Time("rollResponseTime_s", corner.FirstRise(i => roll[i] - (0.9 * steady)) - half),
            Figure.Time("rollPeakTime_s", peakTime - half),
            Figure.Time("rollSettlingTime_s", corner.LastFall(i => Math.Abs(roll[i] - steady) - (0.05 * steady))),
            new("rollAngleLargestInManoeuvre_deg", LargestRoll(new PlainFigures(car, 0, PlainHalfCar.Duration)).Value / Degree),
        ];
    }

    private static (double Value, double Time) LargestRoll(PlainFigures span)
    {
        var (left, right) = (span.Highest("bodyRoll"), span.Highest("bodyRoll", -1));
        return left.Value > right.Value ? left : (-right.Value, right.Time);
    }

    /// <summary>The figures of a span of time, in the order of the columns.</summary>
    private static Figure[] Phase(PlainHalfCar car, double start, double end)
    {
        const double staticLoad = (1200 + 160) * 9.80665 / 2;
        var span = new PlainFigures(car, start, end);
        double[] left = car["tyreLoadLeft"], right = car["tyreLoadRight"], roll = car["bodyRoll"];
        double Dose(string channel) => Math.Pow(span.Mean(i => Math.Pow(car[channel][i], 4)) * (end - start), 0.25);
        double LoadChange(double[] load) => Math.Sqrt(span.Mean(i => (load[i] - staticLoad) * (load[i] - staticLoad))) / staticLoad;
        double Power(string side) => span.Mean(i => car[$"damperForce{side}"][i] * car[$"damperVelocity{side}"][i]);
        var (leftLift, rightLift) = (span.TimeBelowZero("contactLeft"), span.TimeBelowZero("contactRight"));
        string[] tyres = ["contactLeftOuter", "contactLeftInner", "contactRightInner", "contactRightOuter"];
        return
        [
            new("bodyAccelerationRms_m_per_s2", span.Rms("bodyAcceleration")),
            new("bodyAccelerationPeak_m_per_s2", span.LargestSize("bodyAcceleration")),
            new("rollAccelerationRms_rad_per_s2", span.Rms("bodyRollAcceleration")),
            new("rollAccelerationPeak_rad_per_s2", span.LargestSize("bodyRollAcceleration")),
            new("seatAccelerationRms_m_per_s2", span.Rms("seatAcceleration")),
            new("seatAccelerationPeak_m_per_s2", span.LargestSize("seatAcceleration")),
            Figure.Weighted("bodyWeightedRms_m_per_s2", span.Rms("weightedBody")),
            Figure.Weighted("seatWeightedRms_m_per_s2", span.Rms("weightedSeat")),
            Figure.Weighted("seatVibrationDose_m_per_s1_75", Dose("weightedSeat")),
            Figure.Weighted("seatCrestFactor", span.LargestSize("weightedSeat") / span.Rms("weightedSeat")),
            new("rollAngleLargest_deg", LargestRoll(span).Value / Degree),
            Figure.Time("rollAngleLargestTime_s", LargestRoll(span).Time),
            new("bumpTravelPeak_mm", 1000 * span.LargestOfSides("wheelTravel")),
            new("reboundTravelPeak_mm", 1000 * span.LargestOfSides("wheelTravel", -1)),
            new("relativeHeaveRms_mm", 1000 * span.Rms("rideHeight")), // its opposite, of the same square
            new("relativeRollRms_deg", Math.Sqrt(span.Mean(i => Math.Pow(car["unsprungRoll"][i] - roll[i], 2))) / Degree),
            new("bumpStopContacts", span.Contacts("bumpStopForce"), 0),
            new("reboundStopContacts", span.Contacts("reboundStopForce"), 0),
            new("tyreLoadMinimum_N", Math.Max(0, -span.LargestOfSides("tyreLoad", -1))),
            new("tyreLoadMinimumLeft_N", Math.Max(0, -span.Largest("tyreLoadLeft", -1))),
            new("tyreLoadMinimumRight_N", Math.Max(0, -span.Largest("tyreLoadRight", -1))),
            new("dynamicLoadCoefficient", Math.Max(LoadChange(left), LoadChange(right))),
            new("loadTransferPeak_N", Math.Max(span.Largest(i => right[i] - left[i]).Value, span.Largest(i => left[i] - right[i]).Value) / 2),
            Figure.Time("liftOffTime_s", Math.Max(leftLift, rightLift)),
            Figure.Time("liftOffTimeLeft_s", leftLift),
            Figure.Time("liftOffTimeRight_s", rightLift),
            Figure.Time("liftOffFirstTime_s", new[] { span.FirstBelowZero("contactLeft"), span.FirstBelowZero("contactRight") }.Min()),
            Figure.Time("liftOffTimeOneTyre_s", tyres.Max(span.TimeBelowZero)),
            new("damperCompressionVelocityPeak_m_per_s", span.LargestOfSides("damperVelocity")),
            new("damperReboundVelocityPeak_m_per_s", span.LargestOfSides("damperVelocity", -1)),
            new("damperTravelCompression_mm", 1000 * span.LargestOfSides("damperTravel")),
            new("damperTravelRebound_mm", 1000 * span.LargestOfSides("damperTravel", -1)),
            new("damperEnergy_J", (Power("Left") + Power("Right")) * (end - start)),
            new("springFrictionEnergy_J", 0, 0), // none is given
            new("rideHeightShift_mm", 1000 * span.Mean(i => car["rideHeight"][i])),
            new("pitchPeak_deg", null), // one axle
            new("frameTwistPeak_deg", null),
            new("otherAxleTyreLoadMinimum_N", null),
        ];
    }

    /// <summary>A figure as it should stand in a file.</summary>
    /// <param name="Key">Its key.</param>
    /// <param name="Value">What the independent run gives, in the unit of the key; null where it is not defined.</param>
    /// <param name="Tolerance">Largest difference accepted; if negative, that share of the value.</param>
    private sealed record Figure(string Key, double? Value, double Tolerance = -2e-4)
    {
        /// <summary>A time: the independent run is read every 0.1 ms, and where a quantity passes slowly its own error counts.</summary>
        public static Figure Time(string key, double? value) => new(key, value, 2e-4);

        /// <summary>A weighted figure: the program weights 1000 samples a second, the independent run weights continuously.</summary>
        public static Figure Weighted(string key, double value) => new(key, value, -0.01);

        public void Agrees(double? got) => Assert.True(
            Value is { } value ? got is { } number && Math.Abs(number - value) <= (Tolerance < 0 ? -Tolerance * Math.Abs(value) : Tolerance) : got is null,
            FormattableString.Invariant($"{Key} is {got}, not {Value}"));
    }

    /// <summary>The files of one call of the command, and the independent runs.</summary>
    public sealed class Files : IAsyncLifetime
    {
        private readonly TemporaryFolder _folder = new();

        internal IReadOnlyDictionary<string, PlainHalfCar> Cars { get; } = new Dictionary<string, PlainHalfCar> { ["Outer"] = new(0.9, 0.75), ["Inner"] = new(1, 0.4) };

        /// <summary>Each in the corner by itself, from rest.</summary>
        internal IReadOnlyDictionary<string, PlainHalfCar> Corners { get; } =
            new Dictionary<string, PlainHalfCar> { ["Outer"] = new(0.9, 0.75, cornerAlone: true), ["Inner"] = new(1, 0.4, cornerAlone: true) };

        internal JsonNode Summary => JsonNode.Parse(File.ReadAllText(PathOf("summary.json")))!;

        internal (string[] Header, List<string[]> Rows) Table(string name)
        {
            var lines = File.ReadAllLines(PathOf(name)).Select(line => line.Split(',')).ToList();
            return (lines[0], lines[1..]);
        }

        private string PathOf(string name) => Path.Combine(_folder["out"], name);

        public async ValueTask InitializeAsync()
        {
            var done = await Invocation.Of("compare", _folder.Write("files.json", Scenario), "--out", _folder["out"], "--quiet");
            Assert.Equal(0, done.ExitCode);
        }

        public ValueTask DisposeAsync()
        {
            _folder.Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
