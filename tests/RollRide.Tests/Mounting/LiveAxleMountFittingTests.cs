using CsCheck;
using RollRide.Mounting;

namespace RollRide.Tests.Mounting;

public class LiveAxleMountFittingTests
{
    private const double HalfTrack = 0.8;
    private const double RollCentre = 0.42;

    // Lengths of about 1 m from a few roundings of 1e-16 m.
    private const double Rounding = 1e-14;

    /// <summary>Inclined elements, 0.35 to 0.7 m of height apart, anywhere across the axle.</summary>
    private static readonly Gen<LiveAxleMountFitting> AnyFitting =
        from axle in Gen.Select(Gen.Double[-0.3, 0.3], Gen.Double[-0.1, 0.8], Gen.Double[0.2, 0.6])
        from toBody in Gen.Select(Gen.Double[-0.3, 0.3], Gen.Double[-0.4, 0.4], Gen.Double[0.35, 0.7])
        from rollCentre in Gen.Double[0.1, 0.7]
        select new LiveAxleMountFitting(
            new Point3(axle.Item1, axle.Item2, axle.Item3),
            new Point3(axle.Item1 + toBody.Item1, axle.Item2 + toBody.Item2, axle.Item3 + toBody.Item3),
            rollCentre,
            HalfTrack);

    private static readonly Gen<(double Q, double R)> AnyTravel = Gen.Select(Gen.Double[-0.1, 0.1], Gen.Double[-0.1, 0.1]);

    [Theory]
    [InlineData(0.9)]
    [InlineData(0.35)]
    [InlineData(0)]
    public void VerticalDamper_HasHeaveRatioOneAndItsShareOfTheHalfTrackInRoll(double share)
    {
        // Derived: u = (0, 0, 1), so Rh = 1 and Rr T = y.
        var fitting = Vertical(share * HalfTrack);

        Assert.Equal(1.0, fitting.HeaveRatio, Rounding);
        Assert.Equal(share, fitting.RollRatio, Rounding);
        Assert.Equal(share * HalfTrack, fitting.At(0, 0, Side.Left).RollArm, Rounding);
        Assert.Equal(-share * HalfTrack, fitting.At(0, 0, Side.Right).RollArm, Rounding);
    }

    [Fact]
    public void Ratios_AtRest_FollowFromTheUnitVector()
    {
        // Derived: Rh = uz and Rr T = uz y − uy (z − hrc), u from axle end to body end. Here u = (2, −3, 6)/7.
        var fitting = new LiveAxleMountFitting(new Point3(-0.1, 0.5, 0.3), new Point3(0.1, 0.2, 0.9), RollCentre, HalfTrack);

        Assert.Equal(6 / 7.0, fitting.HeaveRatio, Rounding);
        Assert.Equal((6 / 7.0 * 0.5 + 3 / 7.0 * (0.3 - RollCentre)) / HalfTrack, fitting.RollRatio, Rounding);
    }

    [Fact]
    public void Length_OfRightTriangles_IsTheirHypotenuse()
    {
        // 2-3-6-7 at rest in space; 3-4-5 at rest in the rear view, then with heave 0.4 only the 0.3 m across are left.
        Assert.Equal(0.7, new LiveAxleMountFitting(new Point3(-0.1, 0.5, 0.3), new Point3(0.1, 0.2, 0.9), 0, HalfTrack).Length, Rounding);
        var fitting = new LiveAxleMountFitting(new Point3(0, 0.3, 0.5), new Point3(0, 0.6, 0.9), 0.5, HalfTrack);
        Assert.Equal(0.5, fitting.Length, Rounding);
        Assert.Equal(0.3, fitting.LengthAt(0.4, 0, Side.Left), Rounding);
        Assert.Equal(0.2, fitting.At(0.4, 0, Side.Right).Compression, Rounding);

        // A quarter turn about the roll centre puts the axle end above it, at (0, 0.8); the body end is 0.4 across, 0.3 up.
        var turned = new LiveAxleMountFitting(new Point3(0, 0.3, 0.5), new Point3(0, 0.4, 1.1), 0.5, HalfTrack);
        Assert.Equal(0.5, turned.LengthAt(0, Math.PI / 2, Side.Left), Rounding);
        Assert.Equal(0.5, turned.LengthAt(0, -Math.PI / 2, Side.Right), Rounding);
    }

    [Fact]
    public void At_Rest_IsUncompressed()
    {
        foreach (var fitting in AnyFitting.Samples(100))
        {
            Assert.Equal(0, fitting.At(0, 0, Side.Left).Compression);
            Assert.Equal(0, fitting.At(0, 0, Side.Right).Compression);
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
    public void At_AllocatesNothing() => FittingChecks.AllocatesNothing(Vertical(0.6));

    [Fact]
    public void Fitting_BadGeometry_IsRefused()
    {
        var e = Assert.Throws<ArgumentException>(() =>
            new LiveAxleMountFitting(new Point3(0, 0.5, 0.3), new Point3(0, 0.5, 0.3), RollCentre, HalfTrack));
        Assert.Contains("at least 1 mm apart", e.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new Point3(0, double.NaN, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Point3(0, 0, 1) with { Z = double.PositiveInfinity });
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new LiveAxleMountFitting(new Point3(0, 0.5, 0.3), new Point3(0, 0.5, 0.8), double.NaN, HalfTrack));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new LiveAxleMountFitting(new Point3(0, 0.5, 0.3), new Point3(0, 0.5, 0.8), RollCentre, -1));
    }

    private static LiveAxleMountFitting Vertical(double y) =>
        new(new Point3(0, y, 0.35), new Point3(0, y, 0.85), RollCentre, HalfTrack);
}
