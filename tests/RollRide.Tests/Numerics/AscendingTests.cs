using CsCheck;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class AscendingTests
{
    [Fact]
    public void Once_AnyNumbers_AreInOrderAndNoneTwice() => Gen.Int[-5, 5].List[0, 30].SampleSame(100, numbers =>
        Assert.Equal(numbers.Distinct().Order().Select(number => (double)number), Ascending.Once(numbers.ConvertAll(number => (double)number))));
}
