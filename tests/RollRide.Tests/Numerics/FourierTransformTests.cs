using System.Numerics;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class FourierTransformTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(8)]
    [InlineData(12)]
    [InlineData(64)]
    [InlineData(250)]
    public void Forward_OfAnyLength_IsTheSumOfItsDefinition(int length)
    {
        var random = new Random(7);
        Complex[] values = [.. Enumerable.Range(0, length).Select(_ => new Complex(random.NextDouble() - 0.5, random.NextDouble() - 0.5))];
        var transform = (Complex[])values.Clone();
        new FourierTransform(length).Forward(transform);
        for (var k = 0; k < length; k++)
        {
            var sum = Complex.Zero;
            for (var j = 0; j < length; j++)
                sum += values[j] * Complex.FromPolarCoordinates(1, -2 * Math.PI * (j * k % length) / length);
            Assert.Equal(0, (sum - transform[k]).Magnitude, 1e-12); // some hundred roundings of numbers of the order of one
        }
    }

    [Fact]
    public void Forward_OfALongSine_HoldsItInTwoLines()
    {
        const int Length = 4096;
        Complex[] values = [.. Enumerable.Range(0, Length).Select(j => (Complex)Math.Sin(2 * Math.PI * 37 * j / Length))];
        var transform = new FourierTransform(Length);
        transform.Forward(values);
        Assert.Equal(0, (values[37] - new Complex(0, -Length / 2)).Magnitude, 1e-10);
        Assert.Equal(0, (values[Length - 37] - new Complex(0, Length / 2)).Magnitude, 1e-10);
        Assert.All(Enumerable.Range(0, Length).Where(k => k is not 37 and not (Length - 37)), k => Assert.Equal(0, values[k].Magnitude, 1e-10));
    }

    [Fact]
    public void Forward_OfAnotherLength_IsRefused() =>
        Assert.Throws<ArgumentException>(() => new FourierTransform(8).Forward(new Complex[4]));
}
