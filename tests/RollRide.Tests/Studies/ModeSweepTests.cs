using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Studies;
using RollRide.Tests.Modes;

namespace RollRide.Tests.Studies;

public sealed class ModeSweepTests
{
    // Blow-off at 0.1 m/s, then a steep end: the equivalent coefficient falls and rises again. Rebound is twice compression.
    private static readonly Damper Valved = new("valved", ForceVelocityCurve.FromPoints(
        [-1.5, -0.6, -0.1, 0, 0.1, 0.6, 1.5], [-9000, -1800, -1200, 0, 600, 900, 4500]));

    [Fact]
    public void Every_velocity_has_the_modes_of_its_own_coefficient()
    {
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod23, Valved);
        var sweep = ModeSweep.Of(car, ModeSweep.DefaultVelocities, includeFriction: false);
        var linear = LinearHalfCar.AtRest(car);

        foreach (var direction in Enum.GetValues<DampingDirection>())
        {
            Assert.Equal(ModeSweep.DefaultVelocities, sweep[direction].Select(at => at.Velocity));
            foreach (var at in sweep[direction].Where((_, i) => i % 5 == 0))
            {
                var alone = ModeFollower.Solve(linear, Valved.EquivalentCoefficient(at.Velocity, direction));
                Assert.All(Enum.GetValues<ModeName>(), name => Assert.Equal(alone[name].DampingRatio, at.Modes[name].DampingRatio, 1e-7));
            }
        }
    }

    [Fact]
    public void Modes_keep_their_identity_though_the_coefficient_turns_back()
    {
        var sweep = ModeSweep.Of(ReferenceCars.LiveAxle(ReferenceCars.Mod23, Valved), ModeSweep.DefaultVelocities, includeFriction: false);
        var coefficients = sweep.Both.Select(at => at.Modes.Coefficient).ToArray();

        // It falls, then rises.
        Assert.True(coefficients.Min() < 0.8 * coefficients[0] && coefficients.Min() < 0.8 * coefficients[^1]);
        foreach (var (one, next) in sweep.Both.Zip(sweep.Both.Skip(1)))
        {
            // Neighbouring velocities are 12 % apart, and so at most are coefficients and, below critical damping, ratios.
            Assert.All(Enum.GetValues<ModeName>(), name => Assert.InRange(next.Modes[name].DampingRatio / one.Modes[name].DampingRatio, 0.8, 1.25));
        }
    }

    [Fact]
    public void Both_lies_between_compression_and_rebound()
    {
        var sweep = ModeSweep.Of(ReferenceCars.LiveAxle(ReferenceCars.Mod20, Valved), [0.05, 0.3], includeFriction: false);

        for (var i = 0; i < 2; i++)
        {
            Assert.InRange(sweep.Both[i].Modes.Roll.DampingRatio, sweep.Compression[i].Modes.Roll.DampingRatio, sweep.Rebound[i].Modes.Roll.DampingRatio);
            Assert.Equal(sweep.Both[i].Modes.Coefficient, (sweep.Compression[i].Modes.Coefficient + sweep.Rebound[i].Modes.Coefficient) / 2, 1e-9);
        }
    }

    [Fact]
    public void Damper_without_force_gives_undamped_modes()
    {
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod20, new Damper("none", ForceVelocityCurve.Linear(0)));

        Assert.All(ModeSweep.Of(car, [0.1], includeFriction: false).Both[0].Modes.All, mode => Assert.Equal(0, mode.DampingRatio));
    }
}
