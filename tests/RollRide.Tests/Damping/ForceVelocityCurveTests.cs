using CsCheck;
using RollRide.Damping;
using RollRide.Numerics;

namespace RollRide.Tests.Damping;

public class ForceVelocityCurveTests
{
    private static readonly double[] Velocities = [-1.0, -0.3, -0.1, 0, 0.1, 0.3, 1.0];
    private static readonly double[] Forces = [-3000, -1500, -700, 0, 250, 500, 900];

    private static readonly ForceVelocityCurve Digressive = ForceVelocityCurve.FromPoints(Velocities, Forces);
    private static readonly ForceVelocityCurve Smooth =
        ForceVelocityCurve.FromPoints(Velocities, Forces, CurveInterpolation.MonotoneCubic);

    // A force of 3000 N from a few additions: some roundings of 4.5e-13 N each.
    private const double ForceRounding = 5e-12;

    [Fact]
    public void Force_AtEveryPoint_IsThePointsForce()
    {
        for (int i = 0; i < Velocities.Length; i++)
        {
            Assert.Equal(Forces[i], Digressive.Force(Velocities[i]), ForceRounding);
            Assert.Equal(Forces[i], Smooth.Force(Velocities[i]), ForceRounding);
        }

        Assert.Equal(0, Digressive.Force(0));
        Assert.Equal(0, Digressive.Force(-0.0));
    }

    [Fact]
    public void Force_BetweenPointsOfLinearCurve_IsTheChord()
    {
        Assert.Equal(-1100, Digressive.Force(-0.2), ForceRounding);
        Assert.Equal(125, Digressive.Force(0.05), ForceRounding);
        Assert.Equal(700, Digressive.Force(0.65), ForceRounding);
    }

    [Fact]
    public void Force_BeyondTheDataOfLinearCurve_ContinuesTheEndSlope()
    {
        // End slopes by hand: rebound 1500 N over 0.7 m/s, compression 400 N over 0.7 m/s.
        Assert.Equal(-3000 - 1500 / 0.7 * 2, Digressive.Force(-3), ForceRounding);
        Assert.Equal(900 + 400 / 0.7 * 2, Digressive.Force(3), ForceRounding);
        Assert.Equal((-1.0, 1.0), (Digressive.MinimumVelocity, Digressive.MaximumVelocity));
    }

    [Fact]
    public void Force_BeyondTheDataOfCubicCurve_IsStraightWithTheEndSlope()
    {
        foreach (double end in (double[])[-1, 1])
        {
            double slope = Smooth.Slope(end);
            Assert.True(slope > 0);
            Assert.Equal(Smooth.Force(end) + slope * 4 * end, Smooth.Force(5 * end), ForceRounding * 5);
            Assert.Equal(slope, Smooth.Slope(5 * end), 1e-9);
            Assert.Equal(slope, Smooth.Slope(end * (1 - 1e-9)), slope * 1e-6); // Continuous: 1e-9 m/s inside it differs by about 1e-9 of itself.
        }
    }

    [Fact]
    public void Slope_AtACorner_IsTheMeanOfBothSides()
    {
        Assert.Equal((7000 + 2500) / 2.0, Digressive.Slope(0), 1e-9);
        Assert.Equal((2500 + 1250) / 2.0, Digressive.Slope(0.1), 1e-9);
        Assert.Equal(2500, Digressive.Slope(0.05), 1e-9);
        Assert.Equal(7000, Digressive.Slope(-0.05), 1e-9);
    }

    [Fact]
    public void Slope_OfCubicCurve_IsTheDerivativeOfForce()
    {
        // The curves' third derivative stays below 6·ΔF/Δv³ ~ 6·4000/0.02² N·s³/m³, so the central difference with
        // h = 1e-6 m/s errs by 1e-5 N·s/m, and rounding of forces of 1e4 N by 2e-12·1e4/1e-6 = 2e-2 at the very worst.
        const double h = 1e-6, tolerance = 3e-2;
        foreach (var (curve, v) in Gen.Select(DampingGen.RisingCurve, Gen.Double[-4, 4]).Samples(500))
        {
            if (curve.Points.All(p => Math.Abs(p.Velocity - v) > h))
                Assert.Equal((curve.Force(v + h) - curve.Force(v - h)) / (2 * h), curve.Slope(v), tolerance);
        }
    }

