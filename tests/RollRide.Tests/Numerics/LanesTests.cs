using CsCheck;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class LanesTests
{
    private static readonly Gen<double> Number = Gen.Double[-1e6, 1e6];

    [Fact]
    public void FourLanes_EveryOperation_RoundsLikeOneLane() => AssertRoundsLikeOneLane<FourLanes>();

    [Fact]
    public void EightLanes_EveryOperation_RoundsLikeOneLane() => AssertRoundsLikeOneLane<EightLanes>();

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

    private static void AssertRoundsLikeOneLane<T>()
        where T : struct, ILanes<T> => Gen.Select(Number.Array[T.Count], Number.Array[T.Count], Number.Array[T.Count]).SampleSame(200, sample =>
    {
        var (a, b, c) = sample;
        Check((x, y, z) => x + y, (x, y, z) => x + y);
        Check((x, y, z) => x - y, (x, y, z) => x - y);
        Check((x, y, z) => x * y, (x, y, z) => x * y);
        Check((x, y, z) => x / y, (x, y, z) => x / y);
        Check((x, y, z) => OneLane.Fma(x, y, z), (x, y, z) => T.Fma(x, y, z));
        Check((x, y, z) => OneLane.NegatedFma(x, y, z), (x, y, z) => T.NegatedFma(x, y, z));
        Check((x, y, z) => OneLane.Max(x, y), (x, y, z) => T.Max(x, y));
        Check((x, y, z) => OneLane.Min(x, y), (x, y, z) => T.Min(x, y));
        Check((x, y, z) => OneLane.WhereGreater(x, y, z, x), (x, y, z) => T.WhereGreater(x, y, z, x));
        Check((x, y, z) => OneLane.RoughLog2(OneLane.Abs(x)), (x, y, z) => T.RoughLog2(T.Abs(x)));
        Check((x, y, z) => OneLane.RoughExp2(x * OneLane.All(1e-3)), (x, y, z) => T.RoughExp2(x * T.All(1e-3)));
        for (var lane = 0; lane < T.Count; lane++)
            Assert.Equal(a[lane] > b[lane], (T.Greater(Lanes(a)[0], Lanes(b)[0]) >> lane & 1) != 0);

        void Check(Func<OneLane, OneLane, OneLane, OneLane> one, Func<T, T, T, T> several)
        {
            var together = Lanes(new double[T.Count]);
            together[0] = several(Lanes(a)[0], Lanes(b)[0], Lanes(c)[0]);
            for (var lane = 0; lane < T.Count; lane++)
                Assert.Equal(one(new(a[lane]), new(b[lane]), new(c[lane])).Value, together[0, lane]);
        }

        static LaneBuffer<T> Lanes(double[] values)
        {
            var lanes = new LaneBuffer<T>(1);
            values.CopyTo(lanes.Scalars);
            return lanes;
        }
    });
}
