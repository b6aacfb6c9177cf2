using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Tests.Cli;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Findings;

public class UsualValuesTests
{
    private const double Gravity = 9.80665;

    /// <summary>A car of which nothing is unusual: a bar stiff enough, dampers far enough out, and stroke.</summary>
    private static JsonObject Ordinary() => Trimmed(ShortScenario.Of()
        .With("vehicle.antiRollBar_N_m_per_deg", 600)
        .With("dampers.plain.closedLength_mm", 300)
        .With("dampers.plain.extendedLength_mm", 560));

    private static JsonObject Trimmed(JsonObject scenario)
    {
        scenario["layouts"]!.AsArray().Add(JsonNode.Parse("""{ "name": "Upright", "placement": { "mounts": { "axleEnd_mm": [0, 640, 300], "bodyEnd_mm": [0, 640, 750] } }, "damper": "plain" }"""));
        return scenario;
    }

    private static double Value(JsonObject scenario, string quantity) =>
        UsualValues.Of(scenario.Read().Study).Single(row => row.Quantity.StartsWith(quantity, StringComparison.Ordinal)).Values[0]!.Value;

    [Fact] // Body on springs on an axle on tyres: the lower root of m M ω⁴ − (m (k + K) + M k) ω² + k K = 0.
    public void Ride_frequency_is_that_of_body_and_axle_in_heave()
    {
        const double Body = 1200, Axle = 160, Springs = 2 * 50e3, Tyres = 2 * 250e3;
        var half = ((Body * (Springs + Tyres)) + (Axle * Springs)) / (2 * Body * Axle);
        var square = half - Math.Sqrt((half * half) - (Springs * Tyres / (Body * Axle)));

        Assert.Equal(Math.Sqrt(square) / (2 * Math.PI), Value(ShortScenario.Pair().With("vehicle.tyres.damping_N_s_per_m", 0), "Ride frequency"), 1e-9); // eigenvalues to rounding
    }

    [Fact] // Small angles: the body rolls by m a h/(kφ − m g h) over the axle, the axle by the moment about the road over its tyres' stiffness.
    public void Roll_gradient_is_that_of_springs_and_tyres_in_series()
    {
        const double Body = 1200, Axle = 160, Arm = 0.4, Height = 0.8, AxleHeight = 0.35, HalfTrack = 0.8;
        const double SpringRoll = 2 * 50e3 * (0.7 * HalfTrack) * (0.7 * HalfTrack), TyreRoll = 2 * 250e3 * HalfTrack * HalfTrack;

        // Two equations: springs K (φs − φu) = m (a + g φs) h about the roll centre; tyres K_t φu = all moments about the road.
        // Gravity: the body's centre moves by h φs plus (H − h) φu, the axle's by its own height.
        var matrix = MathNet.Numerics.LinearAlgebra.Double.DenseMatrix.OfArray(new[,]
        {
            { SpringRoll - (Body * Gravity * Arm), -SpringRoll },
            { -SpringRoll, SpringRoll + TyreRoll },
        });
        var forces = MathNet.Numerics.LinearAlgebra.Double.DenseVector.OfArray([Body * Arm, (Body * (Height - Arm)) + (Axle * AxleHeight)]);
        var roll = matrix.Solve(forces)[0];

        // The gravity of the axle and of the body's weight at the roll centre, which the two equations leave out, moves roll by less than 2 %.
        Assert.InRange(Value(ShortScenario.Pair(), "Roll gradient") / roll, 0.98, 1.02);
    }

    [Fact] // A load beside the centre plane makes the body lean at rest; the gradient counts from there.
    public void Lean_at_rest_is_no_roll_gradient()
    {
        JsonObject With(double offset) => LoadedShort.Plain(ShortScenario.Pair()).With("loadStates", JsonNode.Parse(
            $$"""{ "crate": { "payload": [ { "mass_kg": 100, "height_mm": 800, "lateralOffset_mm": {{offset}} } ] } }"""));

        double Gradient(double offset) => UsualValues.Of(Assert.Single(With(offset).Read().Study.InEachLoad)).Single(row => row.Range == UsualRange.RollGradient).Values[0]!.Value;

        Assert.Equal(Gradient(0), Gradient(300), 0.01 * Gradient(0)); // the lean of a degree stiffens nothing but turns the vehicle a little
    }

    [Fact]
    public async Task Check_finds_nothing_unusual_about_an_ordinary_car_only()
    {
        using var folder = new TemporaryFolder();

        var ordinary = await Invocation.Of("check", Ordinary().WriteTo(folder));
        Assert.Contains("No faults, nothing unusual.", ordinary.Output, StringComparison.Ordinal);

        // A soft roll stiffness, and a damper 10 mm from closed.
        var odd = await Invocation.Of("check", Ordinary().With("vehicle.antiRollBar_N_m_per_deg", 0).With("vehicle.springs.placement.motionRatios.roll", 0.5).With("dampers.plain.closedLength_mm", 440).WriteTo(folder));
        Assert.Contains("Unusual: Roll gradient at 1 m/s²:", odd.Output, StringComparison.Ordinal);
        Assert.Contains("Unusual: Damper stroke left at rest, compression: 10 mm with “Upright”; usual for road vehicles: at least 30 mm", odd.Output, StringComparison.Ordinal);
        Assert.Contains("No faults; 2 unusual values above.", odd.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("nothing unusual", odd.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Check_looks_at_every_load_state()
    {
        using var folder = new TemporaryFolder();
        var scenario = Ordinary().With("loadStates", JsonNode.Parse("""{ "light": {}, "heavy": { "payload": [ { "mass_kg": 1100, "height_mm": 900 } ] } }"""));

        var output = (await Invocation.Of("check", scenario.WriteTo(folder))).Output;

        Assert.Contains("Ride frequency, load state “heavy”: 0.9", output, StringComparison.Ordinal);
        Assert.DoesNotContain("load state “light”", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.1999, false)]
    [InlineData(0.2, true)]
    [InlineData(0.4, true)]
    [InlineData(0.4001, false)]
    public void Ends_of_a_range_are_usual(double value, bool isUsual) => Assert.Equal(isUsual, UsualRange.HeaveDamping.Holds(value));

    [Fact]
    public void Range_is_written_in_its_unit() => Assert.Equal(
        ["0.2 to 0.4", "at least 30", "1 to 7"],
        new[] { UsualRange.HeaveDamping, UsualRange.StrokeLeft, UsualRange.RollGradient }.Select(range => range.Words));
}
