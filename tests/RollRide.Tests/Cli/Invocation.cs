using RollRide.Cli;
using RollRide.Cli.Terminals;

namespace RollRide.Tests.Cli;

/// <summary>What one command line did.</summary>
internal sealed record Invocation(int ExitCode, string Output, string Error)
{
    public static async Task<Invocation> Of(params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var exitCode = await CommandLine.RunAsync(args, output, error);
        return new Invocation(exitCode, output.ToString(), error.ToString());
    }

    public static Task<Invocation> Of(CancellationToken cancellation, params string[] args) => Of(args, TimeProvider.System, cancellation);

    /// <summary>A command line that is stopped when its first work with progress begins: the input is read by then.</summary>
    public static async Task<Invocation> StoppedAtWork(params string[] args)
    {
        using var stop = new CancellationTokenSource();
        return await Of(args, new StoppingClock(stop), stop.Token);
    }

    private static async Task<Invocation> Of(string[] args, TimeProvider clock, CancellationToken cancellation)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var exitCode = await CommandLine.RunAsync(args, new Terminal(output, error, false, clock), cancellation);
        return new Invocation(exitCode, output.ToString(), error.ToString());
    }

    /// <summary>Asserts that the command failed as it should: one message, no stack trace, nothing on the output.</summary>
    public void Refused(int exitCode, params string[] parts)
    {
        Assert.Equal(exitCode, ExitCode);
        Assert.Equal("", Output);
        Assert.DoesNotContain("   at ", Error, StringComparison.Ordinal);
        Assert.All(parts, part => Assert.Contains(part, Error, StringComparison.Ordinal));
    }

    // Progress is counted from the time at which the work begins.
    private sealed class StoppingClock(CancellationTokenSource stop) : TimeProvider
    {
        public override long GetTimestamp()
        {
            stop.Cancel();
            return base.GetTimestamp();
        }
    }
}
