using RollRide.Roads;

namespace RollRide.Tests.Roads;

public class RoughnessIndexTests
{
    [Fact]
    public void Transition_IsThatOfThePublishedTables()
    {
        // World Bank Technical Paper 46 (1986), seven printed digits. Of the inputs (PR) the first of each matrix is off in
        // print: a constant slope must stay, ST11 + ST13 + PR1 = 1, which the printed numbers miss and the exact ones meet.
        var table = TestTable.Read("iri-transition.csv", "step_m", "row", "st1", "st2", "st3", "st4", "input_published", "input_recomputed");
        double furthest = 0;
        for (var line = 0; line < table.RowCount; line++)
        {
            // The step printed as 0.195312 is 0.1953125 m, 25/128.
            var step = table.Column("step_m")[line];
            var (transition, input) = RoughnessIndex.Transition(step == 0.195312 ? 0.1953125 : step);
            var row = (int)table.Column("row")[line] - 1;
            for (var column = 0; column < 4; column++)
            {
                var published = table.Column($"st{column + 1}")[line];
                Assert.Equal(published, transition[row, column], 1e-6 * Math.Abs(published));
                furthest = Math.Max(furthest, Math.Abs((transition[row, column] / published) - 1));
            }

            Assert.Equal(table.Column("input_recomputed")[line], input[row], 1e-9 * Math.Abs(input[row]));
            if (row > 0) Assert.Equal(table.Column("input_published")[line], input[row], 4e-6 * Math.Abs(input[row]));
            Assert.Equal(1, transition[0, 0] + transition[0, 2] + RoughnessIndex.Transition(step).Input[0], 1e-6);
        }

        Validation.Row("", "transition of the reference quarter car: largest share by which an entry departs", Evidence.Printed + "World Bank Technical Paper 46, 1986, tables of coefficients", 0, furthest, 1e-6);
    }

    [Fact]
    public void Triangle_MeetsEveryIntermediateStroke()
    {
        // Derived: 1.4177040793 m/km with exact matrices.
        var table = TestTable.Read("iri-triangle.csv", "x_m", "elevation_m", "z1", "z2", "z3", "z4");
        var elevations = table.Column("elevation_m");
        var strokes = RoughnessIndex.Strokes(elevations, 0.25);
        Assert.Equal(200, strokes.Length);
        for (var i = 0; i < strokes.Length; i++)
            Assert.Equal(Math.Abs(table.Column("z1")[i + 1] - table.Column("z3")[i + 1]), strokes[i], 1e-12); // twelve digits printed
        Validation.Row("", "roughness index of a triangle, m/km", Evidence.Derived + "exact matrices", 1.4177040793, RoughnessIndex.Of(elevations, 0.25), 1e-9);
    }

    [Fact]
    public void Index_IsLinearInHeight_AndBlindToLevelAndGradient()
    {
        var elevations = TestTable.Read("iri-triangle.csv", "x_m", "elevation_m", "z1", "z2", "z3", "z4").Column("elevation_m");
        Assert.Equal(2.835408159, RoughnessIndex.Of([.. elevations.Select(z => 2 * z)], 0.25), 1e-8);
        Assert.Equal(1.4177040793, RoughnessIndex.Of([.. elevations.Select((z, i) => z + 5 + (0.03 * 0.25 * i))], 0.25), 1e-9);
        Assert.Equal(0, RoughnessIndex.Of([.. Enumerable.Range(0, 200).Select(i => 5 + (0.03 * i))], 0.25), 1e-9);
    }

    // Sine a sin(2πx/λ) from 0 to 100 m + 20 λ, mean of the strokes from 100 m on (derived with the algorithm of the standard; the
    // last column is the analytic gain's limit for dx → 0).
    [Theory]
    [InlineData(0.05, 2.4, 0.001, 956, 2.7160349044, 2.724103088)]
    [InlineData(0.05, 5, 0.001, 1996, 0.9308371692, 0.931889440)]
    [InlineData(0.05, 10, 0.002, 3996, 1.0062479412, 1.006712026)]
    [InlineData(0.05, 15.4, 0.005, 6156, 1.9929877426, 1.992758174)]
    [InlineData(0.05, 16, 0.005, 6396, 1.9195071255, 1.920079548)]
    [InlineData(0.05, 30, 0.010, 11996, 0.6065232167, 0.606346147)]
    [InlineData(0.25, 5, 0.001, 400, 0.9302323573, 0.931889440)]
    [InlineData(0.25, 10, 0.002, 800, 1.0063030013, 1.006712026)]
    [InlineData(0.25, 15, 0.005, 1200, 2.0353889878, 2.035484001)]
    [InlineData(0.25, 20, 0.005, 1600, 1.2332183149, 1.233717183)]
    [InlineData(0.25, 40, 0.010, 3200, 0.2262382166, 0.226281687)]
    public void Sine_GivesItsValue_AndTheAnalyticGain(double step, double wavelength, double amplitude, int count, double expected, double analytic)
    {
        var samples = (int)Math.Round((100 + (20 * wavelength)) / step) + 1;
        var strokes = RoughnessIndex.Strokes([.. Enumerable.Range(0, samples).Select(i => amplitude * Math.Sin(2 * Math.PI * i * step / wavelength))], step);
        var settled = strokes[(int)Math.Round(100 / step)..];
        Assert.Equal(count, settled.Length);
        var index = 1000 * settled.Average();
        var id = FormattableString.Invariant($"sine of {wavelength:00.0} m, step {step:F2} m");
        Validation.Row(id, "roughness index, m/km", Evidence.Derived + "the standard's algorithm", expected, index, 2e-7 * expected); // stated tolerance 1e-7, and ten digits printed
        Validation.Row($"{id}, gain", "roughness index, m/km", Evidence.Derived + "analytic gain of the reference quarter car", analytic, index, 0.005 * analytic); // the limit asked for: 0.5 %
    }

    [Fact]
    public void WhiteSlopeRoad_HasTheIndexOfTheClosedForm()
    {
        // Over 0.011 to 2.83 cycle/m with the 250 mm average: 2.1725530 m/km for class A, doubling each class (derived).
        var road = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.B), Coherence = TrackCoherence.Constant(0), Seed = 5 };
        var profile = road.ToProfile(20_000, 0.1);
        var index = 0.5 * (RoughnessIndex.Of(profile.Left, 0.1) + RoughnessIndex.Of(profile.Right, 0.1));

        // The mean of |stroke| over 40 km: about 3 m between independent values, and √(π/2 − 1)/√13000 = 0.7 % a deviation;
        // three times the base length of 0.1 m is 0.3 m for 0.25 m, which lowers the value by about 0.5 %.
        Validation.Row("", "roughness index of a random road of class B, m/km", Evidence.Derived + "closed form of a white slope", 2 * 2.1725530, index, 0.02 * 2 * 2.1725530);
    }

    [Fact]
    public void ACoarseOrShortProfile_IsRefused()
    {
        Assert.Contains("0.3 m", Assert.Throws<ArgumentOutOfRangeException>(() => RoughnessIndex.Of(new double[100], 0.5)).Message, StringComparison.Ordinal);
        Assert.Contains("11 m", Assert.Throws<ArgumentException>(() => RoughnessIndex.Of(new double[40], 0.25)).Message, StringComparison.Ordinal);
    }
}
