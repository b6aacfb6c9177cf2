using MathNet.Numerics.Integration;
using RollRide.Mounting;

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

        var rightCurvature = fitting.Curvature(q, r, Side.Right);
        var leftCurvature = fitting.Curvature(q, -r, Side.Left);
        Assert.Equal(leftCurvature with { HeaveRoll = -leftCurvature.HeaveRoll }, rightCurvature);
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

        var curvature = fitting.Curvature(q, r, side);
        Assert.Equal(Difference(At(h, 0).HeaveRatio, At(-h, 0).HeaveRatio), curvature.HeaveHeave, second);
        Assert.Equal(Difference(At(0, h).HeaveRatio, At(0, -h).HeaveRatio), curvature.HeaveRoll, second);
        Assert.Equal(Difference(At(h, 0).RollArm, At(-h, 0).RollArm), curvature.HeaveRoll, second);
        Assert.Equal(Difference(At(0, h).RollArm, At(0, -h).RollArm), curvature.RollRoll, second);
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
        void Work()
        {
            for (int i = -100; i <= 100; i++)
                sum += fitting.At(i * 5e-4, i * 3e-4, Side.Right).Compression + fitting.Curvature(i * 5e-4, 0, Side.Left).HeaveRoll;
        }

        Work();
        long before = GC.GetAllocatedBytesForCurrentThread();
        Work();
        long after = GC.GetAllocatedBytesForCurrentThread();
        Assert.Equal(0, after - before);
        Assert.True(double.IsFinite(sum));
    }
}
