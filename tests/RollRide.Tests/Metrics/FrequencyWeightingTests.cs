using System.Globalization;
using RollRide.Metrics;

namespace RollRide.Tests.Metrics;

public sealed class FrequencyWeightingTests
{
    [Fact]
    public void Wk_AtEveryFrequencyOfTheStandard_IsItsTableToTheLastDigit()
    {
        using var stream = typeof(FrequencyWeightingTests).Assembly.GetManifestResourceStream("RollRide.Tests.Metrics.iso2631-wk.csv")!;
        using var reader = new StreamReader(stream);
        var rows = 0;
        while (reader.ReadLine() is { } line)
        {
            if (line.StartsWith('#') || line.StartsWith("frequency", StringComparison.Ordinal))
                continue;
            var cells = line.Split(',');
            var frequency = double.Parse(cells[0], CultureInfo.InvariantCulture);
            var factor = double.Parse(cells[1], CultureInfo.InvariantCulture);

            // The standard prints 1000 times the factor: whole from 100 up, with one decimal from 10 up, with two below.
            var unit = factor >= 0.1 ? 1e-3 : factor >= 0.01 ? 1e-4 : 1e-5;
            Assert.InRange(Math.Abs(FrequencyWeighting.Wk.Factor(frequency) - factor), 0, unit);
            rows++;
        }

        Assert.Equal(37, rows);
    }

    [Fact]
    public void Wk_AtTheReferenceFrequency_IsThatOfTheMeterStandard()
    {
        // 0.7718 at 100 rad/s, ISO 8041-1 (from memory); 0.771818 recomputed from its formula.
        Assert.Equal(0.7718, FrequencyWeighting.Wk.Factor(100 / (2 * Math.PI)), 5e-5);
        Assert.Equal(0.771818, FrequencyWeighting.Wk.Factor(100 / (2 * Math.PI)), 1e-6);
    }

    [Fact]
    public void Wk_Peak_IsAtSixHertz()
    {
        // Derived from the formula: 1.0544994365 at 6.1711 Hz.
        Assert.Equal(1.0544994365, FrequencyWeighting.Wk.Factor(6.1711), 1e-9);
        Assert.True(FrequencyWeighting.Wk.Factor(6.16) < 1.0544994365 && FrequencyWeighting.Wk.Factor(6.18) < 1.0544994365);
    }

    // The bilinear transform moves a frequency f by (π f/fs)²/3: at 1 kHz by 3e-4 at 10 Hz, 2.1 % at 80 Hz, less what keeping the corner
    // in place gives back; the factor falls no faster than with 1/f², so it moves by twice that at most.
    [Theory]
    [InlineData(0.5)]
    [InlineData(1)]
    [InlineData(6.3)]
    [InlineData(16)]
    [InlineData(40)]
    [InlineData(80)]
    public void TimeFilter_OfASine_HasTheFactorOfTheWeighting(double frequency)
    {
        const double Rate = 1000;
        var filter = new OneSignal(FrequencyWeighting.Wk, Rate);
        var squares = 0.0;

        // The transient of the 0.4 Hz corner is gone after 20 s; then 20 s are whole periods of each frequency.
        for (var i = 0; i < 40 * Rate; i++)
        {
            var output = filter.Next(Math.Sin(2 * Math.PI * frequency * i / Rate));
            squares += i >= 20 * Rate ? output * output : 0;
        }

        var factor = FrequencyWeighting.Wk.Factor(frequency);
        var warp = Math.Pow(Math.PI * frequency / Rate, 2) / 3;
        Assert.Equal(factor, Math.Sqrt(2 * squares / (20 * Rate)), factor * ((2 * warp) + 1e-5));
    }
}
