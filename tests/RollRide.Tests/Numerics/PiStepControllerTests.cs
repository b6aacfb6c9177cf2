using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class PiStepControllerTests
{
    // Powers are taken to a few per cent: a logarithm is read to within 0.0861, of which a fifth is taken, and 1 + f in place of 2^f is too
    // large by 6.15 % at most.
    private const double Power = (0.2 * 0.0861 * 0.6931) + 0.0615;

    [Fact]
    public void Next_TinyError_GrowsButNotWithoutLimit() => Assert.Equal(5e-3, Next(New(), 1e-3, 0, accepted: true), 1e-12);

    [Fact]
    public void Next_DirectlyAfterRejection_DoesNotGrow()
    {
        var controller = New();
        var retry = Next(controller, 1e-3, 50, accepted: false);
        Assert.True(retry < 1e-3);
        Assert.Equal(retry, Next(controller, retry, 1e-6, accepted: true));
        Assert.True(Next(controller, retry, 1e-6, accepted: true) > retry);
    }

    [Fact]
    public void Next_RejectedWithErrorOf32_AboutHalvesTheStep()
    {
        // A local error of h⁵: 32 times too much asks for half the step, times the margin of 0.9. Powers of two have exact logarithms.
        Assert.Equal(0.45, Next(New(), 1, 32, accepted: false), 1e-12);
        Assert.Equal(0.9 * Math.Pow(50, -0.2), Next(New(), 1, 50, accepted: false), 0.9 * Math.Pow(50, -0.2) * Power);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(1e30)]
    public void Next_RejectedWithAHopelessError_ShrinksToAFifth(double error)
    {
        Assert.Equal(0.2, Next(New(), 1, error, accepted: false), 1e-12);

        // A processor makes a result that is no number with either sign.
        if (double.IsNaN(error))
            Assert.Equal(0.2, Next(New(), 1, -error, accepted: false), 1e-12);
    }

    [Fact]
    public void Next_SteadyError_SettlesAtAConstantStep()
    {
        // The loop closed around an ideal method, error = (h / 1 ms)⁵, started a factor 3 below.
        var controller = New();
        double step = 1e-3 / 3, previous = 0;
        for (var i = 0; i < 120; i++)
            (previous, step) = (step, Next(controller, step, Math.Min(1, Math.Pow(step / 1e-3, 5)), accepted: true));
        Assert.Equal(previous, step, 1e-9);

        // Settled, 0.9 error^(0.08 − 0.14) = 1, so that the step is 0.9^(1/0.3) = 0.704 ms. Logarithm and power are wrong by up to 0.09 in the exponent of 2,
        // together by 0.11, which moves the step by a factor of 2^(0.11/0.3) = 1.29 at most.
        Assert.InRange(step, 0.704e-3 / 1.29, 0.704e-3 * 1.29);
    }

    [Fact]
    public void Restart_AfterAnyPast_ActsLikeNew()
    {
        var used = New();
        Next(used, 1, 0.9, accepted: true);
        Next(used, 1, 3, accepted: false);
        used.Restart(1);
        Assert.Equal(Next(New(), 1, 0.5, accepted: true), Next(used, 1, 0.5, accepted: true));
    }

    [Fact]
    public void Next_ManyLanes_EachHasItsOwnPast()
    {
        var together = new PiStepController<EightLanes>();
        together.Restart(255);
        var alone = Enumerable.Range(0, 8).Select(_ => New()).ToArray();
        var random = new Random(5);
        EightLanes step = default, error = default;
        for (var round = 0; round < 200; round++)
        {
            var accepted = 0;
            for (var lane = 0; lane < 8; lane++)
            {
                LaneMath.Lane(ref step, lane) = random.NextDouble();
                LaneMath.Lane(ref error, lane) = Math.Pow(10, (4 * random.NextDouble()) - 3);
                accepted |= LaneMath.Get(error, lane) <= 1 ? 1 << lane : 0;
            }

            var next = together.Next(step, error, accepted);
            for (var lane = 0; lane < 8; lane++)
                Assert.Equal(Next(alone[lane], LaneMath.Get(step, lane), LaneMath.Get(error, lane), (accepted >> lane & 1) != 0), LaneMath.Get(next, lane));
            if (round % 20 == 0)
            {
                together.Restart(0b100);
                alone[2].Restart(1);
            }
        }
    }

    private static PiStepController<OneLane> New()
    {
        var controller = new PiStepController<OneLane>();
        controller.Restart(1);
        return controller;
    }

    private static double Next(PiStepController<OneLane> controller, double step, double error, bool accepted) =>
        controller.Next(new(step), new(error), accepted ? 1 : 0).Value;
}
