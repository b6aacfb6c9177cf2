using CsCheck;
using MathNet.Numerics;
using RollRide.Damping;

namespace RollRide.Tests.Damping;

/// <summary>
/// <c>ceq(V) = (1/πV) ∫₀^{2π} F(V cos θ) cos θ dθ</c> against closed forms. EQV-n are the numbers of this project's
/// list of check values.
/// </summary>
public class EquivalentCoefficientTests
{
    // The closed forms and the code add a dozen terms of the same size: relative roundings of 1e-16 each.
    private const double Rounding = 1e-13;

    [Theory]
    [InlineData(0)]
    [InlineData(0.003)]
    [InlineData(0.4)]
    [InlineData(7)]
    public void LinearDamper_HasItsCoefficientAtEveryAmplitude(double amplitude)
    {
        // Identity.
        var curve = ForceVelocityCurve.Linear(1500);

        foreach (var direction in Enum.GetValues<DampingDirection>())
            AssertRelative(1500, curve.EquivalentCoefficient(amplitude, direction), Rounding);
        Assert.Equal(0, curve.MeanForce(amplitude), 1500 * amplitude * Rounding);
    }

    [Fact]
    public void CoulombForce_Gives4FcOverPiV()
    {
        // 4 Fc/(πV); S. S. Rao, Mechanical Vibrations, and J. P. Den Hartog, Mechanical Vibrations (from memory).
        // A step built up over |v| < w falls short of it by a relative (w/V)²/6 = 2e-11, and its steepness, 2e7 N·s/m,
        // multiplies roundings of angles of 1e-16: 1e-11 of 255 N·s/m.
        const double fc = 200, width = 1e-5, v = 1;
        var curve = ForceVelocityCurve.FromPoints([-2, -width, width, 2], [-fc, -fc, fc, fc]);

        const double expected = 4 * fc / (Math.PI * v);
        Validation.Row("", "equivalent coefficient of Coulomb friction, 4 Fc/(πV), N·s/m", Evidence.Printed + "Thomson, Theory of Vibration with Applications, 4th ed., answers p. 529, problem 3-38: 4D/(πωX)",
            expected, curve.EquivalentCoefficient(v), 1e-10 * expected);
    }

    [Fact]
    public void QuadraticForce_Gives8aVOver3Pi()
    {
        // 8 a V/(3π); Rao; Den Hartog (from memory). Chords of n steps over [0, V] overstate a v² by at most
        // a (V/n)²/4; with n = 2000 that is 1.5e-7 of the mean force, and 2/3 of it on average.
        const double expected = 8 * 900 * 1.3 / (3 * Math.PI);
        Validation.Row("", "equivalent coefficient of a quadratic damper, 8 a V/(3π), N·s/m", Evidence.Remembered + "Rao, Mechanical Vibrations: 8 a V/(3π)",
            expected, PowerLaw(900, 2, 1.3, CurveInterpolation.Linear).EquivalentCoefficient(1.3), 2e-7 * expected);
        // The cubic follows the parabola still closer, except for the first step from rest, where its slope is that to the first point.
        AssertRelative(8 * 900 * 1.3 / (3 * Math.PI), PowerLaw(900, 2, 1.3, CurveInterpolation.MonotoneCubic).EquivalentCoefficient(1.3), 1e-9);
    }

    [Theory]
    [InlineData(1.3)]
    [InlineData(1.5)]
    [InlineData(1.75)]
    [InlineData(2.5)]
    public void PowerLawForce_GivesTheGammaFunctionFormula(double p)
    {
        // a V^{p−1} (2/√π) Γ(p/2+1)/Γ(p/2+3/2); derived: ∫₀^{π/2} cos^{p+1} θ dθ is a beta function.
        const double a = 700, v = 0.8;
        double expected = a * Math.Pow(v, p - 1) * 2 / Math.Sqrt(Math.PI)
            * SpecialFunctions.Gamma(p / 2 + 1) / SpecialFunctions.Gamma(p / 2 + 1.5);

        // Chord error p (p−1)/8 (V/n)² v^{p−2}, n = 2000: below 2e-7 of the force for these p.
        Validation.Row(FormattableString.Invariant($"p = {p}"), "equivalent coefficient of a damper whose force goes with a power of velocity, N·s/m",
            Evidence.Derived + "a V^(p−1) (2/√π) Γ(p/2+1)/Γ(p/2+3/2)", expected, PowerLaw(a, p, v, CurveInterpolation.Linear).EquivalentCoefficient(v), 2e-7 * expected);
    }

