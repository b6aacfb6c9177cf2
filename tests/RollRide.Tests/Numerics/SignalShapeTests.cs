using CsCheck;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class SignalShapeTests
{
    private const int Cases = 300;

    private static readonly Gen<double> Size = Gen.Double[-2, 2];
    private static readonly Gen<double> Length = Gen.Double[0.5, 3];

    private static readonly Gen<ISignalShape> AnyShape = Gen.OneOf<ISignalShape>(
        Size.Select(a => (ISignalShape)new ConstantShape(a)),
        Gen.Select(Size, Size, (a, b) => (ISignalShape)new LinearShape(a, b)),
        Gen.Select(Size, Length, (a, l) => (ISignalShape)new HaversineShape(a, l)),
        Gen.Select(Size, Length, Size, (a, l, p) => (ISignalShape)new SineShape(a, l, p)),
        Gen.Select(Size, Length, Length, Length, (a, f, g, l) => (ISignalShape)new SweptSineShape(a, f, g, l)));

    [Fact]
    public void Rate_AnyShape_IsTheDerivativeOfTheValue() =>
        Gen.Select(AnyShape, Gen.Double[0, 3]).SampleSame(
            Cases,
            sample =>
            {
                var (shape, u) = sample;
                const double Step = 1e-4;
                double slope = (shape.Value(u + Step) - shape.Value(u - Step)) / (2 * Step);
                // Central differences: h²/6 times the third derivative, at most 2 (2π·15)³ ≈ 1.7e6 for the fastest sweep.
                return Math.Abs(slope - shape.Rate(u)) < 3e-3;
            });

    [Fact]
    public void Haversine_FeetAndMiddle_AreAsDrawn()
    {
        var bump = new HaversineShape(0.08, 3.7);
        Assert.Equal(0, bump.Value(0));
        Assert.Equal(0.08, bump.Value(1.85), 1e-16);
        // Rounding of cos 2π and sin 2π.
        Assert.Equal(0, bump.Value(3.7), 1e-16);
        Assert.Equal(0, bump.Rate(0));
        Assert.Equal(0, bump.Rate(3.7), 1e-16);
    }

    [Fact]
    public void SweptSine_ConstantFrequency_IsASine()
    {
        var sweep = new SweptSineShape(1.3, 2, 2, 5);
        var sine = new SineShape(1.3, 0.5, 0);
        for (double u = 0; u < 5; u += 0.01)
        {
            // Rounding of a phase of up to 63 rad.
            Assert.Equal(sine.Value(u), sweep.Value(u), 1e-13);
            Assert.Equal(sine.Rate(u), sweep.Rate(u), 1e-12);
        }
    }

    [Fact]
    public void SweptSine_LinearInFrequency_PassesZeroAtEachHalfCycle()
    {
        // From 1 to 3 over 4: 8 cycles; n half cycles are done when u + u²/4 = n/2.
        var sweep = new SweptSineShape(1, 1, 3, 4);
        for (int n = 0; n <= 16; n++) Assert.Equal(0, sweep.Value(-2 + Math.Sqrt(4 + 2 * n)), 1e-13);
    }

    [Fact]
    public void Constructors_NotFiniteOrNotPositive_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("Level", () => new ConstantShape(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("Slope", () => new LinearShape(0, double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>("Length", () => new HaversineShape(1, 0));
        Assert.Throws<ArgumentOutOfRangeException>("Height", () => new HaversineShape(double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>("Period", () => new SineShape(1, -1, 0));
        Assert.Throws<ArgumentOutOfRangeException>("Duration", () => new SweptSineShape(1, 1, 2, 0));
        Assert.Throws<ArgumentOutOfRangeException>("StartFrequency", () => new SweptSineShape(1, 0, 2, 1));
    }

    [Fact]
    public void Sampled_AtSamples_IsTheSamplesAndBetweenThemDoesNotOvershoot() =>
        Gen.Double[0.1, 2].Array[2, 12].SelectMany(gaps => Size.Array[gaps.Length].Select(values => (gaps, values))).SampleSame(
            Cases,
            samples =>
            {
                double[] x = new double[samples.gaps.Length];
                for (int i = 1; i < x.Length; i++) x[i] = x[i - 1] + samples.gaps[i];
                var shape = new SampledShape(x, samples.values);
                const double Rounding = 1e-12;
                for (int i = 1; i < x.Length; i++)
                {
                    double low = Math.Min(samples.values[i - 1], samples.values[i]), high = Math.Max(samples.values[i - 1], samples.values[i]);
                    for (int k = 0; k <= 10; k++)
                    {
                        double value = shape.Value(x[i - 1] + 0.1 * k * (x[i] - x[i - 1]));
                        if (value < low - Rounding || value > high + Rounding) return false;
                    }

                    if (Math.Abs(shape.Value(x[i]) - samples.values[i]) > Rounding) return false;
                }

                return true;
            });

    [Fact]
    public void Sampled_PointsOfALine_IsThatLineAlsoForTwo()
    {
        foreach (double[] x in (double[][])[[0, 2], [0, 0.5, 2], [0, 0.1, 0.5, 2]])
        {
            var shape = new SampledShape(x, [.. x.Select(u => 3 - 2 * u)]);
            Assert.Equal(3 - 2 * 1.2, shape.Value(1.2), 1e-14);
            Assert.Equal(-2, shape.Rate(1.2), 1e-13);
        }
    }

    [Fact]
    public void Sampled_ChangedArraysAfterwards_KeepsTheSamples()
    {
        double[] x = [0, 1, 2], y = [0, 5, 6];
        var shape = new SampledShape(x, y);
        y[1] = 100;
        Assert.Equal(5, shape.Value(1), 1e-14);
    }

    [Theory]
    [InlineData(new double[] { 0 }, new double[] { 1 })]
    [InlineData(new double[] { 0, 1 }, new double[] { 1 })]
    [InlineData(new double[] { 0, 1, 1 }, new double[] { 1, 2, 3 })]
    [InlineData(new double[] { 0, 2, 1 }, new double[] { 1, 2, 3 })]
    [InlineData(new double[] { 0, double.NaN, 1 }, new double[] { 1, 2, 3 })]
    [InlineData(new double[] { 0, 1, 2 }, new double[] { 1, double.PositiveInfinity, 3 })]
    public void Sampled_TooFewUnequalUnorderedOrNotFinite_IsRefused(double[] positions, double[] values) =>
        Assert.Throws<ArgumentException>(() => new SampledShape(positions, values));
}
