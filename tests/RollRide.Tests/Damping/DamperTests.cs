using CsCheck;
using RollRide.Damping;

namespace RollRide.Tests.Damping;

public class DamperTests
{
    private static readonly ForceVelocityCurve Curve =
        ForceVelocityCurve.FromPoints([-1, -0.1, 0, 0.1, 1], [-2000, -600, 0, 150, 700]);

    private static readonly ForceVelocityCurve Flat = ForceVelocityCurve.FromPoints([-1, 0, 0.5, 1], [-900, 0, 500, 500]);

    private static readonly Damper Plain = new("plain", Curve);
    private static readonly Damper Sticky = new("sticky", Curve) { Friction = 80, FrictionVelocity = 0.004, GasForce = 150 };

    [Fact]
    public void Force_IsCurvePlusFrictionWithoutGas()
    {
        Assert.Equal(Curve.Force(0.3), Plain.Force(0.3));
        Assert.Equal(Curve.Force(0.006) + 80 * Math.Tanh(1.5), Sticky.Force(0.006), 1e-12);
        Assert.Equal(Curve.Force(-0.5) - 80, Sticky.Force(-0.5), 1e-12); // tanh is 1 to the last digit there.
        Assert.Equal(0, Sticky.Force(0));
    }

    [Fact]
    public void Slope_IsTheDerivativeOfForce()
    {
        // Central difference with h = 1e-7 m/s: friction's third derivative is at most 2 Fc/v0³ = 2.5e9 N·s³/m³, so it
        // errs by h²/6 of that, 4e-6 N·s/m; rounding of 1000 N adds 2e-13/1e-7 = 2e-6.
        const double h = 1e-7;
        foreach (double v in (double[])[-0.5, -0.02, -0.003, 0.001, 0.006, 0.05, 0.7])
            Assert.Equal((Sticky.Force(v + h) - Sticky.Force(v - h)) / (2 * h), Sticky.Slope(v), 2e-5);
        Assert.Equal(3750 + 80 / 0.004, Sticky.Slope(0), 1e-9);
    }

    [Fact]
    public void VelocityAt_OfAForce_ReturnsTheVelocityThatGaveIt()
    {
        // To a few roundings of the force itself (forces reach 5e4 N: 7e-12 N each).
        var cases = Gen.Select(DampingGen.RisingCurve, Gen.Double[-4, 4], Gen.Double[0, 300], Gen.Double[1e-4, 0.05], Gen.Bool);
        int tested = 0;
        foreach (var (curve, fast, friction, frictionVelocity, slow) in cases.Samples(1000))
        {
            if (!curve.IsStrictlyIncreasing)
                continue;
            tested++;
            var damper = new Damper("d", curve) { Friction = friction, FrictionVelocity = frictionVelocity };
            double velocity = slow ? fast * 1e-3 : fast;
            double back = damper.VelocityAt(damper.Force(velocity));
            Assert.Equal(damper.Force(velocity), damper.Force(back), 1e-10);
            Assert.Equal(velocity, back, 1e-9 / Math.Min(damper.Slope(velocity), damper.Slope(back)));
        }

        Assert.True(tested > 500, $"Only {tested} curves of 1000 could be tested.");
    }

    [Fact]
    public void VelocityAt_ZeroForce_IsRest() => Assert.Equal(0, Sticky.VelocityAt(0));

    [Fact]
    public void VelocityAt_OfNotANumber_IsNotANumber() => Assert.True(double.IsNaN(Sticky.VelocityAt(double.NaN)));

    [Fact]
    public void EquivalentCoefficient_WithoutFriction_IsTheCurves()
    {
        Assert.Equal(Curve.EquivalentCoefficient(0.2), Sticky.EquivalentCoefficient(0.2));
        Assert.Equal(
            Curve.EquivalentCoefficient(0.2, DampingDirection.Rebound),
            Sticky.EquivalentCoefficient(0.2, DampingDirection.Rebound));
    }

