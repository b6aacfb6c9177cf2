using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class PiStepControllerTests
{
    [Fact]
    public void AfterAccepted_TinyError_GrowsButNotWithoutLimit()
    {
        var controller = new PiStepController();
        Assert.Equal(5e-3, controller.AfterAccepted(1e-3, 0), 1e-12);
    }

    [Fact]
    public void AfterAccepted_DirectlyAfterRejection_DoesNotGrow()
    {
        var controller = new PiStepController();
        double retry = controller.AfterRejected(1e-3, 50);
        Assert.True(retry < 1e-3);
        Assert.Equal(retry, controller.AfterAccepted(retry, 1e-6));
        Assert.True(controller.AfterAccepted(retry, 1e-6) > retry);
    }

    [Fact]
    public void AfterRejected_ErrorOf32_AboutHalvesTheStep()
    {
        // A local error of h⁵: 32 times too much asks for half the step, times the margin of 0.9.
        Assert.Equal(0.45, new PiStepController().AfterRejected(1, 32), 1e-12);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(1e30)]
    public void AfterRejected_HopelessError_ShrinksToAFifth(double error) =>
        Assert.Equal(0.2, new PiStepController().AfterRejected(1, error), 1e-12);

    [Fact]
    public void AfterAccepted_SteadyError_SettlesAtAConstantStep()
    {
        // The loop closed around an ideal method, error = (h / 1 ms)⁵, started a factor 3 below.
        var controller = new PiStepController();
        double step = 1e-3 / 3, previous = 0;
        for (int i = 0; i < 30; i++) (previous, step) = (step, controller.AfterAccepted(step, Math.Min(1, Math.Pow(step / 1e-3, 5))));
        Assert.Equal(previous, step, 1e-9);
        Assert.InRange(step, 0.8e-3, 1e-3);
    }

    [Fact]
    public void Restart_AfterAnyPast_ActsLikeNew()
    {
        var used = new PiStepController();
        used.AfterAccepted(1, 0.9);
        used.AfterRejected(1, 3);
        used.Restart();
        Assert.Equal(new PiStepController().AfterAccepted(1, 0.5), used.AfterAccepted(1, 0.5));
    }
}
