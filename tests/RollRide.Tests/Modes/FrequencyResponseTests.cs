using System.Numerics;
using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Tests.Modes;

public sealed class FrequencyResponseTests
{
    [Theory] // From memory of Hedrick & Butsuen, Proc. IMechE D 204 (1990) 21-27; derived from ms z̈s + mu z̈u = kt (zr − zu).
    [InlineData(22e3, 1500)]
    [InlineData(40e3, 6000)]
    [InlineData(5e3, 0)]
    public void Body_motion_at_the_wheels_own_frequency_depends_on_neither_spring_nor_damper(double ks, double c)
    {
        var omega = Math.Sqrt(192e3 / 45.4);

        var response = Of(ReferenceCars.HalfCar(635, 250, 0.75, 45.4, ks, 192e3, c, 0), c, omega);

        Near(-0.14299212598, response.RoadHeave.Body[0], 1e-9);
        Validation.Row(FormattableString.Invariant($"ks = {ks / 1e3:F0} kN/m, c = {c} N·s/m"), "body over road at the wheel's own frequency, whatever spring and damper",
            Evidence.Remembered + "Hedrick and Butsuen, Proc. IMechE D 204, 1990: −mu/ms", -0.14299212598, response.RoadHeave.Body[0].Real, 1.5e-10);
    }

    [Theory] // Same source: at √(kt/(ms + mu)) the suspension travel is fixed.
    [InlineData(22e3, 1500)]
    [InlineData(40e3, 6000)]
    public void Suspension_travel_at_the_locked_bounce_depends_on_neither_spring_nor_damper(double ks, double c)
    {
        var omega = Math.Sqrt(192e3 / (317.5 + 45.4));

        var response = Of(ReferenceCars.HalfCar(635, 250, 0.75, 45.4, ks, 192e3, c, 0), c, omega);

        // The row's travel is zs − zu; ours is positive in compression.
        Near(1.14299212598, response.RoadHeave.SuspensionTravel[0], 1e-9);
        Validation.Row(FormattableString.Invariant($"ks = {ks / 1e3:F0} kN/m, c = {c} N·s/m"), "suspension travel over road at the locked bounce, whatever spring and damper",
            Evidence.Remembered + "Hedrick and Butsuen, Proc. IMechE D 204, 1990: 1 + mu/ms", 1.14299212598, response.RoadHeave.SuspensionTravel[0].Real, 1.2e-9);
    }

    [Fact]
    public void Slow_roads_are_followed_and_slow_turns_lean_to_the_static_angle()
    {
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod23);

        var response = Of(car, 2500, 2 * Math.PI * 1e-3);

