using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class PlotTextTests
{
    [Theory]
    [InlineData(-4.94, 1, "deg", "−4.9 deg")]
    [InlineData(-0.04, 1, "deg", "0.0 deg")]
    [InlineData(0.215, 2, "", "0.22")]
    [InlineData(1500, 0, "N", "1500 N")]
    public void Value_has_a_true_minus_sign_fixed_decimals_and_its_unit(double value, int decimals, string unit, string expected) =>
        Assert.Equal(expected, PlotText.Value(value, decimals, unit));

    [Theory] // As the titles say it: less than one of the last decimal is no zero, and no whole one either.
    [InlineData(0.003, 2, "<0.01")]
    [InlineData(0.007, 2, "<0.01")]
    [InlineData(0.01, 2, "0.01")]
    [InlineData(0, 2, "0.00")]
    [InlineData(-0.003, 2, "0.00")]
    public void NotZero_of_a_small_value_says_that_it_is_less(double value, int decimals, string expected) => Assert.Equal(expected, PlotText.NotZero(value, decimals));

    [Theory] // ~ stands for a space at which no line breaks
    [InlineData("least tyre load 4010 instead of 4527 N.", "least tyre load 4010~instead of 4527~N.")]
    [InlineData("within ±8 % (0.35 rad/s² with both)", "within ±8~% (0.35~rad/s² with both)")]
    [InlineData("layout A4 of the van", "layout A4 of the van")]
    public void WithUnits_keeps_a_number_with_what_follows_it(string text, string expected) => Assert.Equal(expected.Replace('~', '\u00a0'), PlotText.WithUnits(text));

    [Theory]
    [InlineData(500, 0)]
    [InlineData(1, 0)]
    [InlineData(0.5, 1)]
    [InlineData(0.25, 2)]
    [InlineData(0.1, 1)]
    [InlineData(0.002, 3)]
    public void DecimalsFor_a_step_is_what_its_multiples_need(double step, int expected) => Assert.Equal(expected, PlotText.DecimalsFor(step));
}