    [Fact]
    public void BilinearDamper_HasTheMeanCoefficientAndTheJackingForce()
    {
        // Derived: (cc + cr)/2, and a mean force (cc − cr) V/π.
        const double cc = 700, cr = 2900, v = 0.35;
        var curve = ForceVelocityCurve.FromPoints([-1, 0, 1], [-cr, 0, cc]);

        Validation.Row("", "equivalent coefficient of a bilinear damper, (cc + cr)/2, N·s/m", Evidence.Derived + "energy of a cycle", (cc + cr) / 2, curve.EquivalentCoefficient(v), (cc + cr) / 2 * Rounding);
        AssertRelative(cc, curve.EquivalentCoefficient(v, DampingDirection.Compression), Rounding);
        AssertRelative(cr, curve.EquivalentCoefficient(v, DampingDirection.Rebound), Rounding);
        Validation.Row("", "mean force of a bilinear damper, (cc − cr) V/π, N", Evidence.Derived + "mean of a cycle", (cc - cr) * v / Math.PI, curve.MeanForce(v), -(cc - cr) * v / Math.PI * Rounding);

        Assert.Equal(1800, curve.EquivalentCoefficient(0));
        Assert.Equal(cc, curve.EquivalentCoefficient(0, DampingDirection.Compression));
        Assert.Equal(cr, curve.EquivalentCoefficient(0, DampingDirection.Rebound));
        Assert.Equal(0, curve.MeanForce(0));
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.100001)]
    [InlineData(0.25)]
    [InlineData(1)]
    [InlineData(8)]
    public void DigressiveDamper_GivesTheSaturationDescribingFunction(double v)
    {
        // A. Gelb and W. E. Vander Velde, Multiple-Input Describing Functions, 1968 (from memory; derived again).
        const double c1 = 5000, c2 = 800, v0 = 0.1;
        double force0 = c1 * v0, force1 = force0 + c2 * (1 - v0);
        var curve = ForceVelocityCurve.FromPoints([-1, -v0, 0, v0, 1], [-force1, -force0, 0, force0, force1]);
        double ratio = v0 / v;
        double expected = c2 + 2 / Math.PI * (c1 - c2) * (Math.Asin(ratio) + ratio * Math.Sqrt(1 - ratio * ratio));

        Validation.Row(FormattableString.Invariant($"V = {v}"), "equivalent coefficient of a digressive damper, N·s/m",
            Evidence.Derived + "describing function of a saturation, after Gelb and Vander Velde, Multiple-Input Describing Functions, 1968 (remembered)", expected, curve.EquivalentCoefficient(v), expected * Rounding);
    }

    [Fact]
    public void AnyCurve_AgreesWithPlainQuadrature()
    {
        // The midpoint rule with n panels over the full cycle errs, at each of the corners, by at most slope jump ·
        // V · h²/8 with h = 2π/n; with n = 20000, up to 24 crossings of corners and jumps below 8000 N·s/m that is
        // below 24 · 8000 · h²/8 / π ~ 8e-4 N·s/m for ceq.
        const int n = 20_000;
        foreach (var (curve, v) in Gen.Select(DampingGen.RisingCurve, Gen.Double[0.01, 3]).Samples(60))
        {
            double both = 0, compression = 0, mean = 0;
            for (int i = 0; i < n; i++)
            {
                double cos = Math.Cos(2 * Math.PI * (i + 0.5) / n);
                double force = curve.Force(v * cos);
                both += force * cos;
                compression += cos > 0 ? 2 * force * cos : 0;
                mean += force / n;
            }

            double weight = 2 / (v * n);
            Assert.Equal(both * weight, curve.EquivalentCoefficient(v), 1e-3);
            Assert.Equal(compression * weight, curve.EquivalentCoefficient(v, DampingDirection.Compression), 1e-3);
            Assert.Equal(mean, curve.MeanForce(v), 1e-3 * v);
        }
    }

    [Fact]
    public void BothDirections_AreTheMeanOfTheTwo()
    {
        foreach (var (curve, v) in Gen.Select(DampingGen.RisingCurve, Gen.Double[0.001, 3]).Samples(500))
        {
            double mean = (curve.EquivalentCoefficient(v, DampingDirection.Compression)
                + curve.EquivalentCoefficient(v, DampingDirection.Rebound)) / 2;
            AssertRelative(mean, curve.EquivalentCoefficient(v), 1e-12);
        }
    }

    [Fact]
    public void SmallAmplitude_TendsToTheMeanSlopeAtRest()
    {
        var curve = ForceVelocityCurve.FromPoints([-1, -0.1, 0, 0.1, 1], [-2000, -600, 0, 150, 700]);

        AssertRelative(3750, curve.EquivalentCoefficient(0), Rounding);
        AssertRelative(3750, curve.EquivalentCoefficient(1e-9), Rounding);
    }

    [Fact]
    public void BadAmplitudeOrDirection_IsRefused()
    {
        var curve = ForceVelocityCurve.Linear(1000);

        Assert.Throws<ArgumentOutOfRangeException>(() => curve.EquivalentCoefficient(-0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => curve.EquivalentCoefficient(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => curve.MeanForce(double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>(() => curve.EquivalentCoefficient(1, (DampingDirection)7));
    }

    private static ForceVelocityCurve PowerLaw(double a, double p, double range, CurveInterpolation interpolation)
    {
        const int steps = 2000;
        double[] v = [.. Enumerable.Range(-steps, 2 * steps + 1).Select(i => range * i / steps)];
        return ForceVelocityCurve.FromPoints(v, [.. v.Select(x => Math.Sign(x) * a * Math.Pow(Math.Abs(x), p))], interpolation);
    }

    private static void AssertRelative(double expected, double actual, double tolerance) =>
        Assert.Equal(expected, actual, Math.Abs(expected) * tolerance);
}
