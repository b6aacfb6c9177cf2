using System.Text.Json.Nodes;
using RollRide.Cli.Terminals;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

/// <summary>The commands modes, window, mounts and place on a scenario with load states.</summary>
public sealed class LoadStateCommandTests
{
    private static JsonObject Pair() => CommonWindowTests.WithLoads(SettingWindowStudyTests.WithTargets(ShortScenario.Pair(), 0.25, 0.18, 0.4));

    private static JsonNode Json(TemporaryFolder folder, string name) => JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], name)))!;

    private static string[] Files(TemporaryFolder folder) => [.. Directory.EnumerateFiles(folder["out"]).Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal)];

    [Fact]
    public async Task Window_tells_each_load_state_and_what_serves_all_of_them()
    {
        using var folder = new TemporaryFolder();

        var run = await Invocation.Of("window", Pair().WriteTo(folder), "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Equal(["kerb-setting-window.png", "laden-setting-window.png", "setting-window-over-loads.png", "window.csv", "window.json"], Files(folder));
        Assert.Matches(@"(?s)Load state kerb \(1000 kg\)\r?\n.*Load state laden \(1700 kg\)\r?\n.*Every load state\r?\n", run.Output);
        Assert.Contains("“Outer”: one damper setting serves every load state, ", run.Output, StringComparison.Ordinal);
        Assert.Contains("“Inner”: no damper setting serves every load state: ", run.Output, StringComparison.Ordinal);

        var json = Json(folder, "window.json");
        Assert.Null(json["layouts"]);
        var states = json["loadStates"]!.AsArray();
        Assert.Equal(["kerb", "laden"], states.Select(state => (string)state!["name"]!));
        var outer = json["common"]![0]!["window"]!;
        double Edge(int state, string edge) => (double)states[state]!["layouts"]![0]!["window"]![edge]!["coefficient_N_s_per_m"]!;
        Assert.Equal((Edge(1, "lower"), "laden"), ((double)outer["lower"]!["coefficient_N_s_per_m"]!, (string)outer["lower"]!["loadState"]!));
        Assert.Equal((Edge(0, "upper"), "kerb"), ((double)outer["upper"]!["coefficient_N_s_per_m"]!, (string)outer["upper"]!["loadState"]!));

        var rows = File.ReadAllLines(Path.Combine(folder["out"], "window.csv"));
        Assert.StartsWith("loadState,lowerBinding,", rows[0], StringComparison.Ordinal);
        Assert.Equal([("kerb", 41), ("laden", 41), ("every load state", 41)], rows.Skip(1).GroupBy(row => row.Split(',')[0]).Select(group => (group.Key, group.Count())));
    }

    [Fact]
    public async Task Chosen_load_state_has_the_same_numbers_alone()
    {
        using var folder = new TemporaryFolder();
        var path = Pair().WriteTo(folder);
        await Invocation.Of("window", path, "--no-plots", "--out", folder["out"]);
        var laden = Numbers(Json(folder, "window.json")["loadStates"]![1]!);

        var run = await Invocation.Of("window", path, "--load", "laden", "--no-plots", "--out", folder["out"]);

        Assert.DoesNotContain("very load state", run.Output, StringComparison.Ordinal);
        var alone = Json(folder, "window.json");
        Assert.Null(alone["common"]);
        Assert.Equal(laden, Numbers(Assert.Single(alone["loadStates"]!.AsArray())!));

        // What would reopen a window must do so in every state that is looked at.
        static string Numbers(JsonNode state)
        {
            foreach (var layout in state["layouts"]!.AsArray())
                Assert.True(layout!.AsObject().Remove("remedies"));
            Assert.True(state.AsObject().Remove("conclusions"));
            return state.ToJsonString();
        }
    }

    [Theory]
    [InlineData("modes")]
    [InlineData("window")]
    public async Task Unknown_load_state_is_refused_with_the_nearest(string command)
    {
        using var folder = new TemporaryFolder();

        var run = await Invocation.Of(command, Pair().WriteTo(folder), "--load", "ladne", "--out", folder["out"]);

        run.Refused(ExitCode.BadInput, "there is no load state “ladne”", "“laden”", "“kerb”");
        Assert.False(Directory.Exists(folder["out"]));
    }

    [Fact]
    public async Task Modes_are_slower_in_heave_under_a_load_and_named_by_it()
    {
        using var folder = new TemporaryFolder();

        var run = await Invocation.Of("modes", Pair().WriteTo(folder), "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Contains("Load state laden (1700 kg)", run.Output, StringComparison.Ordinal);
        Assert.Contains("kerb-damping-over-velocity.png", Files(folder));
        Assert.DoesNotContain("damping-over-velocity.png", Files(folder));
        Assert.All((string[])["modes.csv", "responses.csv"], name => Assert.StartsWith("loadState,layout,", File.ReadLines(Path.Combine(folder["out"], name)).First(), StringComparison.Ordinal));
        double Heave(int state) => (double)Json(folder, "modes.json")["loadStates"]![state]!["layouts"]![0]!["modes"]![0]!["naturalFrequency_Hz"]!;

        // Springs and tyres in series, linear: with the square root of the masses, but for the axle's part in heave, about a per cent.
        Assert.Equal(Math.Sqrt(1000.0 / 1700), Heave(1) / Heave(0), 0.01);
    }

    [Fact]
    public async Task Mounts_and_places_are_told_for_each_load_state()
    {
        using var folder = new TemporaryFolder();
        var path = CommonWindowTests.WithLoads(PlacementScenario.Shipped()).With("loadStates.laden.mass_kg", 1620).WriteTo(folder);

        var mounts = await Invocation.Of("mounts", path, "--out", folder["out"]);
        var place = await Invocation.Of("place", path, "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ExitCode.Done), (mounts.ExitCode, place.ExitCode));
        Assert.Contains("Load state laden (1620 kg)", mounts.Output, StringComparison.Ordinal);
        Assert.Matches(@"(?s)Every load state\r?\n.*the damper fits in every load state from", place.Output);
        Assert.All((string[])["mounts.csv", "placement.csv"], name => Assert.StartsWith("loadState,", File.ReadLines(Path.Combine(folder["out"], name)).First(), StringComparison.Ordinal));
        Assert.Contains("laden-motion-ratios.png", Files(folder));
        Assert.Contains("kerb-rear-view-Outboard-of-the-rail.png", Files(folder));
        Assert.Equal(60 - 21.35, (double)Json(folder, "mounts.json")["loadStates"]![1]!["layouts"]![0]!["travel"]!["bump_mm"]!, 0.1);
        var common = Json(folder, "placement.json")["common"]!.AsArray();
        Assert.All(common, band => Assert.Equal(["kerb", "laden"], band!["inEachLoadState"]!.AsArray().Select(state => (string)state!["loadState"]!)));
    }
}
