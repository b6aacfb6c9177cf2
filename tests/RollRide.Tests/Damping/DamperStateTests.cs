using RollRide.Damping;

namespace RollRide.Tests.Damping;

public class DamperStateTests
{
    private static readonly ForceVelocityCurve Cold = ForceVelocityCurve.FromPoints([-1, -0.2, 0, 0.1, 0.8], [-2000, -800, 0, 300, 900]);
    private static readonly ForceVelocityCurve Hot = ForceVelocityCurve.FromPoints([-0.9, -0.1, 0, 0.2, 0.8], [-1500, -350, 0, 350, 700]);

    [Fact] // Both curves are straight between the points of the two together, so at these the state must be exact.
    public void State_of_the_curve_that_it_was_made_of_is_the_other_curve_wherever_either_has_a_point()
    {
        var state = DamperState.Of("hot", Cold, Hot).Of(Cold);

        Assert.Equal(Cold.MinimumVelocity, state.MinimumVelocity);
        foreach (var velocity in (double[])[-0.9, -0.55, -0.2, -0.15, -0.1, -0.03, 0, 0.05, 0.1, 0.13, 0.2, 0.5, 0.8])
            Assert.Equal(Hot.Force(velocity), state.Force(velocity), 1e-9); // a few roundings of a thousand newtons
    }

    [Fact]
    public void State_takes_the_same_share_from_another_valving()
    {
        var state = DamperState.Of("hot", Cold, Cold.Scaled(0.8));
        var other = new Valving(new ValveCharacteristic(5000, 0.06, 800), new ValveCharacteristic(8000, 0.09, 900)).ToCurve(1, 1);

        foreach (var velocity in (double[])[-0.7, -0.09, -0.01, 0.03, 0.06, 0.4, 1])
            Assert.Equal(0.8 * other.Force(velocity), state.Of(other).Force(velocity), 1e-9); // a few roundings
    }

    [Theory]
    [InlineData(20, 1)]
    [InlineData(55, 0.5)]
    [InlineData(90, 0)]
    public void Force_between_two_temperatures_is_linear_in_temperature(double temperature, double shareOfCold)
    {
        var between = DamperState.Between("warm", temperature, DamperState.Of("cold", Cold, Cold, 20), DamperState.Of("hot", Cold, Hot, 90)).Of(Cold);

        foreach (var velocity in (double[])[-0.9, -0.2, -0.1, 0.1, 0.2, 0.8])
            Assert.Equal((shareOfCold * Cold.Force(velocity)) + ((1 - shareOfCold) * Hot.Force(velocity)), between.Force(velocity), 1e-9); // a few roundings
    }

    [Fact]
    public void Temperature_outside_those_of_the_curves_is_refused() => Assert.Contains(
        "between those of the two states, 20 and 90 °C",
        Assert.Throws<ArgumentOutOfRangeException>(() => DamperState.Between("frost", -10, DamperState.Of("cold", Cold, Cold, 20), DamperState.Of("hot", Cold, Hot, 90))).Message,
        StringComparison.Ordinal);

    [Fact]
    public void Curve_that_pushes_where_the_other_resists_is_no_state() => Assert.Contains(
        "at 0.1 m/s the force is -20 N in state “odd” and 300 N otherwise; both must resist the motion",
        Assert.Throws<ArgumentException>(() => DamperState.Of("odd", Cold, ForceVelocityCurve.FromPoints([-1, 0, 0.1, 1], [-2000, 0, -20, 900]))).Message,
        StringComparison.Ordinal);

    [Fact]
    public void Missing_curve_or_state_is_named()
    {
        var state = DamperState.Of("hot", Cold, Hot, 90);

        Assert.Throws<ArgumentNullException>("otherwise", () => DamperState.Of("hot", null!, Hot));
        Assert.Throws<ArgumentNullException>("curve", () => DamperState.Of("hot", Cold, null!));
        Assert.Throws<ArgumentNullException>("cooler", () => DamperState.Between("warm", 50, null!, state));
        Assert.Throws<ArgumentNullException>("hotter", () => DamperState.Between("warm", 50, state, null!));
        Assert.Throws<ArgumentNullException>("other", () => state.IsSameAs(null!));
        Assert.Throws<ArgumentNullException>("curve", () => state.Of(null!));
    }

    [Fact] // T = T_air + P/G, by hand: 20 + 45/1.5 = 50.
    public void Oil_settles_where_the_heat_flows_off() => Assert.Equal(50, new DamperHeat(1.5, 20).SteadyTemperature(45), 1e-12);

    [Fact] // The same law over time, C dT/dt = P − G (T − T_air), by small steps until it no longer changes: what is constant drops out.
    public void Oil_settles_where_a_long_run_brings_it()
    {
        const double Power = 80, HeatCapacity = 900, Step = 1;
        var heat = new DamperHeat(2.5, -5);
        var temperature = 60.0;
        for (var t = 0; t < 20_000; t++)
            temperature += Step / HeatCapacity * (Power - (heat.Conductance * (temperature - heat.AirTemperature)));

        Assert.Equal(temperature, heat.SteadyTemperature(Power), 1e-9); // after 55 time constants nothing is left of the start
    }
}
