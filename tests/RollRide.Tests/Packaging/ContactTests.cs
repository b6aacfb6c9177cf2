using RollRide.Packaging;

namespace RollRide.Tests.Packaging;

public class ContactTests
{
    private static readonly Contact Rail = new() { Part = DamperPart.LowerTube, Against = "frame rail", Heave = 0.08, Roll = -0.1, Margin = -0.0032, Clearance = 0.010 };

    [Fact] // −0.1 rad are −5.7 degrees.
    public void Words_TellHowMuchOfTheClearanceIsMissingAndWhere() =>
        Assert.Equal("lower tube lacks 3.2 mm of the 10 mm clearance to frame rail at +80 mm heave with -5.7 deg roll", Rail.Words);

    [Fact] // 13.2 mm short of a clearance of 10 mm: 3.2 mm one in the other.
    public void Words_WhereBodiesMeet_TellTheDepth() =>
        Assert.Equal("lower tube overlaps frame rail by 3.2 mm at +80 mm heave with -5.7 deg roll", (Rail with { Margin = -0.0132 }).Words);

    [Fact]
    public void Words_OfALength_TellHowFarBeyond() =>
        Assert.Equal("3.2 mm beyond the damper's closed length at +80 mm heave with -5.7 deg roll", (Rail with { Part = null, Against = "the damper's closed length", Clearance = 0 }).Words);

    [Theory]
    [InlineData(DamperPart.UpperTube, "upper tube to frame rail")]
    [InlineData(DamperPart.LowerTube, "lower tube to frame rail")]
    [InlineData(DamperPart.Rod, "rod to frame rail")]
    [InlineData(DamperPart.UpperBush, "upper bush to frame rail")]
    [InlineData(DamperPart.LowerBush, "lower bush to frame rail")]
    public void Text_NamesThePart(DamperPart part, string text) => Assert.Equal(text, (Rail with { Part = part }).Text);

    [Theory]
    [InlineData(WallDirection.Outboard, "6.5 mm outboard")]
    [InlineData(WallDirection.Inboard, "6.5 mm inboard")]
    [InlineData(WallDirection.Up, "6.5 mm up")]
    [InlineData(WallDirection.Down, "6.5 mm down")]
    public void WallMove_Words_TellHowFarAndWhereTo(WallDirection direction, string words) => Assert.Equal(words, new WallMove("tyre", 0.0065, direction).Words);
}
