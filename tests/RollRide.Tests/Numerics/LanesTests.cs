using CsCheck;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class LanesTests
{
    private static readonly double[] Special = [0, -0.0, 1, -1, double.PositiveInfinity, double.NegativeInfinity, double.Epsilon];

    private static readonly Gen<double> Number = Gen.Frequency(
        (8, Gen.Double[-1e6, 1e6]),
        (1, Gen.Double[-300, 300].Select(exponent => Math.Pow(10, exponent))),
        (1, Gen.Int[0, Special.Length - 1].Select(i => Special[i])));

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
        Check((x, y, z) => -x, (x, y, z) => -x);
        Check((x, y, z) => OneLane.Abs(x), (x, y, z) => T.Abs(x));
        Check((x, y, z) => OneLane.Sqrt(OneLane.Abs(x)), (x, y, z) => T.Sqrt(T.Abs(x)));
        Check((x, y, z) => OneLane.CopySign(x, y), (x, y, z) => T.CopySign(x, y));
        Check((x, y, z) => OneLane.RoughLog2(OneLane.Abs(x)), (x, y, z) => T.RoughLog2(T.Abs(x)));
        Check((x, y, z) => OneLane.RoughExp2(Limited(x)), (x, y, z) => T.RoughExp2(Limited(x)));
        CheckWhere();
        CheckMap();
        for (var lane = 0; lane < T.Count; lane++)
            Assert.Equal(a[lane] > b[lane], (T.Greater(Lanes(a)[0], Lanes(b)[0]) >> lane & 1) != 0);

        void Check(Func<OneLane, OneLane, OneLane, OneLane> one, Func<T, T, T, T> several)
        {
            var together = Lanes(new double[T.Count]);
            together[0] = several(Lanes(a)[0], Lanes(b)[0], Lanes(c)[0]);
            for (var lane = 0; lane < T.Count; lane++)
                AssertSameBits(one(new(a[lane]), new(b[lane]), new(c[lane])).Value, together[0, lane]);
        }

        void CheckWhere()
        {
            for (var lanes = 0; lanes < 1 << T.Count; lanes++)
            {
                var chosen = Lanes(new double[T.Count]);

                // Bits beyond the lanes there are mean nothing.
                chosen[0] = T.Where(lanes | 1 << T.Count, Lanes(a)[0], Lanes(b)[0]);
                for (var lane = 0; lane < T.Count; lane++)
                    AssertSameBits((lanes >> lane & 1) != 0 ? a[lane] : b[lane], chosen[0, lane]);
            }
        }

        void CheckMap()
        {
            // A function of its own in each lane, and none in one.
            var functions = new ISmoothFunction?[T.Count];
            for (var lane = 0; lane < T.Count; lane++)
                functions[lane] = lane == 1 ? null : new Power(b[lane]);
            var (values, slopes) = (Lanes(new double[T.Count]), Lanes(new double[T.Count]));
            values[0] = T.Map(functions, Lanes(a)[0], out slopes[0]);
            for (var lane = 0; lane < T.Count; lane++)
            {
                var alone = lane == 1 ? new(double.NaN) : OneLane.Map([functions[lane]], new(a[lane]), out _);
                AssertSameBits(alone.Value, values[0, lane]);
                AssertSameBits(lane == 1 ? double.NaN : 2 * b[lane] * a[lane], slopes[0, lane]);
            }
        }

        static LaneBuffer<T> Lanes(double[] values)
        {
            var lanes = new LaneBuffer<T>(1);
            values.CopyTo(lanes.Scalars);
            return lanes;
        }
    });

    /// <summary>A number within the range of the rough exponential.</summary>
    private static T Limited<T>(in T x)
        where T : struct, ILanes<T> => T.Max(T.Min(x * T.All(1e-3), T.All(1000)), T.All(-1000));

    private static void AssertSameBits(double expected, double actual)
    {
        // A result that is no number has no sign that means anything.
        if (!double.IsNaN(expected) || !double.IsNaN(actual))
            Assert.Equal(BitConverter.DoubleToInt64Bits(expected), BitConverter.DoubleToInt64Bits(actual));
    }

    private sealed class Power(double factor) : ISmoothFunction
    {
        public (double Value, double First) At(double x) => (factor * x * x, 2 * factor * x);

        public double SecondAt(double x) => 2 * factor;
    }
}
