using System.Numerics;
using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Tests.Numerics;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

/// <summary>The damper and its elastic mount in series: the closed form <c>K(ω) = iωc·km/(km + iωc)</c>, derived.</summary>
public sealed class TopMountTests
{
    private const double Coefficient = 2000, Mount = 1e5, Amplitude = 0.01;

    [Theory]
    [InlineData(1.2)]
    [InlineData(11)]
    public void ForcedStroke_AtOneFrequency_HasTheSeriesStiffness(double frequency)
    {
        var omega = 2 * Math.PI * frequency;
        var (stiffness, force) = ForcedMotion(omega, Mount);
        for (var k = 0; k < 8; k++)
        {
            var phase = 2 * Math.PI * k / 8;
            var expected = (stiffness * Complex.FromPolarCoordinates(Amplitude, phase)).Imaginary;

            // The transient is gone after 40 time constants c/km; the tolerance of the integration is 1e-11 m on 1e5 N/m.
            Assert.Equal(expected, force(phase), 1e-4);
        }
    }

    [Fact]
    public void SoftMount_AtHighFrequency_TakesTheDampersWork()
    {
        // Work a cycle over that of the damper alone is Im K/(ωc) = 1/(1 + (ωc/km)²): 0.98 at 1.2 Hz and 0.34 at 11 Hz.
        double Share(double frequency)
        {
            var omega = 2 * Math.PI * frequency;
            var force = ForcedMotion(omega, Mount).Force;
            return force(0) / (omega * Coefficient * Amplitude);
        }

        double Expected(double frequency) => 1 / (1 + Math.Pow(2 * Math.PI * frequency * Coefficient / Mount, 2));
        Assert.Equal(Expected(1.2), Share(1.2), 1e-6);
        Assert.Equal(Expected(11), Share(11), 1e-6);
        Assert.True(Share(11) < 0.5 * Share(1.2));
    }

    [Fact] // The mount's part of the travel goes with 1/km, and so does what it changes: 1e-5 of the stroke at 1e7 N/m with forces of a kilonewton.
    public void MountThatHardlyYields_GivesTheVelocityOfARigidOne()
    {
        var (vehicle, layout) = (Find("ratios").Vehicle, Find("ratios").Layout);
        var manoeuvre = new Manoeuvre { Road = Road.Flat(20).With(RoadEvents.HaversineBump(2, 2, 0.04), RoadSide.Left), Cornering = GivenLateralAcceleration.StraightAhead, Duration = 1 };
        double Peak(double? stiffness)
        {
            var history = Record(new AssembledHalfCar(vehicle, layout.With(side => side with { Damper = side.Damper with { TopMountStiffness = stiffness } })), manoeuvre, 1e-9, 2000);
            return history[Channel.DamperVelocityLeft].ToArray().Max(Math.Abs);
        }

        var rigid = Peak(null);
        Assert.Equal(rigid, Peak(1e7), 5e-3 * rigid);
        Assert.NotEqual(rigid, Peak(1e5), 5e-3 * rigid); // a soft one takes part of the motion
    }

    /// <summary>The force in steady state, by the phase of a sine of relative heave, and the closed form.</summary>
    private static (Complex Stiffness, Func<double, double> Force) ForcedMotion(double omega, double mount)
    {
        var damper = LinearDamper(Coefficient) with { TopMountStiffness = mount };
        var equations = Equations(new AssembledHalfCar(LiveAxle, Layout(Ratio(1, 0.6), damper)));
        var (full, rates) = (new double[10], new double[10]);
        void Place(double time, double stroke)
        {
            full[HalfCarState.UnsprungHeave] = Amplitude * Math.Sin(omega * time);
            full[HalfCarState.Rates + HalfCarState.UnsprungHeave] = Amplitude * omega * Math.Cos(omega * time);
            full[HalfCarState.LeftStroke] = stroke;
        }

        var stroke = new FunctionSystem(1, (time, state, derivative) =>
        {
            Place(time, state[0]);
            equations.Derivatives(0.5, full, rates);
            derivative[0] = rates[HalfCarState.LeftStroke];
        });
        var whole = Math.Ceiling(40 * Coefficient / mount * omega / (2 * Math.PI)) * 2 * Math.PI / omega;
        double[] state = [0];
        var trajectory = new Trajectory();
        stroke.Run(0, whole + (2 * Math.PI / omega), state, 1e-11, trajectory);

        var channels = new double[ChannelTable.Count];
        double Force(double phase)
        {
            var time = whole + (phase / omega);
            trajectory.StateAt(time, state);
            Place(time, state[0]);
            equations.WriteChannels(0.5, full, channels);
            return channels.Of(Channel.DamperForceLeft);
        }

        var viscous = new Complex(0, omega * Coefficient);
        return (viscous * mount / (mount + viscous), Force);
    }
}
