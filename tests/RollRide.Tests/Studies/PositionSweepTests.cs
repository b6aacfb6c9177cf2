using RollRide.Mounting;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Studies;

public class PositionSweepTests
{
    [Fact]
    public void Run_upright_damper_on_a_live_axle_keeps_heave_and_takes_its_share_of_the_half_track_in_roll()
    {
        var study = ShortScenario.Pair().Read().Study;

        var sweep = PositionSweep.Run(study, study.Layouts[0], 5, cancellation: TestContext.Current.CancellationToken);

        // The roll ratio of an upright element on a live axle is its distance from the centre over half the track (kinematics of a rigid axle).
        Assert.Equal(0.8 * 0.8, sweep.OwnPosition, 1e-12);
        // Even steps to the inner face of a tyre of 0.13 of the track, 0.8 − 0.13·1.6/2, and where both layouts sit.
        Assert.Equal([0, 0.174, 0.24, 0.348, 0.522, 0.64, 0.696], sweep.Positions.Select(at => Math.Round(at.Position, 12)));
        Assert.All(sweep.Positions, at => Assert.Equal(at.Position / 0.8, at.Result.Car.Layout.Fitting.RollRatio, 1e-12));
        Assert.All(sweep.Positions, at => Assert.Equal(1, at.Result.Car.Layout.Fitting.HeaveRatio, 1e-12));
        Assert.Empty(sweep.Faults);
        var roll = sweep.Positions.Select(at => at.Result.ReferenceModes.Roll.DampingRatio).ToArray();
        Assert.Equal(roll.Order(), roll);
        // At the centre only the tyres damp roll; heave is as everywhere.
        Assert.True(roll[0] < 0.05);
        Assert.Single(sweep.Positions.Select(at => Math.Round(at.Result.ReferenceModes.Heave.DampingRatio, 9)).Distinct());
    }

    [Fact]
    public void Run_mounts_move_sideways_together()
    {
        var study = ScenarioReader.Read(Shipped.Scenario("bump-then-corner.json")).Study;
        var given = Assert.IsType<LiveAxleMountFitting>(study.Layouts[1].Fitting);

        var sweep = PositionSweep.Run(study with { Manoeuvre = study.Manoeuvre with { Duration = 0.1, Phases = [] } }, study.Layouts[1], 2, cancellation: TestContext.Current.CancellationToken);

        var outermost = Assert.IsType<LiveAxleMountFitting>(sweep.Positions[^1].Result.Car.Layout.Fitting);
        Assert.Equal(study.Vehicle.HalfTrack - (0.13 * study.Vehicle.Track / 2), outermost.AxleEnd.Y, 1e-12);
        Assert.All(study.Layouts, layout => Assert.Contains(PositionSweep.PositionOf(layout.Fitting), sweep.Positions.Select(at => at.Position)));
        Assert.Equal(given.BodyEnd.Y - given.AxleEnd.Y, outermost.BodyEnd.Y - outermost.AxleEnd.Y, 1e-12);
        Assert.Equal(given.Length, outermost.Length, 1e-12);
    }

    [Fact]
    public void Run_ends_at_the_tyre_whose_width_packaging_gives()
    {
        var study = ScenarioReader.Read(Shipped.Scenario("placement.json")).Study;

        var sweep = PositionSweep.Run(study with { Manoeuvre = study.Manoeuvre with { Duration = 0.1, Phases = [] } }, study.Layouts[0], 2, cancellation: TestContext.Current.CancellationToken);

        // Half the track of 1660 mm less half the tyre of 205 mm.
        Assert.Equal(0.7275, sweep.Positions[^1].Position, 1e-12);
    }

    [Fact]
    public void Run_on_an_arm_stays_on_the_arm()
    {
        var study = ScenarioReader.Read(Shipped.Scenario("independent-front.json")).Study;
        var arm = Assert.IsType<ArmMountFitting>(study.Layouts[0].Fitting);
        var slope = (arm.OuterJoint.Z - arm.Pivot.Z) / (arm.OuterJoint.Y - arm.Pivot.Y);

        var sweep = PositionSweep.Run(study with { Manoeuvre = study.Manoeuvre with { Duration = 0.1, Phases = [] } }, study.Layouts[0], 3, cancellation: TestContext.Current.CancellationToken);

        Assert.All(sweep.Positions.Where(at => at.Position != sweep.OwnPosition).Select(at => (ArmMountFitting)at.Result.Car.Layout.Fitting), moved =>
            Assert.Equal(slope, (moved.LowerMount.Z - arm.LowerMount.Z) / (moved.LowerMount.Y - arm.LowerMount.Y), 1e-9));
        Assert.InRange(sweep.Positions[^1].Position, arm.LowerMount.Y, arm.OuterJoint.Y);
        var ratios = sweep.Positions.Select(at => at.Result.Car.Layout.Fitting.HeaveRatio).ToArray();
        Assert.Equal(ratios.Order(), ratios);
    }

    [Fact]
    public void Run_goes_as_far_as_the_outermost_layout_where_that_sits_further_out_than_a_tyre_would_let_it()
    {
        var study = ShortScenario.Of(("Inside", 0.5), ("Beyond", 0.95)).With("manoeuvre.duration_s", 0.9).Read().Study;

        var sweep = PositionSweep.Run(study, study.Layouts[0], 2, cancellation: TestContext.Current.CancellationToken);

        Assert.Equal(0.95 * 0.8, sweep.Positions[^1].Position, 1e-12);
    }

    [Fact]
    public void Applies_independent_wheel_with_given_ratios_has_no_place() =>
        Assert.False(PositionSweep.Applies(
            ScenarioReader.Read(Shipped.Scenario("independent-front.json")).Study,
            ScenarioReader.Read(Shipped.Scenario("independent-front.json")).Study.Layouts[0] with { Fitting = new FixedRatioFitting(0.5, 0.5, 0.8) }));

    [Fact]
    public void Progress_counts_the_positions_finished()
    {
        var study = ShortScenario.Pair().With("manoeuvre.duration_s", 0.9).Read().Study;
        var progress = new ProgressRecorder<int>();

        PositionSweep.Run(study, study.Layouts[0], 4, progress: progress, cancellation: TestContext.Current.CancellationToken);

        // Four even steps, and where the two layouts sit.
        Assert.Equal([1, 2, 3, 4, 5, 6], progress.Values.Order());
        Assert.Equal(6, PositionSweep.Count(study, study.Layouts[0], 4));
    }
}