    [Fact]
    public void SecondDerivative_OfCubicCurve_IsThatOfTheSlope()
    {
        // On a piece the slope is a quadratic, whose central difference is exact: slopes of 1e4 N·s/m leave 2e-12/2e-3 = 1e-9 N·s²/m² of rounding.
        const double h = 1e-3;
        foreach (double v in (double[])[-2, -0.8, -0.2, -0.07, 0.03, 0.17, 0.21, 0.6, 3])
            Assert.Equal((Smooth.Slope(v + h) - Smooth.Slope(v - h)) / (2 * h), ((ISmoothFunction)Smooth).SecondAt(v), 1e-8);
    }

    [Fact]
    public void Force_OfMonotoneCubic_NeverOvershootsItsNeighbouringPoints()
    {
        const double rounding = 1e-10; // Of forces up to 2e4 N.
        foreach (var (curve, t) in Gen.Select(DampingGen.RisingCurve, Gen.Double[0, 1]).Samples(500))
        {
            foreach (var (from, to) in curve.Points.Zip(curve.Points.Skip(1)))
                Assert.InRange(curve.Force(from.Velocity + t * (to.Velocity - from.Velocity)), from.Force - rounding, to.Force + rounding);
        }
    }

    [Fact]
    public void Force_OfMonotoneCubicWithPlateau_StaysOnThePlateau()
    {
        var curve = ForceVelocityCurve.FromPoints([-1, 0, 0.2, 0.4, 1], [-900, 0, 500, 500, 800], CurveInterpolation.MonotoneCubic);

        Assert.Equal(500, curve.Force(0.3), ForceRounding);
        Assert.Equal(0, curve.Slope(0.3), 1e-9);
        Assert.False(curve.IsStrictlyIncreasing);
    }

    [Fact]
    public void Force_OfMonotoneCubicThroughThreePoints_IsTheHandComputedHermiteCubic()
    {
        // Slopes by the rule of Fritsch and Butland as PCHIP uses it: weighted harmonic mean inside, the three-point
        // end formula outside. Chords 3000 and 1000 N·s/m, equal steps: inside 2/(1/3000 + 1/1000) = 1500;
        // left end (3·3000 − 1000)/2 = 4000; right end (3·1000 − 3000)/2 = 0. No point at rest: one curve.
        var curve = ForceVelocityCurve.FromPoints([-1.5, -0.5, 0.5], [-3500, -500, 500], CurveInterpolation.MonotoneCubic);

        Assert.Equal(4000, curve.Slope(-1.5), 1e-9);
        Assert.Equal(1500, curve.Slope(-0.5), 1e-9);
        Assert.Equal(0, curve.Slope(0.5), 1e-9);
        // Half way a Hermite cubic has the mean force plus an eighth of the step times the difference of slopes.
        Assert.Equal(-2000 + (4000 - 1500) / 8.0, curve.Force(-1), 1e-9);
        Assert.Equal(0 + (1500 - 0) / 8.0, curve.Force(0), 1e-9);
        Assert.False(curve.IsStrictlyIncreasing); // Flat beyond the right end.
    }

    [Fact]
    public void Force_OfMonotoneCubicWithPointAtRest_KeepsTheBreakOfSlopeThere()
    {
        // Compression has its point at 1 m/s alone: a straight line of 1000 N·s/m. Rebound has chords of 3000 and 1000 N·s/m from
        // rest: by the rules above 4000 at rest, 1500 at the inner point, 0 at the end.
        var curve = ForceVelocityCurve.FromPoints([-2, -1, 0, 1], [-4000, -3000, 0, 1000], CurveInterpolation.MonotoneCubic);

        Assert.Equal(1000, curve.EquivalentCoefficient(0, DampingDirection.Compression), 1e-9);
        Assert.Equal(4000, curve.EquivalentCoefficient(0, DampingDirection.Rebound), 1e-9);
        Assert.Equal((1000 + 4000) / 2.0, curve.Slope(0), 1e-9);
        Assert.Equal(500, curve.Force(0.5), 1e-9);
        Assert.Equal(-1500 - (4000 - 1500) / 8.0, curve.Force(-0.5), 1e-9);
        Assert.Equal(1500, curve.Slope(-1), 1e-9);
        Assert.Equal(-4000, curve.Force(-3), 1e-9);
    }

