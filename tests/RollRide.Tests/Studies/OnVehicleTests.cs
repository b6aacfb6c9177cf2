using MathNet.Numerics.LinearAlgebra;
using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Dynamics;
using RollRide.Tests.Scenarios;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Studies;

/// <summary>What the other axle makes up for, who carries the load transfer, and how far the one simplification goes that both share.</summary>
public sealed class OnVehicleTests
{
    [Fact]
    public void EqualAxles_OneOfThemWithoutDampers_MakeUpHalfOfTheLoss()
    {
        // Softly damped, ζ of the roll mode is the mean of both ends': half is left of what one end loses.
        var (with, without) = (Axle(250), Axle(2.5));
        var (reference, layout) = (Of(Joined(with, with)), Of(Joined(without, with)));
        Assert.Equal(0.5, layout.MadeUpAgainst(reference)!.Value, 2e-3);
        Assert.Null(reference.MadeUpAgainst(reference));
    }

    [Fact]
    public void SoftFrame_WithholdsTheNumber()
    {
        var (with, without) = (Axle(2500), Axle(25));
        var (reference, layout) = (Of(Joined(with, with, 5e3)), Of(Joined(without, with, 5e3)));
        Assert.True(layout.Modes.RollsInParts);
        Assert.Null(layout.MadeUpAgainst(reference));
    }

    [Fact]
    public void OtherAxleWithoutDampers_MakesUpForNothing()
    {
        var (with, without) = (Axle(2500), Axle(25));
        Assert.Null(Of(Joined(without, Axle(0))).MadeUpAgainst(Of(Joined(with, Axle(0)))));
    }

    [Fact]
    public void RearAxleThatTurnsInLater_IsComparedOnceBothHaveTurnedIn()
    {
        const double Ramp = 0.2, Delay = 0.3;
        var share = Transfer(Joined(Axle(2500), Axle(2500), 0), new GivenLateralAcceleration(CorneringEvents.Ramp(0, Ramp, 3), Delay));
        Assert.Equal(Ramp + Delay, share.BuiltUp, 1e-9);
        Assert.True(share.LargestDeviationTime >= share.BuiltUp);

        // Until the rear axle turns in, no frame brings anything there: the front axle carries all.
        Assert.Equal(1, share.Share[0], 1e-9);
    }

    [Fact]
    public void CornerThatEndsAsItBegan_HasNoSteadyShare()
    {
        // A lane change whose record ends on a hundredth of its peak.
        double[] times = [0, 0.5, 1, 1.5, 2, 3], values = [0, 3, 0, -3, 0, 0.03];
        var share = Transfer(Joined(Axle(2500), Axle(1000)), new GivenLateralAcceleration(CorneringEvents.Sampled(times, values)));
        Assert.Null(share.Steady);
        Assert.Null(share.LargestDeviation);
    }

    [Fact]
    public void EqualAxles_ShareTheLoadTransferEqually_AtEveryInstant()
    {
        var axle = Axle(2500);
        var share = Transfer(Joined(axle, axle));
        Assert.Equal(0.5, share.Steady!.Value, 1e-12);
        Assert.All(share.Share, at => Assert.Equal(0.5, at, 1e-9));
    }

    [Fact]
    public void UnlikeAxles_EndAtTheirSteadyShare_AndDeviateWhileRollSettles()
    {
        var share = Transfer(Joined(new AssembledHalfCar(LiveAxle, LinearLayout(300)), new AssembledHalfCar(Independent, LinearLayout(2500)), 200e3));
        Assert.Equal(share.Steady!.Value, share.Share[^1], 2e-3);
        var at = share.Time.IndexOf(share.LargestDeviationTime!.Value);
        Assert.Equal(share.LargestDeviation!.Value, share.Share[at] - share.Steady.Value, 1e-15);
        Assert.True(share.LargestDeviationTime > share.BuiltUp);
        Assert.InRange(Math.Abs(share.LargestDeviation.Value), 1e-3, 0.2);
    }

