using System.Runtime.Intrinsics;
using CsCheck;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class LanesTests
{
    private static readonly Gen<double> Number = Gen.Double[-1e6, 1e6];

    [Fact]
    public void EightLanes_EveryOperation_RoundsLikeOneLane() => Gen.Select(Number.Array[8], Number.Array[8], Number.Array[8]).SampleSame(200, sample =>
    {
        var (a, b, c) = sample;
        Check((x, y, z) => x + y, (x, y, z) => x + y);
        Check((x, y, z) => x - y, (x, y, z) => x - y);
        Check((x, y, z) => x * y, (x, y, z) => x * y);
        Check((x, y, z) => x / y, (x, y, z) => x / y);
        Check(OneLane.Fma, EightLanes.Fma);
        Check(OneLane.NegatedFma, EightLanes.NegatedFma);
        Check((x, y, z) => OneLane.Max(x, y), (x, y, z) => EightLanes.Max(x, y));
        Check((x, y, z) => OneLane.Min(x, y), (x, y, z) => EightLanes.Min(x, y));
        Check((x, y, z) => OneLane.WhereGreater(x, y, z, x), (x, y, z) => EightLanes.WhereGreater(x, y, z, x));
        Check((x, y, z) => OneLane.RoughLog2(OneLane.Abs(x)), (x, y, z) => EightLanes.RoughLog2(EightLanes.Abs(x)));
        Check((x, y, z) => OneLane.RoughExp2(x * OneLane.All(1e-4)), (x, y, z) => EightLanes.RoughExp2(x * EightLanes.All(1e-4)));
        for (var lane = 0; lane < 8; lane++)
            Assert.Equal(a[lane] > b[lane], (EightLanes.Greater(Eight(a), Eight(b)) >> lane & 1) != 0);

        void Check(Func<OneLane, OneLane, OneLane, OneLane> one, Func<EightLanes, EightLanes, EightLanes, EightLanes> eight)
        {
            var together = eight(Eight(a), Eight(b), Eight(c)).Values;
            for (var lane = 0; lane < 8; lane++)
                Assert.Equal(one(new(a[lane]), new(b[lane]), new(c[lane])).Value, together[lane]);
        }

        static EightLanes Eight(double[] values) => new(Vector512.Create(values));
    });

    [Fact]
    public void RoughLog2_AnyPositiveNumber_IsWithinItsBoundAndHasItsInverse() => Gen.Double[-300, 300].SampleSame(500, exponent =>
    {
        var value = Math.Pow(10, exponent);
        var log = OneLane.RoughLog2(new(value)).Value;

        // The chord of log2 over an octave lies at most 0.0861 below it.
        Assert.InRange(Math.Log2(value) - log, -1e-12, 0.0861);

        // A rounding of a logarithm of up to 1000 is 1e-13.
        Assert.Equal(1, OneLane.RoughExp2(new(log)).Value / value, 1e-12);
    });
}
