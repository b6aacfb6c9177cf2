using RollRide.Findings;
using RollRide.Packaging;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Findings;

public class PlacementConclusionsTests
{
    [Theory] // A differential that must go 218 mm inboard is past the centre plane.
    [InlineData(0.218, "by moving less than 100 mm")]
    [InlineData(0.02, "the differential must go 20.0 mm inboard")]
    public void A_wall_is_asked_to_move_only_as_far_as_it_may(double distance, string expected)
    {
        var placement = ScenarioReader.Read(Shipped.PathOf("scenarios", "placement.json"));
        var result = PlacementStudy.Run(placement.Study, TestContext.Current.CancellationToken);
        var worst = result.Bands[0].Band.OuterLimit!; // whatever it is, it is not what is looked at
        var slot = new Shortfall(RailSide.Inboard, 0.2, worst, [new WallMove("differential", distance, WallDirection.Inboard)]);

        var sentences = PlacementConclusions.Of(result with { Found = result.Found with { Shortfalls = [slot] } });

        Assert.Contains(sentences, sentence => sentence.Contains(expected, StringComparison.Ordinal));
    }
}
