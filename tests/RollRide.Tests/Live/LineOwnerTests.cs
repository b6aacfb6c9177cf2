using System.Diagnostics;
using System.Net;
using RollRide.Live;

namespace RollRide.Tests.Live;

/// <summary>Whose process asks. The rows are of the form in proc_pid_net(5) and the kernel's Documentation/networking/proc_net_tcp.rst, from memory.</summary>
public sealed class LineOwnerTests
{
    private const string Heading = "  sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid  timeout inode";
    private const string Listener = "   0: 0100007F:A22D 00000000:0000 0A 00000000:00000000 00:00000000 00000000  1000        0 4680043 1 0 100 0 0 10 0";

    private static readonly IPEndPoint Client = new(IPAddress.Loopback, 0x8FCA);
    private static readonly IPEndPoint Server = new(IPAddress.Loopback, 0xA22D);

    [Theory]
    [InlineData("0100007F:8FCA 0100007F:A22D", 1000, false)]
    [InlineData("0100007F:8FCA 0100007F:A22D", 1001, true)]
    [InlineData("0000000000000000FFFF00000100007F:8FCA 0000000000000000FFFF00000100007F:A22D", 1000, false)]
    [InlineData("0000000000000000FFFF00000100007F:8FCA 0000000000000000FFFF00000100007F:A22D", 1001, true)]
    [InlineData("0200007F:8FCA 0100007F:A22D", 1001, false)] // a line from another address
    [InlineData("0100007F:8FCB 0100007F:A22D", 1001, false)] // a line from another port
    public void Far_end_is_told_by_its_user(string ends, int user, bool isAnother) =>
        Assert.Equal(isAnother, LineOwner.IsAnother(Client, Server, [Heading, Listener, $"   1: {ends} 01 00000000:00000000 00:00000000 00000000  {user}        0 4681665 1 0 20 4 28 18 -1"]));

    [Fact]
    public void Without_a_table_nobody_is_another() => Assert.False(LineOwner.IsAnother(Client, Server, []));

    [Fact]
    public async Task Another_user_of_the_machine_who_knows_the_address_is_not_answered()
    {
        const string NobodysNumber = "65534";
        Assert.SkipUnless(OperatingSystem.IsLinux() && Environment.UserName == "root", "Only root may start a process as another user.");
        await using var page = await ServedPage.StartAsync();
        using (var own = await page.Get(""))
            Assert.Equal(HttpStatusCode.OK, own.StatusCode);

        var ask = $"exec 3<>/dev/tcp/127.0.0.1/{page.Address.Port} && printf 'GET {page.Address.AbsolutePath} HTTP/1.1\\r\\nHost: 127.0.0.1:{page.Address.Port}\\r\\nConnection: close\\r\\n\\r\\n' >&3 && head -c 12 <&3";
        Assert.Equal("HTTP/1.1 200", await Told([]));
        Assert.Equal("", await Told(["setpriv", $"--reuid={NobodysNumber}", "--clear-groups"]));

        async Task<string> Told(string[] asUser)
        {
            string[] command = [.. asUser, "bash", "-c", ask];
            using var process = Process.Start(new ProcessStartInfo(command[0], command[1..]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            return await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        }
    }
}
