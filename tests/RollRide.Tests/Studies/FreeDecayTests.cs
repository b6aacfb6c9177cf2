using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Modes;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Studies;

public sealed class FreeDecayTests
{
    private static readonly IntegratorOptions Solver = new() { RelativeTolerance = 1e-9, AbsoluteTolerance = 1e-13 };

    [Theory]
    [InlineData(ModeName.Heave, false)]
    [InlineData(ModeName.Roll, false)]
    [InlineData(ModeName.Hop, false)]
    [InlineData(ModeName.Tramp, false)]
    [InlineData(ModeName.Heave, true)]
    [InlineData(ModeName.Roll, true)]
    [InlineData(ModeName.Tramp, true)]
    public void Linear_damper_decays_with_the_ratio_of_the_eigenvalue(ModeName mode, bool mounted)
    {
        var damper = new Damper("linear", ForceVelocityCurve.Linear(2500)) { TopMountStiffness = mounted ? 300e3 : null };
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod23 with { DamperPosition = 0.6 }, damper);

        var decay = FreeDecay.Of(car, mode, 0.01, includeFriction: false, Solver, TestContext.Current.CancellationToken);

        // The body leans φ = 2e-3 rad, so sin φ for φ costs φ²/6 × ms g h/kφ = 1e-7; the integrator adds some 1e-8.
        Assert.Equal(decay.Linear.DampingRatio, decay.DecrementRatio!.Value, 1e-6);
        Assert.Equal(decay.Linear.DampingRatio, decay.FittedRatio!.Value, 1e-6);
        Assert.Equal(decay.Linear.NaturalFrequency, decay.FittedFrequency!.Value, 1e-5);
        Assert.True(decay.FitResidual < 1e-6);
        Assert.Equal(decay.Linear.DampingRatio, decay.LinearRatioAtMeanVelocity!.Value, 1e-9);
        Assert.False(decay.LeftLinearRange);
    }

    [Fact] // Common practice, no source: at 0.77 and 0.53 of the half-track the roll ratio is that, and damping goes with its square.
    public void Roll_decay_goes_with_the_square_of_the_roll_ratio()
    {
        double Ratio(double share) => FreeDecay.Of(
            ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { DamperPosition = share * 0.75, Damping = 100 }),
            ModeName.Roll, 0.002, includeFriction: false, Solver, TestContext.Current.CancellationToken).DecrementRatio!.Value;

        // At light damping; what is left is of the order of ζ² = 1e-4.
        Assert.Equal(0.53 * 0.53 / (0.77 * 0.77), Ratio(0.53) / Ratio(0.77), 1e-4);
    }

    [Theory] // Falling coefficient: more damping as the motion dies. Rising coefficient: less.
    [InlineData(ModeName.Heave, 150, 60, 1)]
    [InlineData(ModeName.Roll, 150, 60, 1)]
    [InlineData(ModeName.Heave, 40, 160, -1)]
    [InlineData(ModeName.Roll, 40, 160, -1)]
    public void Decay_is_that_of_the_smaller_velocities_it_runs_through(ModeName mode, double forceAtKnee, double forceBeyond, int sign)
    {
        var bent = new Damper("bent", ForceVelocityCurve.FromPoints(
            [-0.4, -0.1, 0, 0.1, 0.4], [-forceAtKnee - (3 * forceBeyond), -forceAtKnee, 0, forceAtKnee, forceAtKnee + (3 * forceBeyond)]));
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { DamperPosition = 0.7 }, bent);

        var decay = FreeDecay.Of(car, mode, 0.3, includeFriction: false, Solver, TestContext.Current.CancellationToken);

        Assert.True(decay.MeanVelocity < decay.ReleaseVelocity);
        Assert.True(sign * (decay.DecrementRatio - decay.Linear.DampingRatio) > 0.05 * decay.Linear.DampingRatio);
        // One coefficient for a cycle in which the amplitude falls by half is an estimate, good to some per cent.
        Assert.InRange(decay.DecrementRatio!.Value / decay.LinearRatioAtMeanVelocity!.Value, 0.93, 1.07);
    }

    [Fact]
    public void Unequal_compression_and_rebound_decay_with_their_mean()
    {
        var roll = Bilinear(ModeName.Roll, compression: 600, rebound: 1400);
        var heave = Bilinear(ModeName.Heave, compression: 600, rebound: 1400);

        // In roll one side closes while the other opens: the mean acts at every instant (the jacking couples in heave alone).
        Assert.Equal(roll.Linear.DampingRatio, roll.DecrementRatio!.Value, 0.002);
        // A mass on a spring falls over the two swings of a cycle by exp(−π(ζ₁/√(1−ζ₁²) + ζ₂/√(1−ζ₂²))), the mean to the order of ζ³
        // (derived): 1 % here. The tyres, which the vehicle has besides, see the jolts at the change of swing: 1 % more.
        Assert.InRange(heave.DecrementRatio!.Value / heave.Linear.DampingRatio, 0.98, 1.02);
    }

    [Theory] // Compression and rebound exchanged is the same motion released to the other side.
    [InlineData(ModeName.Heave)]
    [InlineData(ModeName.Hop)]
    public void Decay_does_not_depend_on_which_of_compression_and_rebound_comes_first(ModeName mode)
    {
        var one = Bilinear(mode, compression: 500, rebound: 1500);
        var other = Bilinear(mode, compression: 1500, rebound: 500);

        // A single release would give up to half more and half less. The body leans and stands on the same springs either way, so only
        // the integrator's error and that of the fit, 1e-6, are left.
        Assert.Equal(one.DecrementRatio!.Value, other.DecrementRatio!.Value, 1e-5);
        Assert.Equal(one.FittedRatio!.Value, other.FittedRatio!.Value, 1e-5);
        Assert.InRange(one.DecrementRatio!.Value / one.Linear.DampingRatio, 0.9, 1.1);
    }

    [Fact] // The bus's axle hop swings once and creeps: a fit of three cycles runs to critical damping there, which is no measurement.
    public void Fit_that_finds_no_oscillation_of_the_mode_gives_no_ratio()
    {
        var study = ScenarioReader.Read(Shipped.PathOf("scenarios", "independent-front.json")).Study;
        var car = new AssembledHalfCar(study.Vehicle, study.Layouts.Single(layout => layout.Name == "Further out, standard"));

        var decay = FreeDecay.Of(car, ModeName.Hop, 0.13, includeFriction: false, study.Solver, TestContext.Current.CancellationToken);

        Assert.Null(decay.FittedRatio);
        Assert.Null(decay.FittedFrequency);
        Assert.Null(decay.FitResidual);
    }

    [Theory] // The vehicle is released after a compression; with the valving turned round the first half cycle is the harder one.
    [InlineData(1400, 600)]
    [InlineData(600, 1400)]
    public void Heave_decay_does_not_depend_on_which_half_cycle_comes_first(double rebound, double compression)
    {
        var bilinear = new Damper("bilinear", ForceVelocityCurve.FromPoints([-1, 0, 1], [-rebound, 0, compression]));
        var mean = new Damper("mean", ForceVelocityCurve.Linear(1000));
        double Ratio(Damper damper) => FreeDecay.Of(
            ReferenceCars.LiveAxle(ReferenceCars.Mod20, damper), ModeName.Heave, 0.1, includeFriction: false, Solver, TestContext.Current.CancellationToken).DecrementRatio!.Value;

        // ζ = 0.1: as above, 0.16 ζ² × 3/2 = 0.25 %, doubled at most.
        Assert.Equal(Ratio(mean), Ratio(bilinear), 0.005 * Ratio(mean));
    }

    [Fact]
    public void Overdamped_mode_has_nothing_to_measure()
    {
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { DamperPosition = 0.7, Damping = 12000 });

        var decay = FreeDecay.Of(car, ModeName.Tramp, 0.05, includeFriction: false, Solver, TestContext.Current.CancellationToken);

        Assert.True(decay.Linear.IsOverdamped);
        Assert.Null(decay.DecrementRatio);
        Assert.Null(decay.FittedRatio);
    }

    [Fact]
    public void Tyre_that_leaves_the_road_is_noted()
    {
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { Damping = 1000 });

        Assert.True(FreeDecay.Of(car, ModeName.Hop, 3, includeFriction: false, Solver, TestContext.Current.CancellationToken).LeftLinearRange);
    }

    /// <summary>A decay with straight lines of different slope in compression and rebound, N·s/m.</summary>
    private static FreeDecay Bilinear(ModeName mode, double compression, double rebound)
    {
        var damper = new Damper("bilinear", ForceVelocityCurve.FromPoints([-1, 0, 1], [-rebound, 0, compression]));
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { DamperPosition = 0.6 }, damper);
        return FreeDecay.Of(car, mode, 0.1, includeFriction: false, Solver, TestContext.Current.CancellationToken);
    }
}
