using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Reflection;
using System.Text.Json.Nodes;
using RollRide.Cli;
using RollRide.Cli.Terminals;
using RollRide.Tests.Cli;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Live;

/// <summary>The command live and the process that it starts.</summary>
public sealed class LiveCommandTests
{
    // Far more than any of these takes; a test that hangs ends with it.
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(60);

    private static readonly string Scenario = Shipped.Scenario("bump-then-corner.json");

    [Fact]
    public async Task Missing_scenario_is_refused_as_by_other_commands()
    {
        using var folder = new TemporaryFolder();
        var (live, check) = (await Invocation.Of("live", folder["none.json"]), await Invocation.Of("check", folder["none.json"]));
        live.Refused(ExitCode.BadInput, "none.json");
        Assert.Equal(check.Error, live.Error);
    }

    [Theory]
    [InlineData("0")]
    [InlineData("65536")]
    [InlineData("-1")]
    [InlineData("http")]
    public async Task Port_that_is_none_is_refused(string port) => (await Invocation.Of("live", Scenario, "--port", port)).Refused(ExitCode.BadInput, "--port");

    [Fact]
    public async Task Port_in_use_is_told_in_one_line()
    {
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();
        var port = ((IPEndPoint)other.LocalEndpoint).Port;
        var live = await Invocation.Of("live", Scenario, "--no-browser", "--port", $"{port}");
        live.Refused(ExitCode.BadInput, $"port {port} is in use by another program: give another, or leave out --port for a free one");
        Assert.Single(live.Error.TrimEnd('\n').Split('\n'));
    }