    [Fact]
    public void Force_OfMonotoneCubicThatSteepens_KeepsTheSlopeOfTheFirstPointAtRest()
    {
        // Chords of 200 and 2000 N·s/m: the end formula alone, (3·200 − 2000)/2 < 0, would leave no damping at rest.
        var curve = ForceVelocityCurve.FromPoints([-1, 0, 0.5, 1], [-300, 0, 100, 1100], CurveInterpolation.MonotoneCubic);

        Assert.Equal(200, curve.EquivalentCoefficient(0, DampingDirection.Compression), 1e-9);
        Assert.Equal(300, curve.EquivalentCoefficient(0, DampingDirection.Rebound), 1e-9);
    }

    [Fact]
    public void Force_OfMonotoneCubicWithPointAtRest_DoesNotLetOneDirectionBendTheOther()
    {
        double[] velocity = [-1, -0.3, -0.1, 0, 0.1, 0.3, 1];
        var soft = ForceVelocityCurve.FromPoints(velocity, [-1200, -700, -400, 0, 150, 250, 500], CurveInterpolation.MonotoneCubic);
        var hard = ForceVelocityCurve.FromPoints(velocity, [-4800, -2800, -1600, 0, 150, 250, 500], CurveInterpolation.MonotoneCubic);

        Assert.All([0.02, 0.05, 0.2, 0.7, 1.4], v => Assert.Equal(soft.Force(v), hard.Force(v)));
        Assert.All([-0.02, -0.05, -0.2, -0.7, -1.4], v => Assert.Equal(4 * soft.Force(v), hard.Force(v), ForceRounding));
    }

    [Fact]
    public void FromPoints_MonotoneCubicThroughTwoPoints_IsTheLine()
    {
        var curve = ForceVelocityCurve.FromPoints([-1, 1], [-1000, 1000], CurveInterpolation.MonotoneCubic);

        Assert.Equal(250, curve.Force(0.25), ForceRounding);
        Assert.Empty(curve.EnergyFaults);
    }

    [Fact]
    public void VelocityAt_OfAForce_ReturnsTheVelocityThatGaveIt()
    {
        // The inverse is exact to roundings of the force (up to 5e4 N: 7e-12 N each), seen through the smallest slope.
        int tested = 0;
        foreach (var (curve, v) in Gen.Select(DampingGen.RisingCurve, Gen.Double[-4, 4]).Samples(1000))
        {
            if (!curve.IsStrictlyIncreasing)
                continue;
            tested++;
            double back = curve.VelocityAt(curve.Force(v));
            Assert.Equal(curve.Force(v), curve.Force(back), 1e-10);
            Assert.Equal(v, back, 1e-9 / Math.Min(curve.Slope(v), curve.Slope(back)));
        }

        Assert.True(tested > 500, $"Only {tested} curves of 1000 could be tested.");
    }

    [Fact]
    public void VelocityAt_OfACurveThatIsNotStrictlyIncreasing_IsRefused()
    {
        var flat = ForceVelocityCurve.FromPoints([-1, 0, 0.5, 1], [-900, 0, 500, 500]);

        Assert.False(flat.IsStrictlyIncreasing);
        Assert.Throws<InvalidOperationException>(() => flat.VelocityAt(100));
    }

