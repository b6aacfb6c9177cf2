using System.ComponentModel;
using System.Diagnostics;

namespace RollRide.Cli.Commands;

/// <summary>The user's browser.</summary>
internal static class Browser
{
    // A browser that was not running yet may go on in the process that opens it.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);

    // A display, or the user's own choice, as of a session from another machine.
    private static readonly string[] WhereShown = ["DISPLAY", "WAYLAND_DISPLAY", "BROWSER"];

    /// <summary>Opens an address.</summary>
    /// <returns>Whether it went, as far as one can tell.</returns>
    public static async Task<bool> Open(string address, CancellationToken cancellation)
    {
        if (Start(address) is not { } start)
            return false;
        try
        {
            using var opening = Process.Start(start);
            using var patience = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
            patience.CancelAfter(Patience);
            if (opening is not null)
                await opening.WaitForExitAsync(patience.Token);
            return opening is not { ExitCode: not 0 };
        }
        catch (Win32Exception)
        {
            return false;
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            return true;
        }
    }

    private static ProcessStartInfo? Start(string address)
    {
        if (OperatingSystem.IsWindows())
            return new ProcessStartInfo(address) { UseShellExecute = true };
        if (OperatingSystem.IsMacOS())
            return new ProcessStartInfo("open", [address]);
        if (Array.TrueForAll(WhereShown, variable => string.IsNullOrEmpty(Environment.GetEnvironmentVariable(variable))))
            return null;

        // In a session of its own: Ctrl-C here must not end the user's browser, nor its messages come here.
        return new ProcessStartInfo("sh", ["-c", "exec $(command -v setsid) xdg-open \"$1\" </dev/null >/dev/null 2>&1", "sh", address]);
    }
}
