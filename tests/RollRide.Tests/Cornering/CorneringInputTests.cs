using System.Numerics;
using RollRide.Cornering;
using RollRide.Numerics;
using RollRide.Tests.Numerics;

namespace RollRide.Tests.Cornering;

public sealed class CorneringInputTests
{
    private const double Speed = 25;

    private static readonly SingleTrackModel Car = ReferenceVehicles.Pacejka;
    private static readonly PiecewiseSignal StepSteer = CorneringEvents.Ramp(1, 0.2, 0.8);

    [Fact]
    public void Steered_LongAfterAStep_ReachesTheSteadyLateralAcceleration()
    {
        var input = new SteeredLateralAcceleration(Car, StepSteer, Speed, 30);
        double expected = Car.LateralAccelerationGain(Speed) * 0.8 / Car.SteeringRatio;
        Assert.Equal(expected, input.FinalLateralAcceleration, 1e-14);
        Assert.Equal(0.8, input.FinalCommand);
        // ζωn ≈ 3 /s: after 29 s nothing but the tolerance of 1e-10 is left.
        Assert.Equal(expected, At(input, 30).Lateral, 1e-9);
    }

    [Fact]
    public void Steered_BeforeTheFirstInput_RunsStraight()
    {
        var input = new SteeredLateralAcceleration(Car, StepSteer, Speed, 3);
        Assert.Equal(1, input.StartTime);
        Assert.Equal([1, 1.2], input.Breakpoints);
        Assert.Equal((0, 0), At(input, 0));
        Assert.Equal((0, 0), At(input, 1));
    }

    [Fact]
    public void Steered_ThroughTheCornersOfTheRamp_HasNoJump()
    {
        var input = new SteeredLateralAcceleration(Car, StepSteer, Speed, 3);
        ICorneringCursor cursor = input.CreateCursor();
        cursor.EnterSegment(1.1);
        double before = cursor.LateralAcceleration(1.2);
        cursor.EnterSegment(2);
        // The continuous solution of the steps on both sides, and rounding of the ramp's end.
        Assert.Equal(before, cursor.LateralAcceleration(1.2), 1e-12);
    }

    // Frequency response of the linear model, solved as 2 × 2 complex equations: after the transient a sine steer gives
    // Im[(iω v + V r) e^{iωt}] exactly.
    [Fact]
    public void Steered_SineAfterItsTransient_IsTheFrequencyResponse()
    {
        const double Frequency = 0.8, Amplitude = 0.5, Omega = 2 * Math.PI * Frequency;
        var input = new SteeredLateralAcceleration(Car, CorneringEvents.Sine(0, Frequency, Amplitude, 20), Speed, 20 / Frequency);
        double roadWheel = Amplitude / Car.SteeringRatio;
        var (a11, a21) = Car.Derivatives(1, 0, 0, Speed);
        var (a12, a22) = Car.Derivatives(0, 1, 0, Speed);
        var (b1, b2) = Car.Derivatives(0, 0, roadWheel, Speed);
        Complex s = Complex.ImaginaryOne * Omega, determinant = (s - a11) * (s - a22) - a12 * a21;
        Complex lateral = (b1 * (s - a22) + b2 * a12) / determinant, yaw = (b2 * (s - a11) + b1 * a21) / determinant;
        ICorneringCursor cursor = input.CreateCursor();
        cursor.EnterSegment(10);
        for (double t = 15; t < 20; t += 0.05)
        {
            double expected = ((s * lateral + Speed * yaw) * Complex.Exp(s * t)).Imaginary;
            // Tolerance 1e-10 a step; tens of steps within the memory of the vehicle, forces scale states of 0.1 by 100.
            Assert.Equal(expected, cursor.LateralAcceleration(t), 1e-7);
        }
    }

    [Fact]
    public void Steered_ToTheRight_IsTheMirrorImage()
    {
        var left = new SteeredLateralAcceleration(Car, CorneringEvents.SineWithDwell(0.5, 0.7, 1.5, 0.5), Speed, 5);
        var right = new SteeredLateralAcceleration(Car, CorneringEvents.SineWithDwell(0.5, 0.7, -1.5, 0.5), Speed, 5);
        for (double t = 0.01; t < 5; t += 0.05)
        {
            (double ay, double steer) = At(left, t);
            Assert.Equal((-ay, -steer), At(right, t));
        }
    }

