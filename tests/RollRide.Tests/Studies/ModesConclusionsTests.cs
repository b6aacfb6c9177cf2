using System.Text.Json.Nodes;
using RollRide.Studies;

namespace RollRide.Tests.Studies;

public sealed class ModesConclusionsTests
{
    [Fact] // A damper that eases with velocity: a decay is damped more than at its release, and roll less at high velocity.
    public void Digressive_damper_is_said_to_damp_a_decay_more_than_its_release()
    {
        var sentences = Of(0.8);

        Assert.Contains(sentences, sentence => sentence.StartsWith("Only: roll goes from", StringComparison.Ordinal));
        Assert.Contains(sentences, sentence => sentence.StartsWith("Only: a roll decay released at", StringComparison.Ordinal));
    }

    [Fact] // At 0.02 of the half-track roll has some 0.0005: in two digits nothing that could change or differ.
    public void Differences_that_two_digits_do_not_show_are_not_spoken_of()
    {
        var sentences = Of(0.02);

        Assert.Contains(sentences, sentence => sentence.Contains("roll 0.00", StringComparison.Ordinal));
        Assert.DoesNotContain(sentences, sentence => sentence.Contains("roll goes", StringComparison.Ordinal) || sentence.Contains("a roll decay", StringComparison.Ordinal));
    }

    private static IReadOnlyList<string> Of(double rollRatio)
    {
        var scenario = ShortScenario.Of(("Only", rollRatio));
        scenario["dampers"]!["plain"]!["curve"] = new JsonObject
        {
            ["velocity_m_per_s"] = new JsonArray(-1, -0.05, 0, 0.05, 1),
            ["force_N"] = new JsonArray(-1800, -250, 0, 250, 1800),
        };
        return ModesConclusions.Of(ModesStudy.Run(scenario.Read().Study, TestContext.Current.CancellationToken));
    }
}
