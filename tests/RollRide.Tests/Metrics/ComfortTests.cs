using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Tests.Metrics;

/// <summary>ISO 2631-1 measures of known accelerations through the time filter.</summary>
public sealed class ComfortTests
{
    // The transient of the 0.4 Hz band limit dies with e^(−1.8 t): 1e-12 after 15 s.
    private const double Settled = 15, Length = 10;

    [Fact]
    public void MultiTone_WeightedRms_IsThatOfTheFactors()
    {
        // Derived: √½Σ(W a)² over whole periods = 0.5417292726 m/s². The bilinear transform moves 16 Hz by (π·16/1000)²/3 = 8e-4, and
        // the factors with it by less than twice that.
        var comfort = Measure(t => Sine(1, 1, t) + Sine(0.5, 4, t) + Sine(0.3, 8, t) + Sine(0.2, 16, t));
        Validation.Row("", "weighted RMS of four tones through the filter of a run, m/s²", Evidence.Derived + "the factors at the four frequencies", 0.5417292726, comfort.WeightedRms, 0.54 * 8e-4);
    }

    [Fact]
    public void Sine_DoseAndCrest_AreTheClosedForms()
    {
        // aw = W A/√2, VDV = (3/8)^¼ W A T^¼ = 0.78254229 W A T^¼, crest factor √2. At 5 Hz the transform moves the factor by 2·8e-5;
        // 200 samples a period miss the peak by (π/200)²/2 = 1.2e-4 at most.
        const double Amplitude = 2;
        var weighted = FrequencyWeighting.Wk.Factor(5) * Amplitude;
        var comfort = Measure(t => Sine(Amplitude, 5, t));
        Assert.Equal(weighted / Math.Sqrt(2), comfort.WeightedRms, weighted * 2e-4);
        Validation.Row("", "vibration dose of a sine of 5 Hz over 10 s, m/s^1.75", Evidence.Derived + "(3/8)^¼ W A T^¼", 0.7825422900 * weighted * Math.Pow(Length, 0.25), comfort.VibrationDoseValue, weighted * 4e-4);
        Assert.Equal(Math.Sqrt(2), comfort.CrestFactor!.Value, 3e-4);
        Assert.Equal(1.106681920, comfort.VibrationDoseValue / (comfort.WeightedRms * Math.Pow(Length, 0.25)), 1e-4);
    }

    [Fact]
    public void Nothing_HasNoCrestFactor()
    {
        var comfort = Measure(_ => 0);
        Assert.Equal(new Comfort(0, 0, null), comfort);
    }

    private static double Sine(double amplitude, double frequency, double time) => amplitude * Math.Sin(2 * Math.PI * frequency * time);

    private static Comfort Measure(Func<double, double> acceleration)
    {
        const double Rate = 1000;
        var filter = new OneSignal(FrequencyWeighting.Wk, Rate);
        var comfort = new ComfortSums<OneLane>();
        for (var i = 0; i < (Settled + Length) * Rate; i++)
        {
            var weighted = filter.Next(acceleration(i / Rate));
            if (i >= Settled * Rate)
                comfort.Add(new OneLane(weighted));
        }

        return comfort.Take(0, Length * Rate).ToComfort(Rate);
    }
}
