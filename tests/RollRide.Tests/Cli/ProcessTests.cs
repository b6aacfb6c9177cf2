using System.Diagnostics;
using RollRide.Cli;
using RollRide.Cli.Terminals;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

/// <summary>The program as a process of its own: signals, and standard streams that cannot be written.</summary>
public sealed class ProcessTests : IDisposable
{
    // Far more than any of these takes on a machine that is busy with much else; a test that hangs ends with it.
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(3);

    private readonly TemporaryFolder _folder = new();

    public ProcessTests() => Assert.SkipUnless(OperatingSystem.IsLinux(), "Signals, shells and devices are those of Linux.");

    public void Dispose() => _folder.Dispose();

    // Long past the start, in processor time: on a loaded machine the start takes longer, and the wait with it.
    private static readonly TimeSpan AtWork = TimeSpan.FromSeconds(1.5);

    /// <summary>Work that takes minutes if nothing stops it: a run, the search for places while a scenario is read, a sweep.</summary>
    public static TheoryData<string, string, int> Stopped => new()
    {
        { "compare", "INT", ExitCode.Cancelled },
        { "compare", "TERM", ExitCode.Terminated },
        { "place", "TERM", ExitCode.Terminated },
        { "sweep", "INT", ExitCode.Cancelled },
    };

    [Theory]
    [MemberData(nameof(Stopped))]
    public void Signal_ends_a_command_with_its_code_and_leaves_nothing_unfinished(string command, string signal, int exitCode)
    {
        string[] arguments = command switch
        {
            "place" => ["place", Placement(pipes: 5000)],
            "sweep" => ["sweep", ShortScenario.Pair().WriteTo(_folder), "--vary", "vehicle.springs.rate_N_per_mm=lin:50:75:500000"],
            _ => ["compare", Shipped.Scenario("smooth-motorway.json"), "--no-history", "--seeds", "10000"],
        };

        // Who runs the tests in the background has this signal ignored, and passes that on.
        using var process = Start($"exec env --default-signal={signal} \"$@\"", [.. arguments, "--out", _folder["out"]]);
        while (process.TotalProcessorTime < AtWork)
            Assert.False(process.WaitForExit(TimeSpan.FromMilliseconds(50)), "The command ended by itself: it proves nothing.");

        using (var kill = Process.Start("kill", [$"-{signal}", $"{process.Id}"]))
            kill.WaitForExit();

        Assert.Equal(exitCode, End(process));
        Assert.StartsWith("Stopped; ", process.StandardError.ReadToEnd(), StringComparison.Ordinal);
        Assert.DoesNotContain(_folder.Entries, entry => entry.Contains(".unfinished", StringComparison.Ordinal));
        Assert.Equal(command == "sweep", Directory.Exists(_folder["out"]));
    }

    [Theory]
    [InlineData("2>&-")]
    [InlineData("2>/dev/full")]
    public void Standard_error_that_cannot_be_written_does_not_change_the_exit_code(string redirection)
    {
        using var bad = Start($"exec \"$@\" {redirection}", ["check", _folder["none.json"]]);
        Assert.Equal(ExitCode.BadInput, End(bad));
        using var good = Start($"exec \"$@\" {redirection}", ["check", ShortScenario.Pair().WriteTo(_folder)]);
        Assert.Equal(ExitCode.Done, End(good));
    }

    [Theory]
    [InlineData(">&-", "The standard output is closed.")]
    [InlineData(">/dev/full", "The standard output cannot be written: the disk is full.")]
    public void Standard_output_that_cannot_be_written_ends_with_its_code_and_the_files_are_there(string redirection, string told)
    {
        using var compare = Start($"exec \"$@\" {redirection}", ["compare", ShortScenario.Pair().WriteTo(_folder), "--no-plots", "--out", _folder["out"]]);
        Assert.Equal(ExitCode.BadInput, End(compare));
        Assert.Equal($"{told} The files are in place in “{_folder["out"]}”.\n", compare.StandardError.ReadToEnd());
        Assert.True(File.Exists(_folder["out/summary.json"]));
        using var check = Start($"exec \"$@\" {redirection}", ["check", ShortScenario.Pair().WriteTo(_folder)]);
        Assert.Equal(ExitCode.BadInput, End(check));
        Assert.Equal($"{told}\n", check.StandardError.ReadToEnd());
    }

    [Fact]
    public void Scenario_from_a_pipe_is_refused()
    {
        using var check = Start("cat /dev/null | \"$@\"", ["check", "/dev/stdin"]);
        Assert.Equal(ExitCode.BadInput, End(check));
        Assert.Equal("/dev/stdin: this is a pipe or a socket; a regular file is expected\n", check.StandardError.ReadToEnd());
    }

    [Fact]
    public void Memory_that_is_not_enough_is_told_with_what_helps()
    {
        // 64 MB of samples for each track, and a heap of 100 MB.
        string[] arguments = ["road", Shipped.Scenario("smooth-motorway.json"), "--length", "1000000", "--no-plots", "--out", _folder["out"]];
        using var process = Start("DOTNET_GCHeapHardLimit=0x6000000 exec \"$@\"", arguments);
        Assert.Equal(ExitCode.RunFailed, End(process));
        Assert.StartsWith("Not enough memory: look at less of the road with --length, or at fewer samples with --step; ", process.StandardError.ReadToEnd(), StringComparison.Ordinal);
        Assert.False(Directory.Exists(_folder["out"]));
    }

    /// <summary>Writes a scenario with many rooms to keep clear of: the search takes the longer the more there are.</summary>
    private string Placement(int pipes)
    {
        var text = File.ReadAllText(Shipped.Scenario("placement.json"));
        File.Copy(Shipped.Scenario("valley-damper-dyno.csv"), _folder["valley-damper-dyno.csv"]);
        var rooms = string.Concat(Enumerable.Range(1, pipes).Select(i =>
            $$"""
            "pipe {{i}}": { "inner_mm": 190, "outer_mm": 260, "bottom_mm": 560, "top_mm": 640, "clearance_mm": 20 },

            """));
        const string Rooms = "\"onBody\": {";
        Assert.Contains(Rooms, text, StringComparison.Ordinal);
        return _folder.Write("placement.json", text.Replace(Rooms, $"{Rooms}\n{rooms}", StringComparison.Ordinal));
    }

    /// <summary>Starts the program through a shell, which replaces itself by it.</summary>
    private static Process Start(string script, string[] arguments) => Process.Start(new ProcessStartInfo("sh", ["-c", script, "sh", Environment.ProcessPath is { } host && Path.GetFileNameWithoutExtension(host) == "dotnet" ? host : "dotnet", typeof(CommandLine).Assembly.Location, .. arguments])
    {
        RedirectStandardError = true,
        RedirectStandardOutput = true,
    })!;

    private static int End(Process process)
    {
        if (!process.WaitForExit(Longest))
        {
            process.Kill(entireProcessTree: true);
            Assert.Fail("The program did not end.");
        }

        return process.ExitCode;
    }
}
