using System.Globalization;
using System.Net;

namespace RollRide.Live;

/// <summary>
/// Whose process is at the other end of a line. On a shared machine everybody can read the page's address, with its token, in the list of processes
/// while a browser is started with it; only the user who started this server is answered.
/// </summary>
/// <remarks>Linux lists both ends of each line with their users (proc_pid_net(5), "tcp"). Where there is no such list, the token alone protects.</remarks>
internal static class LineOwner
{
    private const string Listening = "0A";

    // Where an end stands in a row, as hexadecimal address and port.
    private const int Local = 1;
    private const int Remote = 2;
    private const int State = 3;
    private const int User = 7;

    private static readonly string[] Tables = ["/proc/net/tcp", "/proc/net/tcp6"];

    /// <summary>Whether a line to this server comes from another user's process.</summary>
    /// <param name="client">Its far end.</param>
    /// <param name="server">Its end at this server.</param>
    public static bool IsAnother(IPEndPoint client, IPEndPoint server) => IsAnother(client, server, Tables.Where(File.Exists).SelectMany(File.ReadLines));

    /// <summary>The same, by the rows of the system's tables.</summary>
    internal static bool IsAnother(IPEndPoint client, IPEndPoint server, IEnumerable<string> table)
    {
        var (from, to) = (Written(client), Written(server));
        string? user = null, owner = null;

        // No farther than needed: the system takes milliseconds for each table.
        foreach (var row in table.Select(row => row.Split(' ', StringSplitOptions.RemoveEmptyEntries)).Where(row => row.Length > User))
        {
            if (row[State] == Listening && row[Local] == to)
                user ??= row[User];
            else if (row[Local].EndsWith(from, StringComparison.Ordinal) && row[Remote].EndsWith(to, StringComparison.Ordinal))
                owner ??= row[User];
            if (user is not null && owner is not null)
                return owner != user;
        }

        return false;
    }

    // A row of an IPv6 table ends in the same way, for an IPv4 address mapped into it.
    private static string Written(IPEndPoint end) => string.Create(CultureInfo.InvariantCulture, $"{BitConverter.ToUInt32(end.Address.MapToIPv4().GetAddressBytes()):X8}:{end.Port:X4}");
}
