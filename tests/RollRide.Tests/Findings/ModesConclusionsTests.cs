using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Studies;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Findings;

public sealed class ModesConclusionsTests
{
    private static readonly ModesResult Result = ModesStudy.Run(ShortScenario.Of(("Outer", 0.8)).Read().Study);

    [Fact]
    public void Smaller_velocities_explain_a_measured_ratio_on_their_own_side_of_the_linear_one()
    {
        var sentence = Sentence(measured: 1.2, atMeanVelocity: 1.15);

        Assert.Contains("the mean damper velocity is 0.08 m/s", sentence, StringComparison.Ordinal);
    }

    [Theory] // A reason that points the other way is none.
    [InlineData(0.8, 1.05)]
    [InlineData(1.2, 0.95)]
    [InlineData(1.2, 1)]
    public void Smaller_velocities_explain_nothing_on_the_other_side(double measured, double atMeanVelocity)
    {
        var sentence = Sentence(measured, atMeanVelocity);

        Assert.EndsWith(FormattableString.Invariant($"not the linear {Linear:F3}."), sentence, StringComparison.Ordinal);
    }

    private static double Linear => Result.Layouts[0].Reference.Heave.DampingRatio;

    /// <summary>What is said of a heave decay with a straight damper without friction, ratios as multiples of the linear one.</summary>
    private static string Sentence(double measured, double atMeanVelocity)
    {
        var layout = Result.Layouts[0];
        var decay = layout.Decays[(int)ModeName.Heave] with
        {
            DecrementRatio = measured * Linear,
            MeanVelocity = 0.08,
            LinearRatioAtMeanVelocity = atMeanVelocity * Linear,
            LeftLinearRange = false,
        };
        var changed = Result with { Layouts = [layout with { Decays = [decay] }] };
        return Assert.Single(ModesConclusions.Of(changed), sentence => sentence.Contains("a free-decay test in heave, released", StringComparison.Ordinal));
    }

    [Fact] // A damper that eases with velocity: a decay is damped more than at its release, and roll less at high velocity.
    public void Digressive_damper_is_said_to_damp_a_decay_more_than_its_release()
    {
        var sentences = Of(0.8);

        Assert.Contains(sentences, sentence => sentence.StartsWith("“Only”: over damper velocity the roll damping ratio goes from", StringComparison.Ordinal));
        Assert.Contains(sentences, sentence => sentence.StartsWith("“Only”: a free-decay test in roll, released at", StringComparison.Ordinal));
    }

    [Fact] // At 0.02 of the half-track roll has some 0.0005: in two digits nothing that could change or differ.
    public void Differences_that_two_digits_do_not_show_are_not_spoken_of()
    {
        var sentences = Of(0.02);

        Assert.Contains(sentences, sentence => sentence.Contains("roll damping ratio less than 0.01", StringComparison.Ordinal));
        Assert.DoesNotContain(sentences, sentence => sentence.Contains("ratio goes", StringComparison.Ordinal) || sentence.Contains("test in roll", StringComparison.Ordinal));
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

    [Fact] // A hard damper on a soft top mount: the mount takes what the valves would.
    public void One_way_ratios_that_do_not_bracket_the_mean_are_explained_by_the_top_mount()
    {
        var scenario = ShortScenario.Of(("Only", 0.8));
        scenario["dampers"]!["plain"]!["curve"] = new JsonObject { ["velocity_m_per_s"] = new JsonArray(-1, 0, 1), ["force_N"] = new JsonArray(-12000, 0, 1500) };
        var with = ModesStudy.Run(scenario.With("dampers.plain.topMountStiffness_N_per_mm", 100).Read().Study, TestContext.Current.CancellationToken);
        var modes = with.Layouts[0];
        Assert.InRange(Math.Max(modes.ReferenceCompression.Heave.DampingRatio, modes.ReferenceRebound.Heave.DampingRatio), 0, modes.Reference.Heave.DampingRatio - 0.01);
        Assert.Contains(ModesConclusions.Of(with), sentence => sentence.Contains("the top mount yields under the harder direction", StringComparison.Ordinal));
    }
}
