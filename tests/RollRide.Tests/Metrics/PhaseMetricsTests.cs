using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Roads;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Metrics;

public sealed class PhaseMetricsTests
{
    // 2 Hz at 20 m/s. After 8 s the slowest mode, which dies with e^(−1.9 t), is down to 2e-7; then four whole periods.
    private static readonly Manoeuvre SineRoad = Free(10) with
    {
        Road = Road.Flat(20).With(RoadEvents.Sine(0, 10, 0.01, 40), RoadSide.Both),
        Phases = [new Phase("steady", 8, 10)],
    };

    [Fact]
    public void SineRoad_LinearCar_HasSteadyFiguresOfASineAndNoShift()
    {
        var metrics = Measure(new AssembledHalfCar(LiveAxle, LinearLayout()), SineRoad, 1e-8).Phases[0];

        // A sine's peak is √2 its root mean square; to the rest of the transient and the tolerance.
        Assert.Equal(Math.Sqrt(2), metrics.BodyAccelerationPeak / metrics.BodyAccelerationRms, 1e-5);
        Assert.Equal(metrics.DamperCompressionVelocityPeak, metrics.DamperReboundVelocityPeak, 1e-6);
        Assert.Equal(metrics.BumpTravelPeak, metrics.ReboundTravelPeak, 1e-7);
        Assert.Equal(Math.Sqrt(2), metrics.BumpTravelPeak / metrics[PhaseMetric.RelativeHeaveRms]!.Value, 1e-5);
        Assert.Equal(0, metrics[PhaseMetric.RelativeRollRms]!.Value, 1e-12);
        Assert.Equal(0, metrics.RideHeightShift, 1e-8);

        // Two dampers of c take up c V²/2 each.
        var velocity = metrics.DamperCompressionVelocityPeak;
        Assert.Equal(2500 * velocity * velocity * 2, metrics.DamperEnergy, 1e-4 * metrics.DamperEnergy);
        Assert.Equal(metrics.DamperEnergy, metrics.DamperVelocities!.Energy.Sum(), 1e-9 * metrics.DamperEnergy);
        Assert.Equal(4, metrics.DamperVelocities!.Seconds.Sum(), 1e-12);
        Assert.Equal(0, metrics.RollAnglePeak, 1e-12);
    }

    [Theory]
    [InlineData(0.02)]
    [InlineData(-0.02)]
    public void SineRoad_DamperStifferOneWay_ShiftsTheRideHeightByItsMeanForce(double asymmetry)
    {
        // Derived: cc in compression and cr in rebound have a mean force (cc − cr) V/π at a velocity amplitude V; the
        // spring gives it back over F/ks. Stiffer in compression lifts the body, in rebound jacks it down.
        const double Coefficient = 2500;
        var velocity = Measure(new AssembledHalfCar(LiveAxle, LinearLayout()), SineRoad, 1e-8).Phases[0].DamperCompressionVelocityPeak;
        var (compression, rebound) = (Coefficient * (1 + asymmetry), Coefficient * (1 - asymmetry));
        var damper = new Damper("asymmetric", ForceVelocityCurve.FromPoints([-1, 0, 1], [-rebound, 0, compression]));
        var shift = Measure(new AssembledHalfCar(LiveAxle, Layout(Ratio(1, 0.6), damper)), SineRoad, 1e-8).Phases[0].RideHeightShift;

        // The asymmetry changes V itself by its own order, 2 %.
        var expected = (compression - rebound) * velocity / Math.PI / 35e3;
        Assert.Equal(expected, shift, 0.02 * Math.Abs(expected));
    }

    [Fact]
    public void BumpFromRestToRest_LinearCar_LeavesNoMeanShift()
    {
        var manoeuvre = BumpThenTurn(RoadSide.Both, 0.01, 0, 12);
        Assert.Equal(0, Measure(new AssembledHalfCar(LiveAxle, LinearLayout()), manoeuvre, 1e-9).Whole.RideHeightShift, 1e-10);
    }

    [Fact]
    public void SteadyTurn_LoadFigures_AreTheTransferOfTheStaticSolution()
    {
        // The whole run stands in the turn, so peak, least and mean are one number.
        var car = new AssembledHalfCar(LiveAxle, LinearLayout());
        var standing = StaticEquilibrium.Find(car, 3);
        var channels = ChannelsAt(car, standing);
        var transfer = (channels.Of(Channel.TyreLoadRight) - channels.Of(Channel.TyreLoadLeft)) / 2;
        var metrics = Measure(car, Free(1) with { Cornering = Steady(3) }, 1e-8).Whole;

        // Forces of 5 kN to their rounding, and the static solution's 1e-10 m/s².
        Assert.Equal(transfer, metrics.LoadTransferPeak, 1e-6);
        Assert.Equal(LiveAxle.StaticTyreLoad - transfer, metrics.TyreLoadMinimum, 1e-6);
        Assert.Equal(transfer / LiveAxle.StaticTyreLoad, metrics.DynamicLoadCoefficient, 1e-9);
        Assert.Equal(Math.Abs(standing.UnsprungRoll - standing.BodyRoll), metrics[PhaseMetric.RelativeRollRms]!.Value, 1e-10);
        Assert.Equal(0, metrics[PhaseMetric.RelativeHeaveRms]!.Value, 1e-10);
        Assert.Equal(0, metrics.LiftOffTime);
        Assert.Equal(0, metrics.BumpStopContacts + metrics.ReboundStopContacts);
    }

    [Fact]
    public void Phases_ThatShareTheRun_AddUpToIt()
    {
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.08, 3) with { Phases = [new Phase("first", 0, 1), new Phase("second", 1, 3)] };
        var metrics = Measure(Find("mounts, gas, friction, stops"), manoeuvre, 1e-7);
        var (first, second) = (metrics.Phases[0], metrics.Phases[1]);
        Assert.Equal(metrics.Whole.DamperEnergy, first.DamperEnergy + second.DamperEnergy, 1e-9 * metrics.Whole.DamperEnergy);
        Assert.Equal(metrics.Whole.BodyAccelerationPeak, Math.Max(first.BodyAccelerationPeak, second.BodyAccelerationPeak));
        Assert.Equal(metrics.Whole.TyreLoadMinimum, Math.Min(first.TyreLoadMinimum, second.TyreLoadMinimum));
        Assert.Equal(
            3 * Math.Pow(metrics.Whole.SeatAccelerationRms, 2),
            Math.Pow(first.SeatAccelerationRms, 2) + (2 * Math.Pow(second.SeatAccelerationRms, 2)),
            1e-9);
    }
}