    [Fact]
    public void Scaled_ByAFactor_MultipliesForcesAndSlopes()
    {
        var doubled = Smooth.Scaled(2);

        Assert.Equal(2 * Smooth.Force(0.17), doubled.Force(0.17), 2 * ForceRounding);
        Assert.Equal(2 * Smooth.Slope(-0.7), doubled.Slope(-0.7), 1e-9);
        Assert.Equal(CurveInterpolation.MonotoneCubic, doubled.Interpolation);
        Assert.Equal(0, Digressive.Scaled(0).Force(-0.4));
        Assert.Throws<ArgumentOutOfRangeException>(() => Digressive.Scaled(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Digressive.Scaled(double.NaN));
    }

    [Fact]
    public void Linear_IsTheStraightLineEverywhere()
    {
        var curve = ForceVelocityCurve.Linear(1500);

        foreach (double v in (double[])[-7, -1, -0.4, 0, 1e-9, 1, 12])
        {
            Assert.Equal(1500 * v, curve.Force(v), 1e-11);
            Assert.Equal(1500, curve.Slope(v));
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => ForceVelocityCurve.Linear(-1));
    }

    [Fact]
    public void EnergyFaults_OfADissipativeCurve_AreNone() => Assert.Empty(Digressive.EnergyFaults);

    [Fact]
    public void EnergyFaults_NameThePointsThatPushAndTheForceAtRest()
    {
        var curve = ForceVelocityCurve.FromPoints([-1, -0.1, 0, 0.1, 1], [-900, 20, 5, -10, 800]);

        Assert.Equal(
            [new EnergyFault(1, -0.1, 20), new EnergyFault(2, 0, 5), new EnergyFault(3, 0.1, -10)],
            curve.EnergyFaults);
    }

    [Fact]
    public void EnergyFaults_WithoutAPointAtRest_NameTheForceInterpolatedThere()
    {
        var curve = ForceVelocityCurve.FromPoints([-1, 3], [-900, 1100]);

        Assert.Equal([new EnergyFault(null, 0, -400)], curve.EnergyFaults);
    }

    [Theory]
    [InlineData(new[] { -1.0, 0, 0, 1 }, new[] { -1.0, 0, 0, 1 }, "point 3")]
    [InlineData(new[] { -1.0, 0, -0.5, 1 }, new[] { -1.0, 0, 0, 1 }, "point 3")]
    [InlineData(new[] { -1.0, double.NaN, 1 }, new[] { -1.0, 0, 1 }, "Point 2")]
    [InlineData(new[] { -1.0, 0, 1 }, new[] { -1.0, 0, double.PositiveInfinity }, "Point 3")]
    [InlineData(new[] { 0.1, 0.5, 1 }, new[] { 100.0, 500, 1000 }, "rebound (v < 0) has no points")]
    [InlineData(new[] { 0.0, 0.5, 1 }, new[] { 0.0, 500, 1000 }, "rebound (v < 0) has no points")]
    [InlineData(new[] { -1.0, -0.5 }, new[] { -1000.0, -500 }, "compression (v > 0) has no points")]
    [InlineData(new[] { -1.0, 1 }, new[] { -1000.0 }, "2 velocities and 1 forces")]
    [InlineData(new[] { -1.0 }, new[] { -1000.0 }, "at least 2 points")]
    [InlineData(new[] { -1e-320, 1e-320 }, new[] { -1e3, 1e3 }, "too close together")]
    public void FromPoints_BadPoints_AreRefusedByNumber(double[] velocity, double[] force, string expected)
    {
        var e = Assert.ThrowsAny<ArgumentException>(() => ForceVelocityCurve.FromPoints(velocity, force));
        Assert.Contains(expected, e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ForceSlopeAndInverse_AllocateNothing()
    {
        double sum = 0;
        void Work()
        {
            for (int i = -500; i < 500; i++)
            {
                double v = i * 0.004;
                sum += Digressive.Force(v) + Digressive.Slope(v) + Smooth.Force(v) + Digressive.VelocityAt(i * 5);
            }
        }

        Work();
        long before = GC.GetAllocatedBytesForCurrentThread();
        Work();
        long after = GC.GetAllocatedBytesForCurrentThread();

        Assert.Equal(0, after - before);
        Assert.True(double.IsFinite(sum));
    }
}
