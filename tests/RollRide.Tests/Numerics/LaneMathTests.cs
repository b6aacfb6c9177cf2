using CsCheck;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class LaneMathTests
{
    /// <summary>Half a unit in the last place of one: the largest relative error of one rounding.</summary>
    private const double Rounding = 1.0 / (1L << 53);

    // A quarter of the angle is at most π/4; its series end at the 17th power, 6e-17 of what they sum to. So its sine and cosine carry two
    // roundings; doubling the angle adds their errors and a rounding: 5 at half the angle, 15 of one at the whole. The cosine, 1 − 2 s²,
    // has twice the error of s², 2·2·5 of one at most, and its own rounding. Errors add up in the worst case only.
    private const double Angle = 21 * Rounding;

    // m has a rounding or two of its series, and each of seven doublings adds two. m/(m + 2) takes over 2/(m + 2) of m's error, which the
    // doublings of a large m raise less than this lowers it; the sum and the quotient add one each.
    private const double Hyperbolic = 18 * Rounding;

    // The logarithm of 1e-6 to 1e6, 13.8 at most, carries about four roundings of itself and one of the product with the exponent: 5·28 of one in the power,
    // and a few of the exponential's own.
    private const double AnyPower = 150 * Rounding;

    private static readonly Gen<double> AnyAngle = Gen.Double[-Math.PI, Math.PI];

    private static readonly Gen<double> AnyArgument = Gen.OneOf(Gen.Double[-50, 50], Gen.Double[-2, 2], Gen.Double[-12, 0].Select(exponent => Math.Pow(10, exponent)));

    private static readonly double[] Special = [0, -0.0, 1e-300, double.Epsilon, Math.PI, -Math.PI, Math.PI / 2, Math.PI / 4, 1, 20, -20, 20.5, 50, -50, 709, 1e300];

    [Fact]
    public void SinCos_AnyAngle_AreThoseOfTheLibraryToAFewRoundings() => AnyAngle.SampleSame(20_000, angle =>
    {
        var (sin, cos) = SinCos(angle);
        Assert.Equal(Math.Sin(angle), sin, Angle);
        Assert.Equal(Math.Cos(angle), cos, Angle);

        // Up to a right angle the cosine that the sine was doubled with is 0.7 and more: its error is relative.
        if (Math.Abs(angle) <= Math.PI / 2)
            Assert.Equal(Math.Sin(angle), sin, Angle * Math.Abs(sin));
    });

    [Fact]
    public void Tanh_AnyArgument_IsThatOfTheLibraryToAFewRoundings() =>
        AnyArgument.SampleSame(20_000, x => Assert.Equal(Math.Tanh(x), Tanh(x), Hyperbolic * Math.Abs(Math.Tanh(x))));

    [Fact]
    public void Power_OfAnyNumber_IsThatOfTheLibraryToAFewRoundings() => Gen.Select(Gen.OneOf(Gen.Double[0.2, 3], Gen.Double[-6, 6].Select(exponent => Math.Pow(10, exponent))), Gen.Double[-2, 2]).SampleSame(20_000, sample =>
        Assert.Equal(Math.Pow(sample.Item1, sample.Item2), Power(sample.Item1, sample.Item2), AnyPower * Math.Pow(sample.Item1, sample.Item2)));

    [Fact]
    public void Power_OfOneIsOne_AndOfNothingOrLessNoNumber()
    {
        AssertSameBits(1, Power(1, -1.4));
        Assert.All((double[])[0, -0.0, -0.5, -1e300, double.NaN, double.NegativeInfinity], x => Assert.True(double.IsNaN(Power(x, -1.4))));
    }

    [Fact] // y xʸ⁻¹ x′ and (ln x) xʸ y′
    public void Power_OfADual_HasItsSlope() => Gen.Select(Gen.Double[0.2, 3], Gen.Double[-2, 2]).SampleSame(1000, sample =>
    {
        var (x, y) = sample;
        LaneMath.Power(new Dual(x, 0.7), new Dual(y, 0.3), out var power);
        Assert.Equal((0.7 * y * Math.Pow(x, y - 1)) + (0.3 * Math.Log(x) * Math.Pow(x, y)), power.Slope, 1e-13 * (1 + Math.Pow(x, y - 1)));
    });

    [Fact]
    public void Functions_OfTheOppositeArgument_AreTheOpposite_ToTheLastBit() => Gen.Select(AnyAngle, AnyArgument).SampleSame(2000, sample =>
    {
        var (angle, x) = sample;
        var ((sin, cos), (opposite, same)) = (SinCos(angle), SinCos(-angle));
        AssertSameBits(-sin, opposite);
        AssertSameBits(cos, same);
        AssertSameBits(-Tanh(x), Tanh(-x));
    });

    [Fact]
    public void Functions_OfZero_AreExact()
    {
        AssertSameBits(0, SinCos(0).Sin);
        AssertSameBits(-0.0, SinCos(-0.0).Sin);
        AssertSameBits(1, SinCos(0).Cos);
        AssertSameBits(0, Tanh(0));
        AssertSameBits(-0.0, Tanh(-0.0));
    }

    [Theory]
    [InlineData(20)]
    [InlineData(50)]
    [InlineData(1e300)]
    [InlineData(double.PositiveInfinity)]
    public void Tanh_FarOut_IsOne(double x)
    {
        AssertSameBits(1, Tanh(x));
        AssertSameBits(-1, Tanh(-x));
    }

    [Fact]
    public void FourLanes_HaveTheBitsOfOne() => AssertHasTheBitsOfOne<FourLanes>();

    [Fact]
    public void EightLanes_HaveTheBitsOfOne() => AssertHasTheBitsOfOne<EightLanes>();

    private static void AssertHasTheBitsOfOne<T>()
        where T : struct, ILanes<T> => Gen.Select(AnyAngle.Array[T.Count], AnyArgument.Array[T.Count], Gen.Int[0, Special.Length - 1].Array[T.Count]).SampleSame(1000, sample =>
        {
            var (angles, arguments, special) = sample;
            Check(angles);
            Check(arguments);
            Check([.. special.Select(i => Special[i])]);

            void Check(double[] values)
            {
                var x = default(T);
                for (var lane = 0; lane < T.Count; lane++)
                    LaneMath.Lane(ref x, lane) = values[lane];
                LaneMath.SinCos(x, out var sin, out var cos);
                LaneMath.Tanh(x, out var tanh);
                LaneMath.Power(x, T.All(-1.4), out var power);
                for (var lane = 0; lane < T.Count; lane++)
                {
                    AssertSameBits(SinCos(values[lane]).Sin, LaneMath.Get(sin, lane));
                    AssertSameBits(SinCos(values[lane]).Cos, LaneMath.Get(cos, lane));
                    AssertSameBits(Tanh(values[lane]), LaneMath.Get(tanh, lane));
                    AssertSameBits(Power(values[lane], -1.4), LaneMath.Get(power, lane));
                }
            }
        });

    private static (double Sin, double Cos) SinCos(double angle)
    {
        LaneMath.SinCos(new OneLane(angle), out var sin, out var cos);
        return (sin.Value, cos.Value);
    }

    private static double Tanh(double x)
    {
        LaneMath.Tanh(new OneLane(x), out var tanh);
        return tanh.Value;
    }

    private static double Power(double x, double exponent)
    {
        LaneMath.Power(new OneLane(x), new(exponent), out var power);
        return power.Value;
    }

    private static void AssertSameBits(double expected, double actual) =>
        Assert.Equal(BitConverter.DoubleToInt64Bits(expected), BitConverter.DoubleToInt64Bits(actual));
}
