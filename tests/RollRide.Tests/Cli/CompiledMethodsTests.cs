using System.Diagnostics;
using System.Text;
using System.Text.RegularExpressions;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

/// <summary>What the runtime compiles while a command runs in a process of its own: each method that holds vectors costs milliseconds at start.</summary>
public sealed partial class CompiledMethodsTests
{
    [Theory]
    [InlineData("compare", "--no-plots")]
    [InlineData("modes", "")]
    [InlineData("window", "")]
    public async Task CommandThatAsksForOneRun_CompilesNoMethodThatHoldsLanes(string command, string options)
    {
        using var folder = new TemporaryFolder();
        var methods = await CompiledBy(folder, [command, Shipped.Scenario("bump-then-corner.json"), .. options.Split(' ', StringSplitOptions.RemoveEmptyEntries), "--out", folder["out"]]);

        // The runtime has told what it compiled: the equations of motion in single numbers.
        Assert.Contains(methods, text => text.StartsWith("RollRide.Cli", StringComparison.Ordinal));
        Assert.Contains(methods, text => text.Contains("RollRide.Numerics.OneLane", StringComparison.Ordinal) || text.Contains("RollRide.Numerics.Dual", StringComparison.Ordinal));

        // The framework's own search in texts holds vectors of bytes; numbers are ours.
        Assert.DoesNotContain(methods, text => HoldsLanes().IsMatch(text));
    }

    [Fact]
    public async Task CommandThatMakesManyRuns_CompilesMethodsThatHoldLanes()
    {
        // Else the test above would not see them.
        using var folder = new TemporaryFolder();
        var methods = await CompiledBy(folder, "sweep", ShortScenario.Pair().WriteTo(folder), "--vary", "vehicle.springs.rate_N_per_mm=lin:50:75:4", "--no-plots", "--out", folder["out"]);
        Assert.Contains(methods, text => HoldsLanes().IsMatch(text));
    }

    [GeneratedRegex("FourLanes|EightLanes|Vector(256|512)`1(<float64>|\\[System.Double\\])")]
    private static partial Regex HoldsLanes();

    [GeneratedRegex("[\\x20-\\x7e]{6,}")]
    private static partial Regex Words();

    /// <summary>Namespaces, names and signatures of all methods compiled by a command, as the runtime's own trace holds them.</summary>
    private static async Task<HashSet<string>> CompiledBy(TemporaryFolder folder, params string[] arguments)
    {
        // The program lies in the same configuration and framework as these tests.
        var binaries = new DirectoryInfo(AppContext.BaseDirectory);
        var program = Path.Combine(Shipped.PathOf("src", "RollRide.Cli", "bin"), binaries.Parent!.Name, binaries.Name, "RollRide.Cli.dll");
        var start = new ProcessStartInfo("dotnet", [program, .. arguments]) { RedirectStandardOutput = true, RedirectStandardError = true };

        // The runtime's events of just-in-time compilation (keyword 0x10), with every method's name (level 5).
        start.Environment["DOTNET_EnableEventPipe"] = "1";
        start.Environment["DOTNET_EventPipeConfig"] = "Microsoft-Windows-DotNETRuntime:0x10:5";
        start.Environment["DOTNET_EventPipeRundown"] = "0";

        // What a release build brings compiled is compiled anew, so that no method which runs is missed.
        start.Environment["DOTNET_ReadyToRun"] = "0";
        start.Environment["DOTNET_EventPipeOutputPath"] = folder["trace"];
        using var process = Process.Start(start)!;
        var (output, error) = (process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken), process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken));
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal((0, ""), (process.ExitCode, await error));
        Assert.NotEmpty(await output);

        // Texts of an event are UTF-16 at any place.
        var trace = await File.ReadAllBytesAsync(folder["trace"], TestContext.Current.CancellationToken);
        return [.. ((int[])[0, 1]).SelectMany(first => Words().Matches(Encoding.Unicode.GetString(trace.AsSpan(first))).Select(match => match.Value))];
    }
}
