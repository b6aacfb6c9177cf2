using CsCheck;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class DualTests
{
    private static readonly Gen<(double X, double Y, double Z)> Numbers = Gen.Select(Gen.Double[0.3, 3], Gen.Double[-3, -0.3], Gen.Double[-3, 3]);

    private delegate Dual Function(in Dual x, in Dual y, in Dual z);

    [Fact]
    public void Operations_HaveTheDerivativesOfTheTextbook() => Numbers.SampleSame(200, sample =>
    {
        var (x, y, z) = sample;
        Check((in Dual a, in Dual b, in Dual c) => a + b, x + y, 1, 1, 0);
        Check((in Dual a, in Dual b, in Dual c) => a - b, x - y, 1, -1, 0);
        Check((in Dual a, in Dual b, in Dual c) => a * b, x * y, y, x, 0);
        Check((in Dual a, in Dual b, in Dual c) => a / b, x / y, 1 / y, -x / (y * y), 0);
        Check((in Dual a, in Dual b, in Dual c) => -a, -x, -1, 0, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.Fma(a, b, c), Math.FusedMultiplyAdd(x, y, z), y, x, 1);
        Check((in Dual a, in Dual b, in Dual c) => Dual.NegatedFma(a, b, c), Math.FusedMultiplyAdd(-x, y, z), -y, -x, 1);
        Check((in Dual a, in Dual b, in Dual c) => Dual.Sqrt(a), Math.Sqrt(x), 0.5 / Math.Sqrt(x), 0, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.Abs(b), -y, 0, -1, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.CopySign(a, b), -x, -1, 0, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.CopySign(b, a), -y, 0, -1, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.Max(a, b), x, 1, 0, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.Max(b, a), x, 1, 0, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.Min(a, b), y, 0, 1, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.Min(b, a), y, 0, 1, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.WhereGreater(a, b, c, a), z, 0, 0, 1);
        Check((in Dual a, in Dual b, in Dual c) => Dual.WhereGreater(b, a, c, a), x, 1, 0, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.Where(1, a, b), x, 1, 0, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.Where(0, a, b), y, 0, 1, 0);
        Check((in Dual a, in Dual b, in Dual c) => Dual.All(2), 2, 0, 0, 0);
        Assert.Equal((1, 0), (Dual.Greater(new(x, 0), new(y, 5)), Dual.Greater(new(y, 5), new(x, 0))));

        // Each derivative is a few operations on numbers of up to 3, over as little as 0.3: roundings of 1e-14.
        void Check(Function function, double value, double byX, double byY, double byZ)
        {
            Assert.Equal(value, function(new(x, 1), new(y, 0), new(z, 0)).Value);
            Assert.Equal(byX, function(new(x, 1), new(y, 0), new(z, 0)).Slope, 1e-14);
            Assert.Equal(byY, function(new(x, 0), new(y, 1), new(z, 0)).Slope, 1e-14);
            Assert.Equal(byZ, function(new(x, 0), new(y, 0), new(z, 1)).Slope, 1e-14);
            Assert.Equal((2 * byX) - byY + (3 * byZ), function(new(x, 2), new(y, -1), new(z, 3)).Slope, 1e-13);
        }
    });

    [Fact]
    public void ElementaryFunctions_HaveTheDerivativesOfTheTextbook() => Gen.Double[-3, 3].SampleSame(200, x =>
    {
        LaneMath.SinCos(new Dual(x, 2), out var sin, out var cos);
        LaneMath.Tanh(new Dual(x, 2), out var tanh);

        // Each carries some twenty roundings of numbers near one, and the derivative of the series one term less than the series.
        Assert.Equal(2 * Math.Cos(x), sin.Slope, 1e-13);
        Assert.Equal(-2 * Math.Sin(x), cos.Slope, 1e-13);
        Assert.Equal(2 / Math.Pow(Math.Cosh(x), 2), tanh.Slope, 1e-13);
    });

    [Fact]
    public void Values_AreThoseOfOneLane_ToTheLastBit() => Gen.Double[-3, 3].SampleSame(200, x =>
    {
        LaneMath.SinCos(new Dual(x, 1), out var sin, out var cos);
        LaneMath.SinCos(new OneLane(x), out var plainSin, out var plainCos);
        Assert.Equal((plainSin.Value, plainCos.Value), (sin.Value, cos.Value));
        LaneMath.Tanh(new Dual(x, 1), out var tanh);
        LaneMath.Tanh(new OneLane(x), out var plainTanh);
        Assert.Equal(plainTanh.Value, tanh.Value);
    });

    [Fact]
    public void Tanh_AtRest_HasTheSlopeOfOne()
    {
        // Where friction begins: the law is odd, and its slope there is 1.
        LaneMath.Tanh(new Dual(0, 1), out var tanh);
        Assert.Equal(1, tanh.Slope, 1e-15);
    }

    [Fact]
    public void MaxAndMin_OfEqualNumbers_HaveTheMeanSlope()
    {
        Assert.Equal((2.0, 4.0), Parts(Dual.Max(new(2, 3), new(2, 5))));
        Assert.Equal((2.0, 4.0), Parts(Dual.Min(new(2, 3), new(2, 5))));
    }

    [Fact]
    public void Table_OfStraightLines_HasTheMeanSlopeAtEachCorner()
    {
        // Corners below, at and above zero, few enough to be added up.
        double[] x = [-2, -1, -0.25, 0, 0.5, 1, 2], y = [-9, -4, -1, 0, 3, 4, 4.5];
        AssertSlopes(x, y);
    }

    [Fact]
    public void LongTable_HasTheMeanSlopeAtEachCorner()
    {
        // Over 24 corners a table is searched.
        double[] x = [.. Enumerable.Range(-20, 41).Select(i => 0.25 * i)];
        AssertSlopes(x, [.. x.Select(at => at * at * at)]);
    }

    private static void AssertSlopes(double[] x, double[] y)
    {
        var table = PiecewiseLinear.Through(x, y);
        var law = new CurveLaw<Dual>(CurveForm.Of(table.Pieces));
        law.Load(0, table.Pieces, table);
        Dual At(Dual at)
        {
            law.At(at, out var value);
            return value;
        }

        double Slope(int piece) => (y[piece + 1] - y[piece]) / (x[piece + 1] - x[piece]);
        for (var i = 1; i < x.Length - 1; i++)
        {
            // Slopes of up to 70 are added up from as many changes; quarters and their cubes are exact.
            Assert.Equal(0.5 * (Slope(i - 1) + Slope(i)), At(new Dual(x[i], 1)).Slope, 1e-12);
            Assert.Equal(y[i], At(new Dual(x[i], 1)).Value, 1e-12);
            Assert.Equal(2 * Slope(i), At(new Dual(0.3 * x[i] + 0.7 * x[i + 1], 2)).Slope, 1e-12);
        }
    }

    [Fact]
    public void Map_OfALinkage_HasFirstAndSecondDerivative()
    {
        foreach (var fitting in Mounting.ReferenceLinkages.Fittings)
        {
            ISmoothFunction?[] functions = [new Compression(fitting)];
            var value = Dual.Map(functions, new Dual(0.03, 2), out var slope);
            var plain = OneLane.Map(functions, new OneLane(0.03), out var plainSlope);
            Assert.Equal((plain.Value, plainSlope.Value), (value.Value, slope.Value));
            Assert.Equal(2 * fitting.Ratio(0.03), value.Slope, 1e-15);

            // Steps of 1e-5: rounding of 1e-16 over 2e-5, and the third derivative, below 100 1/m², times 1e-10/6.
            const double h = 1e-5;
            Assert.Equal(2 * (fitting.Ratio(0.03 + h) - fitting.Ratio(0.03 - h)) / (2 * h), slope.Slope, 1e-8);
            Assert.Equal(0, Dual.Map(functions, new Dual(0.03, 0), out var still).Slope);
            Assert.Equal(0, still.Slope);
        }
    }

    [Fact]
    public void DualsInABuffer_KeepTheirSlopesApart()
    {
        var buffer = new LaneBuffer<Dual>(3);
        for (var i = 0; i < 3; i++)
            buffer[i] = new(i, 10 * i);
        buffer[1, 0] = 7;
        Assert.Equal([(0.0, 0.0), (7, 10), (2, 20)], buffer.Elements.ToArray().Select(dual => Parts(dual)));
    }

    private static (double Value, double Slope) Parts(in Dual dual) => (dual.Value, dual.Slope);

    private sealed class Compression(RollRide.Mounting.WheelTravelFitting fitting) : ISmoothFunction
    {
        public (double Value, double First) At(double x) => (fitting.Compression(x), fitting.Ratio(x));

        public double SecondAt(double x) => fitting.RatioSlope(x);
    }
}
