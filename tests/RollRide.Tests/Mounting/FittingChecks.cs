using MathNet.Numerics.Integration;
using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Tests.Mounting;

/// <summary>What every fitting must satisfy, whatever its geometry.</summary>
internal static class FittingChecks
{
    /// <summary>The right side is the mirror image of the left: <c>X_right(q, r) = X_left(q, −r)</c>, and so its derivatives.</summary>
    public static void RightMirrorsLeft(IFitting fitting, double q, double r)
    {
        var right = fitting.At(q, r, Side.Right);
        var left = fitting.At(q, -r, Side.Left);
        Assert.Equal(left with { RollArm = -left.RollArm }, right);

        var law = Law(fitting);
        var (rightByHeave, rightByRoll) = (At(law, q, r, 1, 0, Side.Right), At(law, q, r, 0, 1, Side.Right));
        var (leftByHeave, leftByRoll) = (At(law, q, -r, 1, 0, Side.Left), At(law, q, -r, 0, 1, Side.Left));
        Assert.Equal(
            (leftByHeave.HeaveRatio.Slope, -leftByHeave.RollArm.Slope, -leftByRoll.HeaveRatio.Slope, leftByRoll.RollArm.Slope),
            (rightByHeave.HeaveRatio.Slope, rightByHeave.RollArm.Slope, rightByRoll.HeaveRatio.Slope, rightByRoll.RollArm.Slope));
    }

    /// <summary>
    /// First and second derivatives against central differences of the compression and of the first derivatives.
    /// </summary>
    /// <remarks>
    /// Step h = 1e-6. For an element no shorter than 0.15 m whose end moves by at most 1.2 m/rad the third derivative of
    /// its length is below 3·1.2³/0.15² = 230 and the fourth below 15·1.2⁴/0.15³ = 9e3, so truncation (h²/6 of them) is
    /// below 4e-11 and 2e-9; lengths of about 1 m rounded to 2e-16 a few times give 1e-9 after the division by 2h.
    /// </remarks>
    public static void DerivativesAreThoseOfTheCompression(IFitting fitting, double q, double r, Side side)
    {
        const double h = 1e-6, first = 2e-9, second = 5e-9;
        ElementMotion At(double dq, double dr) => fitting.At(q + dq, r + dr, side);
        static double Difference(double plus, double minus) => (plus - minus) / (2 * h);

        var here = At(0, 0);
        Assert.Equal(Difference(At(h, 0).Compression, At(-h, 0).Compression), here.HeaveRatio, first);
        Assert.Equal(Difference(At(0, h).Compression, At(0, -h).Compression), here.RollArm, first);

        // The equations differentiated by themselves: the values are those of single numbers, the slopes of the compression are the ratios.
        var law = Law(fitting);
        var (byHeave, byRoll) = (FittingChecks.At(law, q, r, 1, 0, side), FittingChecks.At(law, q, r, 0, 1, side));
        Assert.Equal(here, new ElementMotion(byHeave.Compression.Value, byHeave.HeaveRatio.Value, byHeave.RollArm.Value));
        Assert.Equal(here, new ElementMotion(byRoll.Compression.Value, byRoll.HeaveRatio.Value, byRoll.RollArm.Value));
        Assert.Equal(here.HeaveRatio, byHeave.Compression.Slope, 1e-14);
        Assert.Equal(here.RollArm, byRoll.Compression.Slope, 1e-14);
        Assert.Equal(Difference(At(h, 0).HeaveRatio, At(-h, 0).HeaveRatio), byHeave.HeaveRatio.Slope, second);
        Assert.Equal(Difference(At(0, h).HeaveRatio, At(0, -h).HeaveRatio), byRoll.HeaveRatio.Slope, second);
        Assert.Equal(Difference(At(h, 0).RollArm, At(-h, 0).RollArm), byHeave.RollArm.Slope, second);
        Assert.Equal(Difference(At(0, h).RollArm, At(0, -h).RollArm), byRoll.RollArm.Slope, second);
    }

    /// <summary>
    /// Virtual work: a constant element force does, through the ratios along a path of heave and roll, the work it does on
    /// its own compression. The path is a straight line; 20 Gauss points leave rounding of a smooth integrand.
    /// </summary>
    public static void WorkThroughTheRatiosIsWorkOnTheElement(IFitting fitting, double q, double r, Side side)
    {
        const double force = 1000;
        double work = GaussLegendreRule.Integrate(
            t =>
            {
                var motion = fitting.At(q * t, r * t, side);
                return force * (motion.HeaveRatio * q + motion.RollArm * r);
            },
            0, 1, 20);

        Assert.Equal(force * fitting.At(q, r, side).Compression, work, 1e-11 * force);
    }

    /// <summary>Evaluating a fitting allocates nothing.</summary>
    public static void AllocatesNothing(IFitting fitting)
    {
        double sum = 0;
        var law = Law(fitting);
        void Work()
        {
            for (int i = -100; i <= 100; i++)
                sum += fitting.At(i * 5e-4, i * 3e-4, Side.Right).Compression + At(law, i * 5e-4, 0, 0, 1, Side.Left).HeaveRatio.Slope;
        }

        Work();
        long before = GC.GetAllocatedBytesForCurrentThread();
        Work();
        long after = GC.GetAllocatedBytesForCurrentThread();
        Assert.Equal(0, after - before);
        Assert.True(double.IsFinite(sum));
    }

    private static FittingLaw<Dual> Law(IFitting fitting)
    {
        var law = FittingLaw<Dual>.Of(fitting);
        law.Load(0, fitting);
        return law;
    }

    private static ElementMotion<Dual> At(FittingLaw<Dual> law, double q, double r, double heaveSlope, double rollSlope, Side side)
    {
        law.At(RelativePosition<Dual>.Of(new(q, heaveSlope), new(r, rollSlope)), side, out var motion);
        return motion;
    }
}
