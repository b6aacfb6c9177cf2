using RollRide.Damping;
using RollRide.Numerics;

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
        Validation.Row(FormattableString.Invariant($"monotube at {1e3 * stroke:0} mm"), "gas rate, N/m", Monotube, rate, RateAt(gas, stroke), 1e-6);
    }

    [Fact]
    public void Rate_that_the_modes_see_is_the_slope_of_the_force()
    {
        var gas = OfRod(0.022, 2.5e6, 0.12e-3);
        const double h = 1e-5;
        foreach (var stroke in (double[])[-0.05, 0, 0.04, 0.2])
            Assert.Equal((gas.ForceAt(stroke + h) - gas.ForceAt(stroke - h)) / (2 * h), RateAt(gas, stroke), RateAt(gas, stroke) * 1e-6);
    }

    [Fact]
    public void Strut_of_a_published_table_has_the_force_and_rate_of_its_pressure()
    {
        const string Source = Evidence.Derived + "p A and n p A²/V of the strut in Shock and Vibration 2021, 5526106, Table 1: 90 mm, 9.25 MPa, 1.2 l, n 1.4";
        var gas = OfRod(0.09, 9.25e6, 1.2e-3);
        Validation.Row("hydropneumatic strut", "gas force against vacuum, N", Source, 58845.95739, gas.Force + (GasChamber.Atmosphere * gas.RodArea), 1e-5);
        Validation.Row("hydropneumatic strut", "gas rate, N/m", Source, 436755.4398, RateAt(gas, 0), 1e-4);
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
    public void Compression_of_a_textbook_takes_the_work_that_it_prints()
    {
        // 0.25 kg of a gas with cp 1.005 and cv 0.718 kJ/(kg K): the work on it is the area under p = p0 (V0/V)ⁿ.
        const string Source = Evidence.Printed + "R. Joel, Basic Engineering Thermodynamics, Example 5.12, p. 120: 140 to 1400 kPa from 0.15 m³, pV^1.25";
        const double rod = 0.01, end = 0.0237733979;
        var gas = new GasChamber(140e3, 0.15, rod) { PolytropicIndex = 1.25 };
        var stroke = (0.15 - end) / rod;
        Validation.Row("compression to a tenth in pressure", "absolute pressure at 0.02377 m³, kPa", Source, 1400, gas.PressureAt(stroke) / 1e3, 1e-4);
        const int n = 100_000;
        var work = Enumerable.Range(0, n).Sum(i => gas.PressureAt(stroke * (i + 0.5) / n)) * rod * stroke / n;
        Validation.Row("compression to a tenth in pressure", "work on the gas, kJ", Source, 49.1, work / 1e3, 0.05);
    }

    [Fact]
    public void Compression_and_expansion_of_a_textbook_have_the_temperatures_of_their_pressures()
    {
        // The temperature follows from the pressure by p V/T = constant; the textbook counts 0 °C as 273 K.
        const string Pressure = Evidence.Printed + "R. Joel, Basic Engineering Thermodynamics, Example 5.9, p. 117: 300 kPa, 25 to 180 °C, pV^1.4";
        var hot = new GasChamber(300e3, 1e-3, 1e-4);
        var volume = 1e-3 * Math.Pow(298.0 / 453, 1 / 0.4);
        Validation.Row("heated by compression", "absolute pressure, kPa", Pressure, 1299, hot.PressureAt((1e-3 - volume) / 1e-4) / 1e3, 0.5);
        const string Temperature = Evidence.Printed + "worked companion to R. Joel, Basic Engineering Thermodynamics, Example 5.10, p. 118: 285 °C, 0.015 to 0.09 m³, pV^1.35";
        var cold = new GasChamber(500e3, 0.015, 0.1) { PolytropicIndex = 1.35 };
        var kelvin = 558 * cold.PressureAt(-0.75) * 0.09 / (500e3 * 0.015);
        Validation.Row("cooled by expansion", "temperature, °C", Temperature, 25.0, kelvin - 273, 0.05);
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

    /// <summary>As the linearised model takes it: by differentiating the law that runs.</summary>
    private static double RateAt(GasChamber gas, double stroke)
    {
        var law = new GasLaw<Dual>();
        law.Load(0, gas);
        law.At(new Dual(stroke, 1), out _, out var force);
        return force.Slope;
    }
}
