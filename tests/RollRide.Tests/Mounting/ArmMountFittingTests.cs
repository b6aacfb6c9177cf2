using CsCheck;
using RollRide.Mounting;

namespace RollRide.Tests.Mounting;

public class ArmMountFittingTests
{
    private const double HalfTrack = 0.78;

    // Lengths of about 1 m from a few roundings of 1e-16 m.
    private const double Rounding = 1e-14;

    /// <summary>Arms of 0.35 to 0.5 m, up to 0.1 m out of level, with an inclined element of 0.35 to 0.6 m height.</summary>
    private static readonly Gen<ArmMountFitting> AnyFitting =
        from pivot in Gen.Select(Gen.Double[0.2, 0.4], Gen.Double[0.2, 0.4])
        from arm in Gen.Select(Gen.Double[0.35, 0.5], Gen.Double[-0.1, 0.1])
        from mount in Gen.Select(Gen.Double[0.3, 0.9], Gen.Double[-0.05, 0.05])
        from toBody in Gen.Select(Gen.Double[-0.3, 0.2], Gen.Double[0.35, 0.6])
        let lower = new RearViewPoint(pivot.Item1 + mount.Item1 * arm.Item1, pivot.Item2 + mount.Item1 * arm.Item2 + mount.Item2)
        select new ArmMountFitting(
            new RearViewPoint(pivot.Item1, pivot.Item2),
            new RearViewPoint(pivot.Item1 + arm.Item1, pivot.Item2 + arm.Item2),
            lower,
            new RearViewPoint(lower.Y + toBody.Item1, lower.Z + toBody.Item2),
            HalfTrack);

    private static readonly Gen<(double Q, double R)> AnyTravel = Gen.Select(Gen.Double[-0.06, 0.06], Gen.Double[-0.05, 0.05]);

    [Fact]
    public void VerticalDamperAt56PercentOfALevelArm_HasRatio056InHeaveAndRoll()
    {
        // Common practice, no source.
        var fitting = LevelArm(share: 0.56);

        Assert.Equal(0.56, fitting.HeaveRatio, Rounding);
        Assert.Equal(0.56, fitting.RollRatio, Rounding);
        var motion = fitting.At(0, 0, Side.Right);
        Assert.Equal(-0.56 * HalfTrack, motion.RollArm, Rounding);
    }

    [Fact]
    public void Travel_Of300mmOnA500mmArm_MakesThe345Triangle()
    {
        // The arm's tip rises by 0.3 m and so stands 0.4 m out; the body mount is straight above it there.
        var fitting = new ArmMountFitting(new(0.2, 0.3), new(0.7, 0.3), new(0.7, 0.3), new(0.6, 1.0), HalfTrack);

        Assert.Equal(Math.Sqrt(0.1 * 0.1 + 0.7 * 0.7), fitting.Length, Rounding);
        Assert.Equal(0.4, fitting.LengthAt(0.3), Rounding);
        Assert.Equal(Math.Sqrt(0.5) - 0.4, fitting.Compression(0.3), Rounding);
        Assert.Equal(1.0, fitting.Ratio(0.3), Rounding); // A vertical element at the joint moves as the wheel does.
    }

    [Fact]
    public void OuterJoint_TravelsVerticallyAsTheWheel()
    {
        // An element from the joint to a very distant point above measures the joint's height: 1 km up, the joint's
        // swing of up to 0.04 m inward lengthens it by 0.04²/2/1000 = 8e-7 m.
        var fitting = new ArmMountFitting(new(0.3, 0.25), new(0.7, 0.2), new(0.7, 0.2), new(0.7, 1000.2), HalfTrack);

        foreach (double d in (double[])[-0.12, -0.05, 0.08, 0.15])
            Assert.Equal(d, fitting.Compression(d), 1e-6);
    }