    [Fact]
    public void EquivalentCoefficient_WithFriction_TendsToCoulombsAtLargeAmplitudeAndToTheSlopeAtSmall()
    {
        // 4 Fc/(πV) (S. S. Rao; J. P. Den Hartog; from memory). The reversal's finite width takes a relative
        // (v0/V)² ∫₀^∞ w (1 − tanh w) dw = π²/24 (v0/V)² away; the next term is of order (v0/V)⁴ = 1e-12.
        const double v = 4, coulomb = 4 * 80 / (Math.PI * v), width = 0.004 / v;
        double friction = Sticky.EquivalentCoefficient(v, includeFriction: true) - Sticky.EquivalentCoefficient(v);
        Validation.Row("smoothed", "equivalent coefficient of a damper's friction, 4 Fc/(πV) less its width, N·s/m", Evidence.Derived + "4D/(πωX) of Thomson, Theory of Vibration with Applications, less the series of its smoothing",
            coulomb * (1 - Math.PI * Math.PI / 24 * width * width), friction, coulomb * 1e-11);

        Assert.Equal(3750 + 20_000, Sticky.EquivalentCoefficient(0, includeFriction: true), 1e-9);
        Assert.Equal(3750 + 20_000, Sticky.EquivalentCoefficient(1e-8, includeFriction: true), 1e-6); // Friction's share is less by (V/v0)²/4 of itself, 3e-8 N·s/m.
    }

    [Theory]
    [InlineData(0.003)]
    [InlineData(0.05)]
    [InlineData(0.2)]
    public void EquivalentCoefficient_WithFriction_AgreesWithPlainQuadrature(double v)
    {
        // Trapezoid sums over a whole period of an analytic function converge exponentially, e^{−n·δ} with δ ~ v0/V:
        // 1e5 points against V/v0 = 50 leave rounding only.
        const int n = 100_000;
        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            double cos = Math.Cos(2 * Math.PI * (i + 0.5) / n);
            sum += 80 * Math.Tanh(v * cos / 0.004) * cos;
        }

        double expected = 2 * sum / (v * n);
        double actual = Sticky.EquivalentCoefficient(v, DampingDirection.Compression, includeFriction: true)
            - Sticky.EquivalentCoefficient(v, DampingDirection.Compression);
        Assert.Equal(expected, actual, expected * 1e-11);
    }

    [Fact]
    public void Damper_WithTopMount_NeedsAnInvertibleCurve()
    {
        Assert.Equal(4e5, (Plain with { TopMountStiffness = 4e5 }).TopMountStiffness);
        Assert.Throws<ArgumentException>(() => new Damper("flat", Flat) { TopMountStiffness = 4e5 });
        Assert.Throws<ArgumentException>(() => Plain with { TopMountStiffness = 4e5, Curve = Flat });
        Assert.Equal(Flat, (Plain with { Curve = Flat }).Curve);
    }

    [Fact]
    public void Damper_BadValues_AreRefusedByName()
    {
        AssertRefused(nameof(Damper.Friction), () => Plain with { Friction = -1 });
        AssertRefused(nameof(Damper.Friction), () => Plain with { Friction = double.NaN });
        AssertRefused(nameof(Damper.FrictionVelocity), () => Plain with { FrictionVelocity = 0 });
        AssertRefused(nameof(Damper.GasForce), () => Plain with { GasForce = -5 });
        AssertRefused(nameof(Damper.TopMountStiffness), () => Plain with { TopMountStiffness = 0 });
        AssertRefused(nameof(Damper.Name), () => new Damper(" ", Curve));
        AssertRefused(nameof(Damper.Curve), () => new Damper("none", null!));
    }

    [Fact]
    public void ForceAndInverse_AllocateNothing()
    {
        double sum = 0;
        void Work()
        {
            for (int i = -500; i < 500; i++)
                sum += Sticky.Force(i * 0.004) + Sticky.Slope(i * 0.004) + Sticky.VelocityAt(i * 3);
        }

        Work();
        long before = GC.GetAllocatedBytesForCurrentThread();
        Work();
        long after = GC.GetAllocatedBytesForCurrentThread();

        Assert.Equal(0, after - before);
        Assert.True(double.IsFinite(sum));
    }

    private static void AssertRefused(string name, Func<Damper> make) =>
        Assert.Equal(name, Assert.ThrowsAny<ArgumentException>(make).ParamName);
}
