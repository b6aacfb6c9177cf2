using CsCheck;
using RollRide.Damping;

namespace RollRide.Tests.Damping;

/// <summary>Random force–velocity curves as a dynamometer might give them: 2 to 12 points, rising through the origin's neighbourhood.</summary>
internal static class DampingGen
{
    public static readonly Gen<ForceVelocityCurve> RisingCurve =
        from below in Gen.Int[1, 6]
        from above in Gen.Int[1, 6]
        from steps in Gen.Double[0.02, 0.5].Array[below + above]
        from slopes in Gen.Double[100, 8000].Array[below + above]
        from interpolation in Gen.Enum<CurveInterpolation>()
        from withOrigin in Gen.Bool
        select Build(below, steps, slopes, interpolation, withOrigin);

    private static ForceVelocityCurve Build(int below, double[] steps, double[] slopes, CurveInterpolation interpolation, bool withOrigin)
    {
        // Walks outward from rest, so that the curve passes through the origin whether a point lies there or not.
        var points = new SortedDictionary<double, double>();
        if (withOrigin)
            points[0] = 0;
        double v = 0, f = 0;
        for (int i = below - 1; i >= 0; i--)
            points[v -= steps[i]] = f -= slopes[i] * steps[i];
        (v, f) = (0, 0);
        for (int i = below; i < steps.Length; i++)
            points[v += steps[i]] = f += slopes[i] * steps[i];
        return ForceVelocityCurve.FromPoints([.. points.Keys], [.. points.Values], interpolation);
    }
}
