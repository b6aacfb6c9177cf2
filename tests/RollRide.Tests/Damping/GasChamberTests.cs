using RollRide.Damping;

namespace RollRide.Tests.Damping;

/// <summary>The gas of a damper against worked examples of gases, and against formulas written down anew.</summary>
public class GasChamberTests
{
    private const string Monotube = Evidence.Derived + "(p − pa) A with p = p0 (V0/(V0 − A s))ⁿ, 25 bar absolute, 0.12 l, rod 12 mm, n 1.3";

    private static GasChamber OfRod(double diameter, double pressure, double volume, double index = 1.4) =>
        new(pressure, volume, Math.PI / 4 * diameter * diameter) { PolytropicIndex = index };

    [Theory]
    [InlineData(-0.060, 251.7708001, 305.2537419)]
    [InlineData(-0.030, 261.2187815, 324.9048330)]
    [InlineData(0, 271.2837513, 346.4231145)]
    [InlineData(0.030, 282.0252075, 370.0465946)]
    [InlineData(0.060, 293.5103491, 396.0518143)]
    public void Force_and_rate_over_the_stroke_are_those_of_the_polytrope(double stroke, double force, double rate)
    {
        var gas = OfRod(0.012, 2.5e6, 0.12e-3, 1.3);
        Validation.Row(FormattableString.Invariant($"monotube at {1e3 * stroke:0} mm"), "gas force, N", Monotube, force, gas.ForceAt(stroke), 1e-6);
        Validation.Row(FormattableString.Invariant($"monotube at {1e3 * stroke:0} mm"), "gas rate, N/m", Monotube, rate, gas.RateAt(stroke), 1e-6);
    }

    [Fact]
    public void Rate_and_its_change_are_the_slopes_of_the_force()
    {
        var gas = OfRod(0.022, 2.5e6, 0.12e-3);
        const double h = 1e-5;
        foreach (var stroke in (double[])[-0.05, 0, 0.04])
        {
            Assert.Equal((gas.ForceAt(stroke + h) - gas.ForceAt(stroke - h)) / (2 * h), gas.RateAt(stroke), gas.RateAt(stroke) * 1e-7);
            Assert.Equal((gas.RateAt(stroke + h) - gas.RateAt(stroke - h)) / (2 * h), gas.RateSlopeAt(stroke), gas.RateSlopeAt(stroke) * 1e-6);
        }
    }

    [Fact]
    public void Strut_of_a_published_table_has_the_force_and_rate_of_its_pressure()
    {
        const string Source = Evidence.Derived + "p A and n p A²/V of the strut in Shock and Vibration 2021, 5526106, Table 1: 90 mm, 9.25 MPa, 1.2 l, n 1.4";
        var gas = OfRod(0.09, 9.25e6, 1.2e-3);
        Validation.Row("hydropneumatic strut", "gas force against vacuum, N", Source, 58845.95739, gas.Force + (GasChamber.Atmosphere * gas.RodArea), 1e-5);
        Validation.Row("hydropneumatic strut", "gas rate, N/m", Source, 436755.4398, gas.RateAt(0), 1e-4);
    }

    [Fact]
    public void Accumulator_of_a_textbook_has_its_precharge_pressure_adiabatically_and_at_one_temperature()
    {
        const string Source = Evidence.Printed + "J. Sullivan, Fluid Power, 4th ed., Example 12.5: 1155 in³ between 3000 and 2000 lbf/in², precharge 1500 lbf/in²";
        const double rod = 0.01, inch3 = 16.387064e-6;
        var full = new GasChamber(20.785624812e6, 3462.278 * inch3, rod);

        // The book's volumes, read to half a thousandth of a cubic inch.
        Validation.Row("accumulator, adiabatic", "absolute pressure at 5660.756 in³, MPa", Source, 10.443488872, full.PressureAt(-(5660.756 - 3462.278) * inch3 / rod) / 1e6, 5e-6);
        var slow = new GasChamber(20.785624812e6, 4631.373925 * inch3 * 10.443488872 / 20.785624812, rod);
        const string Isothermal = Evidence.Printed + "worked companion to J. Sullivan, Fluid Power, 4th ed., Example 12.4 (the book's own 4627.25 in³ is 0.09 % less)";
        Validation.Row("accumulator, one temperature", "absolute pressure at 20.049 US gal, MPa", Isothermal, 10.443488872, slow.SettledAt(-((20.049 * 231 * inch3) - slow.Volume) / rod).Pressure / 1e6, 5e-4);
    }

    [Fact]
    public void Expansion_to_four_times_the_volume_leaves_the_pressure_of_a_textbook()
    {
        var gas = new GasChamber(1.4e6, 0.076521375, 0.01) { PolytropicIndex = 1.3 };
        Validation.Row("expansion to four volumes", "absolute pressure, kPa", Evidence.Printed + "R. Joel, Basic Engineering Thermodynamics, Example 5.11, p. 119", 231, gas.PressureAt(-3 * gas.Volume / gas.RodArea) / 1e3, 0.5);
    }

    [Fact]
    public void Gas_that_has_settled_elsewhere_keeps_its_mass_and_temperature()
    {
        var gas = OfRod(0.022, 2.5e6, 0.12e-3);
        var there = gas.SettledAt(0.03);
        Assert.Equal(gas.Pressure * gas.Volume, there.Pressure * there.Volume, 1e-9);
        Assert.Equal(gas.Isothermal.ForceAt(0.03), there.Force, 1e-9);
        Assert.Equal(gas.PolytropicIndex, there.PolytropicIndex);
        Assert.True(there.Force < gas.ForceAt(0.03), "Gas that could not give off its heat pushes harder.");
    }

    [Fact]
    public void No_stroke_goes_past_the_end_of_the_volume()
    {
        var gas = OfRod(0.022, 2.5e6, 0.02e-3);
        Assert.True(gas.ForceAt(0.999 * gas.LongestStroke) > 1e6);
        Assert.True(double.IsNaN(gas.ForceAt(1.001 * gas.LongestStroke)));
        Assert.Throws<ArgumentOutOfRangeException>(() => gas.SettledAt(1.001 * gas.LongestStroke));
    }
}
