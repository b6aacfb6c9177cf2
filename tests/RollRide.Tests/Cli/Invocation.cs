using RollRide.Cli;

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

    public static async Task<Invocation> Of(CancellationToken cancellation, params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var exitCode = await CommandLine.RunAsync(args, new Terminal(output, error, false, TimeProvider.System), cancellation);
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
}