    [Fact]
    public void HeaveAndRollRatios_AreEqualAtEveryTravel()
    {
        foreach (var (fitting, (q, r)) in Gen.Select(AnyFitting, AnyTravel).Samples(500))
        {
            var left = fitting.At(q, r, Side.Left);
            var right = fitting.At(q, r, Side.Right);
            Assert.Equal(left.HeaveRatio, left.RollArm / HalfTrack, Rounding);
            Assert.Equal(right.HeaveRatio, -right.RollArm / HalfTrack, Rounding);
            Assert.Equal(fitting.HeaveRatio, fitting.RollRatio);
        }
    }

    [Fact]
    public void At_DependsOnTheWheelsOwnTravelOnly()
    {
        foreach (var (fitting, travel, r) in Gen.Select(AnyFitting, Gen.Double[-0.1, 0.1], Gen.Double[-0.05, 0.05]).Samples(500))
        {
            double expected = fitting.Compression(travel);
            Assert.Equal(expected, fitting.At(travel - HalfTrack * r, r, Side.Left).Compression, Rounding);
            Assert.Equal(expected, fitting.At(travel + HalfTrack * r, r, Side.Right).Compression, Rounding);
        }
    }

    [Fact]
    public void Fitting_IsDifferentiableMirroredAndWorkTrueAtEveryTravel()
    {
        foreach (var (fitting, (q, r)) in Gen.Select(AnyFitting, AnyTravel).Samples(500))
        {
            FittingChecks.DerivativesAreThoseOfTheCompression(fitting, q, r, Side.Left);
            FittingChecks.DerivativesAreThoseOfTheCompression(fitting, q, r, Side.Right);
            FittingChecks.RightMirrorsLeft(fitting, q, r);
            FittingChecks.WorkThroughTheRatiosIsWorkOnTheElement(fitting, q, r, Side.Left);
            FittingChecks.WorkThroughTheRatiosIsWorkOnTheElement(fitting, q, r, Side.Right);
        }
    }

    [Fact]
    public void At_AllocatesNothing() => FittingChecks.AllocatesNothing(LevelArm(0.7));

    [Theory]
    [InlineData(0.5, "500.0 mm")]
    [InlineData(0.4, "400.0 mm")]
    [InlineData(-0.41, "-410.0 mm")]
    public void Travel_BeyondTheArm_IsRefusedInMillimetres(double travel, string named)
    {
        var e = Assert.Throws<UnreachableTravelException>(() => LevelArm(0.56).At(travel, 0, Side.Left));

        Assert.Contains(named, e.Message, StringComparison.Ordinal);
        Assert.Contains("from -400.0 to 400.0 mm", e.Message, StringComparison.Ordinal);
        Assert.Equal(travel, e.Travel);
    }

    [Fact]
    public void Travel_NotANumber_GivesNotANumber() => Assert.True(double.IsNaN(LevelArm(0.5).Compression(double.NaN)));

    [Fact]
    public void Fitting_BadGeometry_IsRefused()
    {
        Assert.Contains(
            "outboard",
            Assert.Throws<ArgumentException>(() => new ArmMountFitting(new(0.7, 0.3), new(0.3, 0.3), new(0.5, 0.3), new(0.5, 0.8), HalfTrack)).Message,
            StringComparison.Ordinal);
        Assert.Contains(
            "at least 1 mm apart",
            Assert.Throws<ArgumentException>(() => new ArmMountFitting(new(0.3, 0.3), new(0.7, 0.3), new(0.5, 0.3), new(0.5, 0.3), HalfTrack)).Message,
            StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new ArmMountFitting(new(0.3, 0.3), new(0.7, 0.3), new(0.5, 0.3), new(0.5, 0.8), 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RearViewPoint(double.NaN, 0));
    }

    private static ArmMountFitting LevelArm(double share)
    {
        double y = 0.3 + share * 0.4;
        return new ArmMountFitting(new(0.3, 0.3), new(0.7, 0.3), new(y, 0.3), new(y, 0.8), HalfTrack);
    }
}
