using System.Text.Json.Nodes;
using RollRide.Cli.Terminals;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

/// <summary>What every command that writes does where it cannot: one message, exit code 2, nothing left, nothing of an older run lost.</summary>
public class UnwritableOutputTests
{
    private const string Variation = "vehicle.springs.rate_N_per_mm=lin:45:55:3";

    /// <summary>Every command that writes a folder.</summary>
    public static TheoryData<string> Folders => ["compare", "simulate", "report", "road", "modes", "window", "mounts", "place", "damper", "tune", "sweep", "merge"];

    /// <summary>Those quick enough to be run until the disk is full.</summary>
    public static TheoryData<string> Quick => ["compare", "simulate", "report", "road", "modes", "window", "mounts", "damper", "tune"];

    [Theory]
    [MemberData(nameof(Folders))]
    public async Task Folder_below_a_file_is_refused(string command)
    {
        using var folder = new TemporaryFolder();
        var file = folder.Write("taken", "mine");
        var arguments = Arguments(command, folder);
        var before = folder.Entries;

        (await Invocation.Of([.. arguments, "--out", Path.Combine(file, "results")])).Refused(ExitCode.BadInput, $"The output folder “{file}", $"cannot be written: “{file}” is a file, not a folder.");

        Assert.Equal(before, folder.Entries);
        Assert.Equal("mine", File.ReadAllText(file));
    }

    [Theory]
    [MemberData(nameof(Folders))]
    public async Task Folder_on_a_read_only_disk_is_refused(string command)
    {
        using var folder = new TemporaryFolder();
        using var disk = new SmallDisk(512);
        var arguments = Arguments(command, folder);
        disk.Lock();

        foreach (var output in (string[])[disk.Root, disk["deep/results"]])
        {
            var run = await Invocation.Of([.. arguments, "--out", output]);
            run.Refused(ExitCode.BadInput);
            Assert.Equal($"The output folder “{output}” cannot be written: it lies on a disk that can only be read.\n", run.Error.ReplaceLineEndings("\n"));
        }

        Assert.Empty(disk.Content);
    }

    [Theory]
    [MemberData(nameof(Quick))]
    public async Task Full_disk_leaves_an_older_run_as_it_was_and_nothing_of_the_new_one(string command)
    {
        using var folder = new TemporaryFolder();
        using var disk = new SmallDisk(64);
        var arguments = Arguments(command, folder);
        Directory.CreateDirectory(disk["older"]);
        foreach (var name in (string[])["summary.json", "report.html", "metrics.csv", "modes.json", "road.json", "window.json", "mounts.json", "damper.json", "tuning.json"])
            File.WriteAllText(disk[$"older/{name}"], "older");
        disk.Fill(kilobytesLeft: 8);
        var before = disk.Content;

        foreach (var output in (string[])[disk["older"], disk["deep/results"]])
        {
            var run = await Invocation.Of([.. arguments, "--out", output]);
            run.Refused(ExitCode.BadInput);
            Assert.Matches($"^“[^”/]+” in the output folder “{output}” cannot be written: the disk is full\\.$", run.Error.TrimEnd());
        }

        Assert.Equal(before, disk.Content);
    }

    [Fact]
    public async Task Full_disk_leaves_an_older_sweep_as_it_was()
    {
        using var folder = new TemporaryFolder();
        using var disk = new SmallDisk(64);
        Directory.CreateDirectory(disk["older"]);
        File.WriteAllText(disk["older/sweep.csv"], "older");
        File.WriteAllText(disk["older/sweep-plan.json"], "older");
        disk.Fill(kilobytesLeft: 0);
        var before = disk.Content;

        foreach (var output in (string[])[disk["older"], disk["older/deeper/results"]])
            (await Invocation.Of([.. Arguments("sweep", folder), "--out", output])).Refused(ExitCode.BadInput, $"“{Path.Combine(output, "sweep.csv")}” cannot be written: the disk is full.");

        Assert.Equal(before, disk.Content);
    }

