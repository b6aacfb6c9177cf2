using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Studies;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Studies;

public sealed class SpringFrictionLoopsTests
{
    private static readonly SpringFriction Friction = new(300, 0.003);

    private static AssembledHalfCar Car(double coefficient) => new(
        LiveAxle with { Spring = new Spring(new LinearSpring(35e3), Ratio(0.9, 0.6)) { Friction = Friction } },
        Layout(Ratio(0.8, 0.5), new Damper("plain", ForceVelocityCurve.Linear(coefficient))));

    [Fact] // 500 kg on one spring of 0.9 to the wheel, the damper 0.8: by hand, from the energy of a cycle over that of the swing.
    public void RatioOfTheDamper_IsItsWorkInACycleOverTheEnergyOfTheSwing()
    {
        foreach (var loop in SpringFrictionLoops.Of(Car(2000), Side.Left, includeFriction: false))
        {
            var x = loop.Amplitude;
            var wheel = x / 0.9;
            var stiffness = 0.9 * 0.9 * (35e3 + (300 * Math.Tanh(x / 0.003) / x));
            var omega = Math.Sqrt(stiffness / 500);
            Assert.Equal(Math.PI * 2000 * omega * Math.Pow(0.8 * wheel, 2) / (4 * Math.PI * 0.5 * stiffness * wheel * wheel), loop.DamperRatio, 1e-12);
            Assert.Equal(4 * 300 * (x - (0.003 * Math.Tanh(x / 0.003))) / (4 * Math.PI * 0.5 * stiffness * wheel * wheel), loop.FrictionRatio, 1e-12);
            Assert.Equal(loop.DamperRatio + loop.FrictionRatio, loop.Together);
        }
    }

    [Fact]
    public void SidesThatAreTheSame_AreShownOnce_AndASideWithoutFrictionHasNoLoops()
    {
        var car = Car(2000);
        Assert.Equal([((string?)null, Side.Left)], SpringFrictionLoops.SidesOf(car));
        var apart = new AssembledHalfCar(car.Vehicle with { RightSide = car.Vehicle.On(Side.Left) with { Spring = car.Vehicle.Spring with { Friction = null } } }, car.Layout);
        Assert.Equal(["left", "right"], SpringFrictionLoops.SidesOf(apart).Select(side => side.Name!));
        Assert.Empty(SpringFrictionLoops.Of(apart, Side.Right, includeFriction: false));
    }
}
