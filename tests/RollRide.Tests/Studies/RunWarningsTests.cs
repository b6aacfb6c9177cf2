using System.Text.Json.Nodes;

namespace RollRide.Tests.Studies;

public class RunWarningsTests
{
    [Fact]
    public void Quiet_run_has_no_warning() => Assert.All(ShortScenario.Pair().Run().Layouts, layout => Assert.Empty(layout.Warnings));

    [Fact]
    public void Damper_beyond_its_curve_is_warned_of_both_ways()
    {
        // The same straight curve, given over a tenth of the range.
        var result = ShortScenario.Pair().With("dampers.plain.curve", JsonNode.Parse("""{ "velocity_m_per_s": [-0.1, 0, 0.1], "force_N": [-300, 0, 300] }""")).Run();

        var run = result.Layouts[0].Metrics.Whole;
        Assert.Equal(
            [
                FormattableString.Invariant($"The damper ran at {run.DamperCompressionVelocityPeak:F2} m/s in compression; its curve was given up to 0.10 m/s and is extended straight."),
                FormattableString.Invariant($"The damper ran at {run.DamperReboundVelocityPeak:F2} m/s in rebound; its curve was given up to 0.10 m/s and is extended straight."),
            ],
            result.Layouts[0].Warnings);
    }
}