    [Fact]
    public void Steered_RecordWithAnOffset_StartsInTheSteadyTurnOfIt()
    {
        PiecewiseSignal record = CorneringEvents.Sampled([2, 3, 4], [0.1, 0.6, 0.1]);
        var input = new SteeredLateralAcceleration(Car, record, Speed, 20);
        double steady = Car.LateralAccelerationGain(Speed) * 0.1 / Car.SteeringRatio;
        // Rounding only: the start state is an equilibrium.
        Assert.Equal(steady, At(input, 0).Lateral, 1e-12);
        Assert.Equal(steady, At(input, 1.9).Lateral, 1e-12);
        Assert.Equal(2, input.StartTime);
        Assert.Equal(steady, At(input, 20).Lateral, 1e-9);
    }

    [Fact]
    public void Steered_EventBegunBeforeTimeZero_IsUnderwayAtZero()
    {
        var late = new SteeredLateralAcceleration(Car, StepSteer, Speed, 5);
        var early = new SteeredLateralAcceleration(Car, StepSteer.Shifted(-1.3), Speed, 3);
        // Both integrate the same equations to 1e-10, from other step boundaries.
        Assert.Equal(At(late, 1.6).Lateral, At(early, 0.3).Lateral, 1e-8);
    }

    [Fact]
    public void Steered_AboveTheCriticalSpeedOrBadArgument_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("speed", () => new SteeredLateralAcceleration(ReferenceVehicles.Wong(47.82e3), StepSteer, 54, 5));
        Assert.Throws<ArgumentOutOfRangeException>("speed", () => new SteeredLateralAcceleration(Car, StepSteer, 0, 5));
        Assert.Throws<ArgumentOutOfRangeException>("duration", () => new SteeredLateralAcceleration(Car, StepSteer, Speed, 0));
    }

    [Fact]
    public void SteeredCursor_OutsideTheKnownTime_IsRefused()
    {
        ICorneringCursor cursor = new SteeredLateralAcceleration(Car, StepSteer, Speed, 5).CreateCursor();
        cursor.EnterSegment(3);
        Assert.Throws<ArgumentOutOfRangeException>(() => cursor.LateralAcceleration(5.001));
    }

    [Fact]
    public void SteeredCursor_Used_AllocatesNothing()
    {
        ICorneringCursor cursor = new SteeredLateralAcceleration(Car, StepSteer, Speed, 5).CreateCursor();
        double sum = 0;
        Assert.Equal(0, Allocation.Of(() =>
        {
            cursor.EnterSegment(3);
            for (int i = 0; i < 1000; i++) sum += cursor.LateralAcceleration(2 + 0.003 * i) + cursor.Command(2);
        }));
    }

    [Fact]
    public void Given_Along_IsItsOwnCommand()
    {
        var input = new GivenLateralAcceleration(CorneringEvents.Ramp(1, 0.2, 4));
        (double lateral, double command) = At(input, 1.1);
        Assert.Equal(2, lateral, 1e-14);
        Assert.Equal(lateral, command);
        Assert.Equal((1, 4, 4), (input.StartTime, input.FinalLateralAcceleration, input.FinalCommand));
        Assert.Equal([1, 1.2], input.Breakpoints);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(2, 0)]
    [InlineData(2, 0.3)]
    public void Given_AfterStraightRunning_IsBuiltUpWhenItsRampEndsAtTheRearAxle(double straight, double rearDelay)
    {
        List<SignalPiece> pieces = [new(straight, straight + 0.5, new LinearShape(0, 8)), new(straight + 0.5, double.PositiveInfinity, new ConstantShape(4))];
        if (straight > 0)
            pieces.Insert(0, new SignalPiece(0, straight, new ConstantShape(0)));
        var corner = new GivenLateralAcceleration(new PiecewiseSignal([.. pieces]), rearDelay).Alone;
        Assert.Equal(0.5, corner.EquivalentRamp!.Value, 1e-9);
        Assert.Equal(straight + 0.5 + rearDelay, corner.BuiltUp!.Value, 1e-9);
    }

    [Fact]
    public void StraightAhead_Always_IsZeroAndNeverStarts()
    {
        var input = GivenLateralAcceleration.StraightAhead;
        Assert.Equal((0, 0), At(input, 7));
        Assert.Empty(input.Breakpoints);
        Assert.Equal((double.PositiveInfinity, 0, 0), (input.StartTime, input.FinalLateralAcceleration, input.FinalCommand));
    }

    private static (double Lateral, double Command) At(ICorneringInput input, double time)
    {
        double[] edges = [-1000, .. input.Breakpoints, 1000];
        double before = edges.Last(e => e <= time), after = edges.First(e => e > time);
        ICorneringCursor cursor = input.CreateCursor();
        cursor.EnterSegment(0.5 * (before + after));
        return (cursor.LateralAcceleration(time), cursor.Command(time));
    }
}
