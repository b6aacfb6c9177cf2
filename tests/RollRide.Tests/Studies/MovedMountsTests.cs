using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Mounting;
using RollRide.Studies;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Studies;

/// <summary>Where the command window sends dampers whose mounts are given: what it says is written into the scenario and run.</summary>
public sealed class MovedMountsTests
{
    // At this target the window opens inside the rail, at about 462 mm; at the shipped one well outboard of it.
    private const double OpensInTheRail = 0.14;

    [Theory]
    [InlineData(340, 0.20)]
    [InlineData(340, OpensInTheRail)]
    [InlineData(420, OpensInTheRail)]
    public void What_is_recommended_fits_and_opens_the_window(double from, double rollMinimum)
    {
        var (remedy, said) = Remedy(PlacementScenario.WithMountsAt(from), rollMinimum);
        var (axleEnd, bodyEnd) = remedy.Mounts!.Value;

        Assert.Contains(Key("axleEnd_mm", axleEnd), said, StringComparison.Ordinal);
        Assert.Contains(Key("bodyEnd_mm", bodyEnd), said, StringComparison.Ordinal);
        var moved = WithTarget(PlacementScenario.WithMountsAt(from), rollMinimum);
        moved["layouts"]![0]!["placement"]!["mounts"] = JsonNode.Parse($$"""{ {{Quoted("axleEnd_mm", axleEnd)}}, {{Quoted("bodyEnd_mm", bodyEnd)}} }""");
        var understood = moved.Understood();

        Assert.Empty(understood.Warnings);
        Assert.True(SettingWindowStudy.Run(understood.Study, TestContext.Current.CancellationToken).Layouts[0].Verdict.Window.IsOpen);
    }

    [Theory] // A millimetre nearer it is still closed, or does not fit.
    [InlineData(0.20)]
    [InlineData(OpensInTheRail)]
    public void Nothing_nearer_would_do(double rollMinimum)
    {
        double needed = Remedy(PlacementScenario.WithMountsAt(340), rollMinimum).Remedy.Mounts!.Value.AxleEnd.Y * 1e3;

        var nearer = WithTarget(PlacementScenario.WithMountsAt(Math.Round(needed - 1, 1)), rollMinimum).Understood();

        Assert.True(nearer.Warnings.Length > 0 || !SettingWindowStudy.Run(nearer.Study, TestContext.Current.CancellationToken).Layouts[0].Verdict.Window.IsOpen);
    }

    [Fact]
    public void Where_no_place_fits_it_says_what_is_in_the_way()
    {
        // A brake from the rail's outboard side on: nothing fits outboard.
        var scenario = PlacementScenario.WithMountsAt(340).With("packaging.onAxle.brake.inner_mm", 500);

        var (remedy, said) = Remedy(scenario, OpensInTheRail);

        Assert.Null(remedy.Needed);
        Assert.Null(remedy.Mounts);
        Assert.Contains("no damper fits there or farther out: there upper tube overlaps frame rail by", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_packaging_the_mounts_are_named_all_the_same()
    {
        var scenario = PlacementScenario.WithMountsAt(340);
        scenario.Remove("packaging");

        var (remedy, said) = Remedy(scenario, OpensInTheRail);

        Assert.NotNull(remedy.Mounts);
        Assert.DoesNotContain("fits", said, StringComparison.Ordinal);
    }

    private static (WindowRemedy Remedy, string Said) Remedy(JsonObject scenario, double rollMinimum)
    {
        var result = SettingWindowStudy.Run(WithTarget(scenario, rollMinimum).Understood().Study, TestContext.Current.CancellationToken);
        var remedy = result.Layouts[0].Remedies.Single(remedy => remedy.Kind == RemedyKind.DamperPosition);
        return (remedy, RemedyWords.Of(remedy, result.Study));
    }

    private static JsonObject WithTarget(JsonObject scenario, double rollMinimum) => scenario.With("targets.rollDampingRatioMinimum", rollMinimum);

    private static string Quoted(string key, Point3 point) => Key($"\"{key}\":", point);

    private static string Key(string key, Point3 point) => FormattableString.Invariant($"{key} [{point.X * 1e3:0.###}, {point.Y * 1e3:0.###}, {point.Z * 1e3:0.###}]");
}