        // Away from zero frequency by (f/f1)² = 1e-6 and by 2ζ f/f1.
        Near(1, response.RoadHeave.Body[0], 1e-3);
        Near(0, response.RoadHeave.TyreLoad[0] / car.Vehicle.Tyre.Stiffness, 1e-3);
        Assert.Equal(0.02699723, response.RollOverLateralAcceleration[0].Magnitude, 1e-5); // Derived.
    }

    [Theory] // The linear equations against a long run of the full ones, at five frequencies.
    [InlineData(0.5)]
    [InlineData(1.3)]
    [InlineData(3)]
    [InlineData(9)]
    [InlineData(20)]
    public void Response_is_that_of_a_long_simulated_sine(double frequency)
    {
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod23, new Damper("mounted", ForceVelocityCurve.Linear(2500)) { TopMountStiffness = 400e3 });
        const double Amplitude = 1e-4; // Small enough for sin φ = φ: a relative 1e-8.
        var expected = Of(car, 2500, 2 * Math.PI * frequency);

        // Heave and roll are apart, so one run shows both: left and right road (1 + 0.5) and (1 − 0.5).
        var road = new Road(Sine(1.5 * Amplitude, frequency), Sine(0.5 * Amplitude, frequency), 1);
        var lateral = new GivenLateralAcceleration(Sine(Amplitude, frequency));
        var run = Steady(car, road, GivenLateralAcceleration.StraightAhead, frequency);
        var turn = Steady(car, Road.Flat(1), lateral, frequency);

        Near(expected.RoadHeave.Body[0], run[Channel.BodyHeave] / Amplitude);
        Near(expected.RoadHeave.BodyAcceleration[0], run[Channel.BodyAcceleration] / Amplitude);
        Near(expected.RoadRoll.Body[0], run[Channel.BodyRoll] / (0.5 * Amplitude));
        Near(expected.RoadRoll.BodyAcceleration[0], run[Channel.BodyRollAcceleration] / (0.5 * Amplitude));
        Near(expected.RoadHeave.SuspensionTravel[0] + (0.5 * expected.RoadRoll.SuspensionTravel[0]), run[Channel.WheelTravelLeft] / Amplitude);
        Near(expected.RoadHeave.TyreLoad[0] + (0.5 * expected.RoadRoll.TyreLoad[0]), run[Channel.TyreLoadLeft] / Amplitude);
        Near(expected.RollOverLateralAcceleration[0], turn[Channel.BodyRoll] / Amplitude);
    }

    [Fact]
    public void Frequencies_are_evenly_spaced_on_a_logarithmic_axis()
    {
        var frequencies = FrequencyResponse.LogarithmicFrequencies(0.1, 50, 5);

        Assert.Equal(0.1, frequencies[0], 1e-12);
        Assert.Equal(50, frequencies[^1], 1e-12);
        Assert.Equal(frequencies[1] / frequencies[0], frequencies[4] / frequencies[3], 1e-12);
        Assert.Throws<ArgumentOutOfRangeException>(() => FrequencyResponse.LogarithmicFrequencies(5, 5));
    }

    private static FrequencyResponse Of(AssembledHalfCar car, double coefficient, double omega) =>
        FrequencyResponse.Of(LinearHalfCar.AtRest(car), car.Vehicle.HalfTrack, coefficient, [omega / (2 * Math.PI)]);

    private static PiecewiseSignal Sine(double amplitude, double frequency) =>
        new(new SignalPiece(0, 1000, new SineShape(amplitude, 1 / frequency, 0)));

    /// <summary>Amplitude and phase of every channel over the last cycles, by projection on sine and cosine.</summary>
    private static Dictionary<Channel, Complex> Steady(AssembledHalfCar car, Road road, GivenLateralAcceleration cornering, double frequency)
    {
        // The slowest mode decays with σ = 0.8/s: e^−16 of the start is left.
        var cycles = (int)Math.Ceiling(20 * frequency) + 2;
        const int PerCycle = 64;
        const int Kept = 2;
        var manoeuvre = new Manoeuvre { Road = road, Cornering = cornering, Duration = (cycles / frequency) + 1e-6 };
        var simulation = new Simulation(car, manoeuvre, new IntegratorOptions { RelativeTolerance = 1e-7, AbsoluteTolerance = 1e-11 });
        var recorder = new TimeHistoryRecorder(simulation.Equations, manoeuvre.Duration, PerCycle * frequency);
        simulation.Run([recorder], cancellation: TestContext.Current.CancellationToken);
        var history = recorder.ToHistory();

        var found = new Dictionary<Channel, Complex>();
        foreach (var channel in Enum.GetValues<Channel>())
        {
            var sum = Complex.Zero;
            for (var i = (cycles - Kept) * PerCycle; i < cycles * PerCycle; i++)
                sum += history[channel][i] * Complex.Exp(new Complex(0, -2 * Math.PI * i / PerCycle));

            // A sine is the imaginary part of exp(iωt): 2/N × i × sum.
            found[channel] = sum * new Complex(0, 2.0 / (Kept * PerCycle));
        }

        return found;
    }

    private static void Near(Complex expected, Complex actual, double relative = 1e-3) =>
        Assert.True((actual - expected).Magnitude <= relative * Math.Max(expected.Magnitude, expected == 0 ? 1 : 0), $"{actual} is not {expected}");
}
