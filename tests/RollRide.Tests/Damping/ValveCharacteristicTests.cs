using RollRide.Damping;

namespace RollRide.Tests.Damping;

public class ValveCharacteristicTests
{
    private static readonly ValveCharacteristic Sharp = new(3000, 0.1, 1000) { BlowOff = new BlowOff(0.6, 200) };

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.05, 150)]
    [InlineData(0.1, 300)]
    [InlineData(0.6, 800)]
    [InlineData(1.0, 880)]
    public void Force_SharpKnees_RunsAlongThreeStraightLines(double speed, double force) =>
        Assert.Equal(force, Sharp.Force(speed), 1e-9); // by hand: 300 N at the knee, 500 N more to the blow-off; rounding

    [Fact]
    public void KneeForce_IsWhereBothLinesMeet() => Assert.Equal(300, Sharp.KneeForce, 1e-12);

    [Fact]
    public void Force_Rounded_KeepsTheLinesOutsideTheBendAndStartsAtTheBleedSlope()
    {
        var rounded = Sharp with { BlowOff = null, Rounding = 0.5 };

        // The bend reaches from 0.05 to 0.15 m/s; at its middle the parabola lies (ch − cb) w/4 away from the corner.
        Assert.Equal(Sharp.Force(0.05), rounded.Force(0.05), 1e-9);
        Assert.Equal(Sharp.Force(0.15), rounded.Force(0.15), 1e-9);
        Assert.Equal(300 - 2000 * 0.05 / 4, rounded.Force(0.1), 1e-9);
        Assert.Equal(3000, rounded.Force(1e-6) / 1e-6, 1e-6);
    }

    [Fact]
    public void Force_Rounded_HasNoJumpInSlope()
    {
        var rounded = Sharp with { Rounding = 1 };
        const double H = 1e-6;
        double Slope(double v) => (rounded.Force(v + H) - rounded.Force(v - H)) / (2 * H);

        // Neighbouring slopes, 1 mm/s apart, differ by no more than the parabola's curvatures there: (2000/(2·0.1) + 800/(2·0.5)) · 0.001 = 10.8 N·s/m.
        for (double v = 0.002; v < 1.2; v += 0.001)
            Assert.InRange(Slope(v + 0.001) - Slope(v), -10.81, 0.01);
    }

    [Fact]
    public void Constructor_BadTerms_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new ValveCharacteristic(0, 0.1, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ValveCharacteristic(1000, -0.1, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ValveCharacteristic(1000, 0.1, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Sharp with { BlowOff = new BlowOff(0.05, 10) });
        Assert.Throws<ArgumentOutOfRangeException>(() => Sharp with { Rounding = 1.1 });
    }
}
