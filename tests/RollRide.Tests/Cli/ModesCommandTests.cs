using System.Text.Json.Nodes;
using RollRide.Cli.Terminals;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

public sealed class ModesCommandTests
{
    [Fact]
    public async Task Modes_writes_tables_and_figures_and_ends_with_words()
    {
        using var folder = new TemporaryFolder();
        var path = SettingWindowStudyTests.WithTargets(ShortScenario.Pair(), 0.25, 0.2, 0.4).WriteTo(folder);

        var invocation = await Invocation.Of("modes", path, "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (invocation.ExitCode, invocation.Error));
        string[] expected = ["damping-over-velocity.png", "modes.csv", "modes.json", "response-lateral.png", "response-road.png", "response-travel.png", "responses.csv"];
        Assert.Equal(expected, Directory.EnumerateFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Contains("[tramp: wheels against each other]", invocation.Output, StringComparison.Ordinal);
        Assert.Contains("roll damping ratio 0.", invocation.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Linear_damper_shows_the_same_ratio_linear_and_measured()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().WriteTo(folder);

        await Invocation.Of("modes", path, "--no-plots", "--out", folder["out"]);

        var modes = JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "modes.json")))!["layouts"]![0]!["modes"]!.AsArray();
        Assert.Equal(["heave", "roll", "hop", "tramp"], modes.Select(mode => (string)mode!["name"]!));
        foreach (var mode in modes.Take(2))
        {
            // sin φ for φ at 40 mm of wheel travel, 0.05 rad: φ²/8 × ms g h/kφ = 1e-5 of the ratio's 0.3; the solver's 1e-6.
            Assert.Equal((double)mode!["dampingRatio"]!, (double)mode["measuredDecay"]!["dampingRatioByLogDecrement"]!, 1e-4);
            Assert.Equal((double)mode["dampingRatio"]!, (double)mode["dampingRatioCompression"]!, 1e-9);
        }
    }

    [Fact]
    public async Task Dampers_without_force_give_undamped_modes()
    {
        using var folder = new TemporaryFolder();
        var scenario = ShortScenario.Pair().With("vehicle.tyres.damping_N_s_per_m", null);
        scenario["dampers"]!["plain"]!["curve"]!["force_N"] = new JsonArray(0, 0, 0);

        var invocation = await Invocation.Of("modes", scenario.WriteTo(folder), "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, invocation.ExitCode);
        Assert.Contains("“Outer”: the dampers give no damping at 0.13 m/s.", invocation.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("vehicle.springs.placement.motionRatios.roll", 0)] // No roll stiffness at all.
    [InlineData("vehicle.body.cgHeight_mm", 9000)] // ms g h over the roll stiffness.
    public async Task Unstable_body_is_refused_with_its_numbers(string key, double value)
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().With(key, value).WriteTo(folder);

        (await Invocation.Of("modes", path, "--out", folder["out"])).Refused(ExitCode.BadInput, "(ms g h) takes", "N·m per degree of roll", "give back only");
        Assert.False(Directory.Exists(folder["out"]));
    }
}
