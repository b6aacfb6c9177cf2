using RollRide.Mounting;

namespace RollRide.Tests.Mounting;

public sealed class LinkageMountFittingTests
{
    [Theory]
    [MemberData(nameof(ReferenceLinkages.FittingIndices), MemberType = typeof(ReferenceLinkages))]
    public void Derivatives_OverTheWholeTravel_AreThoseOfTheCompression(int index)
    {
        var fitting = ReferenceLinkages.Fittings[index];
        foreach (var travel in ReferenceLinkages.Travels)
        {
            FittingChecks.DerivativesAreThoseOfTheCompression(fitting, travel, 0, Side.Left);
            FittingChecks.DerivativesAreThoseOfTheCompression(fitting, travel / 2, 0.05, Side.Right);
        }
    }

    [Theory]
    [MemberData(nameof(ReferenceLinkages.FittingIndices), MemberType = typeof(ReferenceLinkages))]
    public void VirtualWork_AlongAnyPath_IsTheElementsOwn(int index)
    {
        FittingChecks.WorkThroughTheRatiosIsWorkOnTheElement(ReferenceLinkages.Fittings[index], 0.04, 0.05, Side.Left);
        FittingChecks.WorkThroughTheRatiosIsWorkOnTheElement(ReferenceLinkages.Fittings[index], -0.03, 0.05, Side.Right);
    }

    [Theory]
    [MemberData(nameof(ReferenceLinkages.FittingIndices), MemberType = typeof(ReferenceLinkages))]
    public void RightSide_MirrorsTheLeft(int index) =>
        FittingChecks.RightMirrorsLeft(ReferenceLinkages.Fittings[index], 0.03, 0.04);

    [Theory]
    [MemberData(nameof(ReferenceLinkages.FittingIndices), MemberType = typeof(ReferenceLinkages))]
    public void Evaluation_AllocatesNothing(int index) => FittingChecks.AllocatesNothing(ReferenceLinkages.Fittings[index]);

    [Theory]
    [MemberData(nameof(ReferenceLinkages.FittingIndices), MemberType = typeof(ReferenceLinkages))]
    public void HeaveAndRollRatio_AtEveryTravel_AreEqual(int index)
    {
        // Common practice, no source: on independent suspension a wheel moves its own element, whatever the other does.
        var fitting = ReferenceLinkages.Fittings[index];
        foreach (var travel in ReferenceLinkages.Travels)
        {
            var heave = fitting.At(travel, 0, Side.Left);
            var roll = fitting.At(0, travel / fitting.HalfTrack, Side.Left);
            Assert.Equal(heave.HeaveRatio, heave.RollArm / fitting.HalfTrack, 1e-15);
            Assert.Equal(heave.HeaveRatio, roll.HeaveRatio, 1e-14); // the same travel, rounded once more
        }
    }

    [Fact]
    public void Compression_AtRideHeight_IsZero()
    {
        foreach (var fitting in ReferenceLinkages.Fittings)
            Assert.Equal(0, fitting.Compression(0), 1e-15); // rounding of lengths below 1 m
    }

    [Fact]
    public void ArmOfADoubleWishboneWithParallelEqualArms_IsTheSingleArm()
    {
        // A parallelogram keeps the upright from turning, so the wheel rises as the lower joint does: the single arm's rule.
        var linkage = new DoubleWishbone(new(0.35, 0.2), new(0.7, 0.23), new(0.35, 0.45), new(0.7, 0.48), 0.31, 0.78);
        var inLinkage = new LinkageMountFitting(linkage, LinkagePart.LowerArm, new(0, 0.55, 0.21), new(0, 0.5, 0.7));
        var single = new ArmMountFitting(new(0.35, 0.2), new(0.7, 0.23), new(0.55, 0.21), new(0.5, 0.7), 0.78);
        foreach (var travel in ReferenceLinkages.Travels)
        {
            // Rounding of lengths below 1 m, a few times over.
            Assert.Equal(single.Compression(travel), inLinkage.Compression(travel), 2e-15);
            Assert.Equal(single.Ratio(travel), inLinkage.Ratio(travel), 1e-14);
            Assert.Equal(single.RatioSlope(travel), inLinkage.RatioSlope(travel), 1e-13);
        }
    }

    [Fact]
    public void Part_ThatTheLinkageLacks_IsRefused()
    {
        var e = Assert.Throws<ArgumentException>(() => new LinkageMountFitting(ReferenceLinkages.Strut, LinkagePart.UpperArm, new(0, 0.5, 0.2), new(0, 0.5, 0.7)));
        Assert.Contains("no UpperArm; it has LowerArm, Upright", e.Message, StringComparison.Ordinal);
    }
}
