using RollRide.Cornering;
using RollRide.Dynamics.Series;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Tests.Dynamics.Series;

public sealed class SeriesInputTests
{
    [Fact]
    public void Expand_SumOfShapes_IsTheSignalAroundEveryInstant()
    {
        var signal = RoadEvents.HaversineBump(3, 4, 0.05)
            .Plus(RoadEvents.Sine(2.5, 1.2, 0.01, 4))
            .Plus(new PiecewiseSignal(new SignalPiece(1, 9, new LinearShape(0.02, -0.003)), new SignalPiece(2, 8, new LinearShape(0, 0.01))))
            .Plus(new PiecewiseSignal(new SignalPiece(0, double.PositiveInfinity, new ConstantShape(0.004))));
        const double Speed = 12;
        var middle = 5 / Speed;
        var input = SeriesInput.TryCreate(signal, Speed, middle)!;
        var terms = new double[12];
        foreach (var time in new[] { middle, middle + 0.03, middle - 0.05 })
        {
            input.Expand(time, terms);
            foreach (var step in new[] { 0, 0.004, -0.007, 0.01 })
            {
                var sum = 0.0;
                for (var k = terms.Length - 1; k >= 0; k--)
                    sum = (sum * step) + terms[k];

                // 2π·12/1.2 rad/s over 0.01 s: the twelfth power of 0.63 over 12! is below 1e-11.
                Assert.Equal(signal.Value(Speed * (time + step)), sum, 1e-12);
            }
        }

        Assert.False(input.IsStraight);
    }

    [Fact]
    public void TryCreate_StraightAndFlat_AreTold()
    {
        var ramp = CorneringEvents.RampStep(1, 0.5, 4);
        Assert.True(SeriesInput.TryCreate(ramp, 1, 0.5)!.IsConstant);
        var rising = SeriesInput.TryCreate(ramp, 1, 1.2)!;
        Assert.True(rising.IsStraight);
        Assert.False(rising.IsConstant);
        Assert.True(SeriesInput.TryCreate(ramp, 1, 2)!.IsConstant);
    }

    [Fact]
    public void TryCreate_ShapeWithoutAClosedSeries_IsLeftToTheStepByStepIntegrator()
    {
        Assert.Null(SeriesInput.TryCreate(RoadEvents.Sampled([0, 1, 3, 4], [0, 0.01, 0.02, 0]), 10, 0.2));
        Assert.Null(SeriesInput.TryCreate(CorneringEvents.SweptSine(0, 1, 2, 3, 4), 1, 1));
    }
}
