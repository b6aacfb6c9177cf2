using RollRide.Damping;

namespace RollRide.Tests.Damping;

public class ValvingTests
{
    [Fact]
    public void StandardTestVelocities_AreThoseOfA100MillimetreCrank()
    {
        // 10, 25, 50, 75, 100, 200 revolutions a minute, given to a millimetre a second (usual test velocities; common practice, no source).
        double[] printed = [0.052, 0.131, 0.262, 0.393, 0.524, 1.047];
        Assert.Equal(printed.Length, Valving.StandardTestVelocities.Count);
        foreach (var (velocity, ours) in printed.Zip(Valving.StandardTestVelocities))
            Validation.Row(FormattableString.Invariant($"{velocity:F3} m/s"), "velocity of a standard test with a stroke of 100 mm, m/s", Evidence.Practice + "usual test velocities of damper makers, remembered", velocity, ours, 0.0005);
    }

    [Fact]
    public void ForcesAt_GivesBothDirectionsAndTheirRatio()
    {
        var point = DynoBench.Digressive.ForcesAt([0.05]).Single();
        Assert.Equal(120, point.Compression, 1e-9);
        Assert.Equal(240, point.Rebound, 1e-9);
        Assert.Equal(2, point.ReboundToCompression, 1e-12);
    }

    [Fact]
    public void ToCurve_SharpKnees_IsExactlyTheValving()
    {
        var curve = DynoBench.Digressive.ToCurve(1.0, 1.5);
        Assert.Equal(-1.5, curve.MinimumVelocity);
        Assert.Equal(1.0, curve.MaximumVelocity);
        for (double v = -1.5; v <= 1; v += 0.01)
            Assert.Equal(DynoBench.Digressive.Force(v), curve.Force(v), 1e-9);
        Assert.Empty(curve.EnergyFaults);
    }

    [Fact]
    public void ToCurve_RoundedKnees_StraysByAThousandthOfSlopeChangeTimesHalfWidth()
    {
        var rounded = new Valving(
            DynoBench.Digressive.Compression with { Rounding = 0.8 },
            DynoBench.Digressive.Rebound with { Rounding = 0.8 });
        var curve = rounded.ToCurve(1, 1);

        // Chord error of a parabola, F″h²/8 with F″ = Δc/2w and h = w/8: Δc·w/1024; in rebound 2900·0.096/1024 = 0.27 N.
        for (double v = -1; v <= 1; v += 0.003)
            Assert.InRange(Math.Abs(rounded.Force(v) - curve.Force(v)), 0, 0.28);
    }
}