    [Fact]
    public async Task Disk_that_fills_during_a_sweep_keeps_the_finished_variants_and_goes_on_with_resume()
    {
        using var folder = new TemporaryFolder();
        using var disk = new SmallDisk(512);
        string[] arguments = ["sweep", ShortScenario.Pair().With("manoeuvre.duration_s", 1).WriteTo(folder), "--vary", "vehicle.springs.rate_N_per_mm=lin:45:55:60", "--no-plots", "--out"];
        disk.Fill(kilobytesLeft: 40);

        var stopped = await Invocation.Of([.. arguments, disk["out"]]);

        stopped.Refused(ExitCode.BadInput, "sweep.csv” cannot be written: the disk is full. Finished variants are kept in it", "--resume");
        Assert.Equal(["out/sweep-plan.json", "out/sweep.csv"], Directory.EnumerateFiles(disk["out"]).Select(path => Path.GetRelativePath(disk.Root, path)).Order(StringComparer.Ordinal));

        File.Delete(disk["filling"]);
        var resumed = await Invocation.Of([.. arguments, disk["out"], "--resume"]);
        var whole = await Invocation.Of([.. arguments, folder["out"]]);

        Assert.Equal((ExitCode.Done, ExitCode.Done), (resumed.ExitCode, whole.ExitCode));
        Assert.Equal(File.ReadAllText(folder["out/sweep.csv"]), File.ReadAllText(disk["out/sweep.csv"]));
    }

    [Fact]
    public async Task Full_disk_leaves_no_part_of_a_schema_or_a_starter()
    {
        using var disk = new SmallDisk(64);
        disk.Fill(kilobytesLeft: 4);

        (await Invocation.Of("schema", "--out", disk["schema.json"])).Refused(ExitCode.BadInput, $"The file “{disk["schema.json"]}” cannot be written: the disk is full.");
        var fault = Assert.Throws<IOException>(() => RollRide.Cli.Commands.NewCommand.Write(disk["my-van"], "my-van", "live-axle"));
        Assert.Equal($"“my-van.json” in the output folder “{disk["my-van"]}” cannot be written: the disk is full.", fault.Message);
        Assert.Equal(["filling"], Directory.EnumerateFileSystemEntries(disk.Root).Select(Path.GetFileName));
    }

    [Fact]
    public async Task Read_only_disk_refuses_a_schema_and_a_starter()
    {
        using var disk = new SmallDisk(64);
        disk.Lock();

        (await Invocation.Of("schema", "--out", disk["schema.json"])).Refused(ExitCode.BadInput, $"The file “{disk["schema.json"]}” cannot be written: it lies on a disk that can only be read.");
        Assert.Contains("can only be read", Assert.Throws<IOException>(() => RollRide.Cli.Commands.NewCommand.Write(disk["my-van"], "my-van", "live-axle")).Message, StringComparison.Ordinal);
    }

    private static string[] Arguments(string command, TemporaryFolder folder)
    {
        var targets = JsonNode.Parse("""{ "rollDampingRatioMinimum": 0.15, "heaveDampingRatioMinimum": 0.2, "heaveDampingRatioMaximum": 0.5 }""");
        var tuning = JsonNode.Parse("""{ "heave": { "ratio": 0.3, "damperVelocity_m_per_s": 0.26 }, "roll": { "ratio": 0.38, "damperVelocity_m_per_s": 0.05 }, "limits": { "force_N": 6000, "highSpeedShare": [0.5, 1] } }""");
        string Short() => ShortScenario.Pair().With("targets", targets).With("tuning", tuning).WriteTo(folder);
        return command switch
        {
            "road" => ["road", Shipped.Scenario("smooth-motorway.json"), "--length", "3000"],
            "mounts" or "place" => [command, Shipped.Scenario("placement.json")],
            "damper" => ["damper", Shipped.Scenario("damper-loops.csv")],
            "tune" => ["tune", Short(), "--no-front"],
            "sweep" => ["sweep", Short(), "--vary", Variation],
            "merge" => ["merge", Short(), "--vary", Variation, "--parts", "2"],
            _ => [command, Short()],
        };
    }
}