    [Fact]
    public async Task Address_is_printed_where_no_browser_can_be_opened()
    {
        using var live = await StartedLive.Of(["DISPLAY=", "WAYLAND_DISPLAY=", "BROWSER="], Scenario);
        using var client = new HttpClient { Timeout = Longest };
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync(live.Address)).StatusCode);
        Assert.StartsWith("No browser could be opened from here", await live.Process.StandardError.ReadLineAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("DISPLAY=:0")]
    [InlineData("WAYLAND_DISPLAY=wayland-0")]
    [InlineData("BROWSER=my-browser")]
    public async Task Address_is_opened_in_the_users_browser(string where)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "The program that opens an address has another name elsewhere.");
        using var folder = new TemporaryFolder();
        var opened = folder["opened"];
        WriteProgram(folder, "xdg-open", $"printf '%s' \"$*\" > '{opened}.part' && mv '{opened}.part' '{opened}'");
        using var live = await StartedLive.Of(["DISPLAY=", "WAYLAND_DISPLAY=", "BROWSER=", where, $"PATH={folder[""]}:{Environment.GetEnvironmentVariable("PATH")}"], Scenario);
        for (var waited = Stopwatch.StartNew(); !File.Exists(opened) && waited.Elapsed < Longest;)
            await Task.Delay(20);
        Assert.Equal(live.Address.AbsoluteUri, await File.ReadAllTextAsync(opened));
    }

    [Fact]
    public async Task Browser_that_cannot_be_opened_is_told_with_the_address()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "The program that opens an address has another name elsewhere.");
        using var folder = new TemporaryFolder();
        WriteProgram(folder, "xdg-open", "exit 3");
        using var live = await StartedLive.Of(["DISPLAY=:0", $"PATH={folder[""]}:{Environment.GetEnvironmentVariable("PATH")}"], Scenario);
        Assert.Equal($"No browser could be opened from here: open {live.Address.AbsoluteUri} in one on this machine.", await live.Process.StandardError.ReadLineAsync().WaitAsync(Longest));
    }

    [Fact]
    public async Task Without_a_browser_the_address_alone_is_printed()
    {
        using var live = await StartedLive.Of([], Scenario, "--no-browser");
        Assert.Equal([live.Address.AbsoluteUri], live.Printed);
    }

    [Fact]
    public async Task Port_given_is_that_of_the_address()
    {
        int port;
        using (var free = new TcpListener(IPAddress.Loopback, 0))
        {
            free.Start();
            port = ((IPEndPoint)free.LocalEndpoint).Port;
        }

        using var live = await StartedLive.Of([], Scenario, "--no-browser", "--port", $"{port}");
        Assert.Equal(port, live.Address.Port);
    }

    [Fact]
    public async Task Scenario_with_faults_opens()
    {
        using var folder = new TemporaryFolder();
        using var live = await StartedLive.Of([], folder.Write("van.json", "{ \"name\": }"), "--no-browser");
        using var client = new HttpClient { BaseAddress = live.Address, Timeout = Longest };
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("start")).StatusCode);
    }

    [Theory]
    [InlineData("INT", ExitCode.Cancelled)]
    [InlineData("TERM", ExitCode.Terminated)]
    public async Task Signal_ends_both_processes_although_a_page_is_open(string signal, int exitCode)
    {
        using var live = await StartedLive.Of([], Scenario, "--no-browser");
        using var client = new HttpClient { BaseAddress = live.Address, Timeout = Longest };
        await using var events = await client.GetStreamAsync("events");

        await StartedLive.Signal(signal, live.Process.Id);

        await live.Process.WaitForExitAsync().WaitAsync(Longest);
        Assert.Equal(exitCode, live.Process.ExitCode);
        Assert.Equal("Stopped; what was saved stays.\n", await live.Process.StandardError.ReadToEndAsync());
        await live.ServerEnds();
    }

    [Fact]
    public async Task Server_ends_with_a_command_that_is_killed()
    {
        using var live = await StartedLive.Of([], Scenario, "--no-browser");
        await StartedLive.Signal("KILL", live.Process.Id);
        await live.ServerEnds();
    }

    [Fact]
    public async Task Command_ends_with_a_server_that_is_killed()
    {
        using var live = await StartedLive.Of([], Scenario, "--no-browser");
        await StartedLive.Signal("KILL", live.Server);
        await live.Process.WaitForExitAsync().WaitAsync(Longest);
        Assert.Equal(ExitCode.Internal, live.Process.ExitCode);
    }

    [Fact]
    public async Task Server_that_was_stopped_and_goes_on_answers_and_keeps_its_page()
    {
        using var live = await StartedLive.Of([], Scenario, "--no-browser");
        using var client = new HttpClient { BaseAddress = live.Address, Timeout = Longest };
        await using var events = await client.GetStreamAsync("events");
        await StartedLive.Signal("STOP", live.Server);
        var asked = client.GetAsync("start");
        await Task.Delay(TimeSpan.FromSeconds(2));
        Assert.False(asked.IsCompleted);
        await StartedLive.Signal("CONT", live.Server);
        Assert.Equal(HttpStatusCode.OK, (await asked).StatusCode);
        Assert.False(live.Process.HasExited);
    }

    [Fact]
    public void Every_other_command_runs_on_the_plain_runtime()
    {
        static string[] Frameworks(string program)
        {
            var options = JsonNode.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, $"{program}.runtimeconfig.json")))!["runtimeOptions"]!;
            return [.. (options["frameworks"]?.AsArray() ?? [options["framework"]!.DeepClone()]).Select(framework => framework!["name"]!.GetValue<string>())];
        }

        Assert.Equal(["Microsoft.NETCore.App"], Frameworks("RollRide.Cli"));
        Assert.Contains("Microsoft.AspNetCore.App", Frameworks("RollRide.Live"));
        Assert.DoesNotContain(typeof(CommandLine).Assembly.GetReferencedAssemblies(), IsOfServer);
        static bool IsOfServer(AssemblyName name) => name.Name!.StartsWith("Microsoft.AspNetCore", StringComparison.Ordinal) || name.Name == "RollRide.Live";
    }

    private static void WriteProgram(TemporaryFolder folder, string name, string script)
    {
        var path = folder.Write(name, $"#!/bin/sh\n{script}\n");
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserExecute);
    }
}