    [Fact]
    public void FrameSweep_PassesThroughTheVehiclesOwnModes()
    {
        var car = Joined(Axle(2500), new AssembledHalfCar(Independent, LinearLayout(1500)));
        var sweep = FrameSweep.Of(car, 0.13, false, TestContext.Current.CancellationToken);
        var point = sweep.Points[20];
        var frame = car.Vehicle.SecondAxle! with { Chassis = car.Vehicle.SecondAxle.Chassis with { TorsionalStiffness = point.Stiffness } };
        var own = VehicleModeFollower.Solve(new AssembledHalfCar(car.Vehicle with { SecondAxle = frame }, car.Layout), 0.13, false);
        Assert.Equal(own.Roll.DampingRatio, point.Modes.Roll.DampingRatio, 1e-12);
        Assert.Equal(sweep.Rigid.Roll.DampingRatio, sweep.Points[^1].Modes.Roll.DampingRatio, 1e-3);
    }

    [Fact]
    public void LateralReactionOfTheRollingBody_WouldChangeItsRollModeByAFewPercent()
    {
        // The moment ms h hrc φ̈s on the axle, which the model leaves out, is one more entry of the mass matrix: of the axle's roll by the body's.
        var (frequency, ratio) = (0.0, 0.0);
        foreach (var file in Shipped.Scenarios)
        {
            var study = ScenarioReader.Read(Shipped.Scenario(file), cancellation: TestContext.Current.CancellationToken).Study;
            foreach (var layout in study.Layouts)
            {
                var car = study.Assemble(layout).Alone();
                var linear = LinearHalfCar.AtRest(car);
                var coefficient = layout.EquivalentCoefficient(study.Analysis.ReferenceVelocity);
                var damping = linear.Damping(coefficient);
                var mass = linear.Mass.Clone();
                var without = RollMode(mass, damping, linear.Stiffness);
                mass[HalfCarState.UnsprungRoll, HalfCarState.BodyRoll] = car.Vehicle.Body.Mass * car.Vehicle.RollArm * car.Vehicle.RollCentreHeight;
                var with = RollMode(mass, damping, linear.Stiffness);
                frequency = Math.Max(frequency, Math.Abs((with.Magnitude / without.Magnitude) - 1));
                ratio = Math.Max(ratio, Math.Abs((with.Real / with.Magnitude) - (without.Real / without.Magnitude)));
            }
        }

        // docs/theory.md says so.
        Assert.InRange(frequency, 0.03, 0.045);
        Assert.InRange(ratio, 0.01, 0.02);

        static System.Numerics.Complex RollMode(Matrix<double> mass, Matrix<double> damping, Matrix<double> stiffness)
        {
            int[] roll = [HalfCarState.BodyRoll, HalfCarState.UnsprungRoll];
            Matrix<double> Of(Matrix<double> m) => Matrix<double>.Build.Dense(2, 2, (i, j) => m[roll[i], roll[j]]);
            var inverse = Of(mass).Inverse();
            var a = Matrix<double>.Build.Dense(4, 4);
            a.SetSubMatrix(0, 2, Matrix<double>.Build.DenseIdentity(2));
            a.SetSubMatrix(2, 0, -(inverse * Of(stiffness)));
            a.SetSubMatrix(2, 2, -(inverse * Of(damping)));
            return a.Evd().EigenValues.Where(value => value.Imaginary > 0).MinBy(value => value.Magnitude);
        }
    }

    private static AssembledHalfCar Axle(double coefficient) => new(LiveAxle, LinearLayout(coefficient));

    private static AssembledHalfCar Joined(AssembledHalfCar own, AssembledHalfCar second, double twist = 2e6) => TwoAxlesTests.Joined(own, second, twist, null, 0);

    private static LayoutOnVehicle Of(AssembledHalfCar car) => new()
    {
        Modes = VehicleModeFollower.Solve(car, 0.13, false),
        Alone = ModeFollower.Solve(LinearHalfCar.AtRest(car), car.Layout, 0.13, false),
        Window = null,
        Transfer = null,
    };

    private static TransferShare Transfer(AssembledHalfCar car, GivenLateralAcceleration? corner = null) =>
        TransferShare.Of(car, (corner ?? new GivenLateralAcceleration(CorneringEvents.Ramp(0, 0.2, 3))).Alone, 15, Tolerance(1e-8), TestContext.Current.CancellationToken)!;
}
