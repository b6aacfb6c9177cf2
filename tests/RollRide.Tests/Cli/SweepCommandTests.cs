using System.Diagnostics;
using System.Text.Json.Nodes;
using RollRide.Cli;
using RollRide.Cli.Terminals;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

public class SweepCommandTests
{
    private const string Rate = "vehicle.springs.rate_N_per_mm";

    [Fact]
    public async Task Sweep_writes_its_files_and_a_report()
    {
        using var folder = new TemporaryFolder();
        var invocation = await Invocation.Of("sweep", Scenario(folder), "--vary", $"{Rate}=lin:45:55:3", "--target", "rollAnglePeak_deg>=-9", "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (invocation.ExitCode, invocation.Error));
        Assert.Equal(
            ["sweep-curves.png", "sweep-drivers.csv", "sweep-misses-rollAnglePeak-deg-at-least.png", "sweep-plan.json", "sweep-statistics.csv", "sweep-summary.json", "sweep.csv"],
            Directory.EnumerateFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        var lines = invocation.Output.TrimEnd().Split('\n');
        Assert.StartsWith($"Written to {folder["out"]}: sweep.csv, sweep-plan.json, ", lines[^1], StringComparison.Ordinal);
        Assert.Contains(lines, line => line.StartsWith("Target “Roll angle from rest, peak at least -9 deg”: met by all 3 variants with", StringComparison.Ordinal));
        var summary = JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "sweep-summary.json")))!;
        Assert.Equal(3, summary["variants"]!.GetValue<int>());
    }

    [Fact]
    public async Task Json_is_the_summary_of_the_sweep_and_a_share_has_none()
    {
        using var folder = new TemporaryFolder();
        string[] asked = ["sweep", Scenario(folder), "--vary", $"{Rate}=lin:45:55:2", "--json", "--format", "svg", "--out", folder["out"]];

        (await Invocation.Of([.. asked, "--part", "1/2"])).Refused(ExitCode.BadInput, "--json", "merge");
        var invocation = await Invocation.Of(asked);

        Assert.Equal((ExitCode.Done, ""), (invocation.ExitCode, invocation.Error));
        Assert.Equal(File.ReadAllText(Path.Combine(folder["out"], "sweep-summary.json")), invocation.Output);
        Assert.True(File.Exists(Path.Combine(folder["out"], "sweep-curves.svg")));
    }

    [Theory]
    [InlineData("nowhere=1", "no number “nowhere”")]
    [InlineData("vehicle.track_mm", "is not understood")]
    [InlineData("vehicle.track_mm=1,b", "is not understood")]
    [InlineData("vehicle.track_mm=lin:1:2", "is not understood")]
    [InlineData("vehicle.track_mm=lin:1:2:2.5", "is not understood")]
    [InlineData("vehicle.track_mm=gauss:1:2", "is not understood")]
    [InlineData("vehicle.track_mm=1:2:3", "is not understood")]
    [InlineData("vehicle.track_mm=lin:9:2:3", "is empty")]
    [InlineData("vehicle.track_mm=log:0:2:3", "above 0")]
    [InlineData("vehicle.track_mm=lin:1000:2000:1000000,5", "is not understood")]
    public async Task Parameter_that_makes_no_sense_is_refused(string vary, string reason)
    {
        using var folder = new TemporaryFolder();
        (await Invocation.Of("sweep", Scenario(folder), "--vary", vary, "--out", folder["out"])).Refused(ExitCode.BadInput, "--vary", reason);
        Assert.False(Directory.Exists(folder["out"]));
    }

    [Theory]
    [InlineData("--part", "0/3", "is not a share")]
    [InlineData("--part", "4/3", "is not a share")]
    [InlineData("--part", "x", "is not a share")]
    [InlineData("--samples", "0", "is not a whole number")]
    [InlineData("--threads", "0", "is not a whole number")]
    [InlineData("--seed", "-1", "is not a whole number")]
    [InlineData("--target", "rollOvershoot_percent", "is not understood")]
    [InlineData("--target", "rollOvershoot<=4", "did you mean rollOvershoot_percent")]
    [InlineData("--metric", "x", "no metric “x”")]
    [InlineData("--design", "random", "random")]
    public async Task Option_that_makes_no_sense_is_refused(string option, string value, string reason)
    {
        using var folder = new TemporaryFolder();
        (await Invocation.Of("sweep", Scenario(folder), "--vary", $"{Rate}=45", option, value, "--out", folder["out"])).Refused(ExitCode.BadInput, reason);
    }

    [Fact]
    public async Task More_than_a_million_variants_need_a_yes()
    {
        using var folder = new TemporaryFolder();
        (await Invocation.Of("sweep", Scenario(folder), "--vary", $"{Rate}=lin:45:55:1000000", "--vary", "vehicle.track_mm=1500,1600", "--out", folder["out"]))
            .Refused(ExitCode.BadInput, "2000000 variants", "--yes");
    }

    [Fact]
    public async Task Stopping_keeps_what_is_done_and_says_how_to_go_on()
    {
        using var folder = new TemporaryFolder();
        var path = Scenario(folder);

        var stopped = await Invocation.StoppedAtWork("sweep", path, "--vary", $"{Rate}=45,50", "--no-plots", "--out", folder["out"]);
        Assert.Equal(ExitCode.Cancelled, stopped.ExitCode);
        Assert.Contains("--resume", stopped.Error, StringComparison.Ordinal);
        Assert.Single(File.ReadAllLines(Path.Combine(folder["out"], "sweep.csv")));

        Assert.Equal(ExitCode.Done, (await Invocation.Of("sweep", path, "--vary", $"{Rate}=45,50", "--no-plots", "--resume", "--out", folder["out"])).ExitCode);
        Assert.Equal(5, File.ReadAllLines(Path.Combine(folder["out"], "sweep.csv")).Length);
    }

    [Fact]
    public async Task Another_sweep_in_the_folder_is_refused_unless_it_may_be_overwritten()
    {
        using var folder = new TemporaryFolder();
        var path = Scenario(folder);
        Task<Invocation> Sweep(string values, params string[] more) => Invocation.Of(["sweep", path, "--vary", $"{Rate}={values}", "--no-plots", "--out", folder["out"], .. more]);
        await Sweep("45,50");

        (await Sweep("45,55")).Refused(ExitCode.BadInput, "rows of another sweep are there", "--overwrite");
        (await Sweep("45,55", "--overwrite", "--resume")).Refused(ExitCode.BadInput, "--overwrite", "give one of them");
        Assert.Contains(",50,", File.ReadAllText(Path.Combine(folder["out"], "sweep.csv")), StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, (await Sweep("45,55", "--overwrite")).ExitCode);
        Assert.Equal(ExitCode.Done, (await Sweep("45,55")).ExitCode);
        Assert.Contains(",55,", File.ReadAllText(Path.Combine(folder["out"], "sweep.csv")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stopping_after_the_last_variant_says_that_the_table_is_whole()
    {
        using var folder = new TemporaryFolder();
        string[] sweep = ["sweep", Scenario(folder), "--vary", $"{Rate}=45,50", "--no-plots", "--out", folder["out"]];
        await Invocation.Of(sweep);
        var rows = File.ReadAllText(Path.Combine(folder["out"], "sweep.csv"));

        // Nothing is left to run, so the stop meets the analysis.
        var stopped = await Invocation.StoppedAtWork([.. sweep, "--resume"]);
        Assert.Equal(ExitCode.Cancelled, stopped.ExitCode);
        Assert.DoesNotContain("nothing was written", stopped.Error, StringComparison.Ordinal);
        Assert.Contains("sweep.csv", stopped.Error, StringComparison.Ordinal);
        Assert.Equal(rows, File.ReadAllText(Path.Combine(folder["out"], "sweep.csv")));
    }

    [Fact]
    public async Task Sweep_in_which_nothing_runs_has_failed()
    {
        using var folder = new TemporaryFolder();
        var invocation = await Invocation.Of("sweep", Scenario(folder), "--vary", $"{Rate}=-1,-2", "--out", folder["out"]);

        Assert.Equal(ExitCode.RunFailed, invocation.ExitCode);
        Assert.Contains("2 of 2 with “Outer”", invocation.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Shares_run_and_joined_write_the_files_of_the_whole()
    {
        using var folder = new TemporaryFolder();
        string[] sweep = [Scenario(folder), "--vary", $"{Rate}=uniform:45:55", "--design", "sobol", "--samples", "5", "--no-plots"];
        await Invocation.Of(["sweep", .. sweep, "--out", folder["whole"]]);
        for (var i = 1; i <= 3; i++)
            Assert.Equal(ExitCode.Done, (await Invocation.Of(["sweep", .. sweep, "--part", $"{i}/3", "--out", folder["shares"]])).ExitCode);

        Assert.Equal(ExitCode.Done, (await Invocation.Of(["merge", .. sweep, "--parts", "3", "--from", folder["shares"], "--out", folder["joined"]])).ExitCode);
        AssertSameFiles(folder["whole"], folder["joined"]);

        (await Invocation.Of(["merge", .. sweep, "--parts", "4", "--from", folder["shares"], "--out", folder["other"]])).Refused(ExitCode.BadInput, "share 1/4 is missing; there are shares of 3: give --parts 3");
    }

    [Fact]
    public async Task Job_array_script_runs_the_shares_as_processes_of_their_own()
    {
        if (OperatingSystem.IsWindows())
            return;
        using var folder = new TemporaryFolder();
        string[] sweep = [Scenario(folder), "--vary", $"{Rate}=lin:45:55:3", "--no-plots"];
        await Invocation.Of(["sweep", .. sweep, "--out", folder["whole"]]);

        // Both shares at once, as on two machines that share a file system; each batch system has its own name for the index.
        var first = Job("SLURM_ARRAY_TASK_ID", "1", [.. sweep, "--out", folder["shares"]]);
        var second = Job("PBS_ARRAY_INDEX", "2", [.. sweep, "--out", folder["shares"]]);
        foreach (var job in (Process[])[first, second])
        {
            using (job)
            {
                var error = await job.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
                await job.WaitForExitAsync(TestContext.Current.CancellationToken);
                Assert.Equal((0, ""), (job.ExitCode, error));
            }
        }

        Assert.Equal(ExitCode.Done, (await Invocation.Of(["merge", .. sweep, "--parts", "2", "--from", folder["shares"], "--out", folder["joined"]])).ExitCode);
        AssertSameFiles(folder["whole"], folder["joined"]);
    }

    private static Process Job(string indexName, string index, string[] arguments)
    {
        var start = new ProcessStartInfo("sh", [Shipped.PathOf("docs", "sweep-array.sh"), .. arguments]) { RedirectStandardError = true, RedirectStandardOutput = true };
        start.Environment["ROLLRIDE"] = $"dotnet {typeof(CommandLine).Assembly.Location}";
        start.Environment["SHARES"] = "2";
        start.Environment[indexName] = index;
        return Process.Start(start)!;
    }

    private static void AssertSameFiles(string one, string other)
    {
        var names = Directory.EnumerateFiles(one).Select(file => Path.GetFileName(file)).Order(StringComparer.Ordinal).ToArray();
        Assert.Equal(names, Directory.EnumerateFiles(other).Select(file => Path.GetFileName(file)).Order(StringComparer.Ordinal));
        Assert.All(names, name => Assert.Equal(File.ReadAllText(Path.Combine(one, name)), File.ReadAllText(Path.Combine(other, name))));
    }

    private static string Scenario(TemporaryFolder folder)
    {
        var scenario = ShortScenario.Pair();
        scenario["manoeuvre"]!["duration_s"] = 1.2;
        return scenario.WriteTo(folder);
    }

    [Theory]
    [InlineData("--samples", "100")]
    [InlineData("--seed", "7")]
    public async Task Samples_of_a_design_that_draws_none_are_refused(string option, string value)
    {
        using var folder = new TemporaryFolder();
        (await Invocation.Of("sweep", Scenario(folder), "--vary", $"{Rate}=45,55", option, value, "--out", folder["out"])).Refused(ExitCode.BadInput, $"{option}: the design takes the levels given and draws no samples");
    }

    [Fact]
    public async Task Every_group_shows_the_share_that_misses_a_target()
    {
        using var folder = new TemporaryFolder();
        var invocation = await Invocation.Of("sweep", Scenario(folder), "--vary", $"{Rate}=45,55", "--target", "bodyAccelerationRms_m_per_s2<=0", "--no-plots", "--out", folder["out"]);

        var lines = invocation.Output.Split('\n');
        Assert.Contains(lines, line => line.TrimEnd().EndsWith("[%]", StringComparison.Ordinal));
        Assert.All(["Outer", "Inner"], name => Assert.Contains(lines, line => line.StartsWith(name, StringComparison.Ordinal) && line.TrimEnd().EndsWith(" 100.0", StringComparison.Ordinal)));
    }
}
