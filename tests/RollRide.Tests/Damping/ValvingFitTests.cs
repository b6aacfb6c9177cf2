using RollRide.Damping;

namespace RollRide.Tests.Damping;

public class ValvingFitTests
{
    private static readonly double[] Speeds = [0.026, 0.052, 0.08, 0.131, 0.2, 0.262, 0.393, 0.524, 0.786, 1.047, 1.5];

    private static ForceVelocityPoint[] Sampled(Valving valving, Func<int, double>? error = null) =>
        [.. Speeds.SelectMany(v => new[] { -v, v }).Order().Select((v, i) => new ForceVelocityPoint(v, valving.Force(v) + (error?.Invoke(i) ?? 0)))];

    private static void AssertClose(ValveCharacteristic expected, ValveCharacteristic actual, double relative)
    {
        Assert.Equal(expected.BleedSlope, actual.BleedSlope, relative * expected.BleedSlope);
        Assert.Equal(expected.KneeVelocity, actual.KneeVelocity, relative * expected.KneeVelocity);
        Assert.Equal(expected.HighSpeedSlope, actual.HighSpeedSlope, relative * expected.HighSpeedSlope);
    }

    [Fact]
    public void Of_PointsOfASharpValving_FindsItAgain()
    {
        var fit = ValvingFit.Of(Sampled(DynoBench.Digressive));

        // Exact data: only the minimiser's stopping rule is left, far below a thousandth.
        AssertClose(DynoBench.Digressive.Compression, fit.Valving.Compression, 1e-3);
        AssertClose(DynoBench.Digressive.Rebound, fit.Valving.Rebound, 1e-3);
        Assert.InRange(fit.RmsResidual, 0, 0.5);
    }

    [Fact]
    public void Of_PointsOfARoundedValvingWithBlowOff_FindsItAgain()
    {
        var made = new Valving(
            new ValveCharacteristic(2400, 0.16, 1000) { BlowOff = new BlowOff(0.7, 300), Rounding = 0.5 },
            new ValveCharacteristic(4800, 0.12, 1900) { BlowOff = new BlowOff(0.8, 700), Rounding = 0.4 });
        var fit = ValvingFit.Of(Sampled(made), rounded: true, blowOff: true);

        AssertClose(made.Compression, fit.Valving.Compression, 0.02);
        AssertClose(made.Rebound, fit.Valving.Rebound, 0.02);
        Assert.Equal(0.7, fit.Valving.Compression.BlowOff!.Velocity, 0.02);
        Assert.InRange(fit.RmsResidual, 0, 2);
    }

    [Fact]
    public void Of_Residuals_AreMeasuredMinusFitted()
    {
        // A constant +5 N in both directions cannot be followed by a valving through the origin: what is left shows it.
        var points = Sampled(DynoBench.Digressive, i => i % 2 == 0 ? 5 : -5);
        var fit = ValvingFit.Of(points);
        Assert.Equal(points.Length, fit.Residuals.Length);
        Assert.All(fit.Residuals.Zip(points), pair =>
            Assert.Equal(pair.Second.Force - fit.Valving.Force(pair.Second.Velocity), pair.First.Force, 1e-9));
        Assert.InRange(fit.RmsResidual, 2, 5); // alternating ±5 N, of which three terms a side take up a little
        Assert.InRange(Math.Abs(fit.LargestResidual.Force), fit.RmsResidual, 10);
    }

    [Fact]
    public void Of_TooFewOrPushingPoints_AreRefusedWithTheReason()
    {
        var few = Sampled(DynoBench.Digressive).Where(p => Math.Abs(p.Velocity) < 0.06).ToArray();
        Assert.Contains("needs at least 3", Assert.Throws<ArgumentException>(() => ValvingFit.Of(few)).Message, StringComparison.Ordinal);
        var pushing = Sampled(DynoBench.Digressive);
        pushing[^1] = pushing[^1] with { Force = -1 };
        Assert.Contains("does not resist", Assert.Throws<ArgumentException>(() => ValvingFit.Of(pushing)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_NoisyLoopsOfAKnownValving_RecoversItWithinItsNoise()
    {
        var bench = new DynoBench { Valving = DynoBench.Digressive, Friction = 30, GasForce = 120, GasRate = 400, Noise = 12 };
        var reduction = DynoReducer.Reduce([.. Speeds.Select((v, i) => bench.Sine(v, cycles: 5, seed: 10 + i))], DynoMethod.PeakVelocity);
        var fit = ValvingFit.Of(reduction.Curve.Points);

        // A point averages about 40 samples a cycle (within 5 % of the peak) over 5 cycles: 12 N/√200 ≈ 0.85 N. Five standard
        // deviations over the slowest speeds' 60 to 120 N are 2 to 4 %, so 3 % on slopes and knee is within the noise.
        AssertClose(DynoBench.Digressive.Compression, fit.Valving.Compression, 0.03);
        AssertClose(DynoBench.Digressive.Rebound, fit.Valving.Rebound, 0.03);
        Assert.InRange(fit.RmsResidual, 0, 3 * 0.85);
    }
}
