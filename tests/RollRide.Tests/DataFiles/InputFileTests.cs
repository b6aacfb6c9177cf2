using System.Diagnostics;
using System.Net.Sockets;
using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public sealed class InputFileTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("")]
    [InlineData("ten bytes.")]
    public void ReadAllBytes_regular_file_gives_its_content(string text) =>
        Assert.Equal(text, System.Text.Encoding.UTF8.GetString(InputFile.ReadAllBytes(_folder.Write("a.json", text))));

    [Fact]
    public void ReadAllBytes_link_to_a_regular_file_gives_its_content()
    {
        File.CreateSymbolicLink(_folder["link"], _folder.Write("a.json", "1"));
        File.CreateSymbolicLink(_folder["empty-link"], _folder.Write("empty.json", ""));
        Assert.Equal("1"u8.ToArray(), InputFile.ReadAllBytes(_folder["link"]));
        Assert.Empty(InputFile.ReadAllBytes(_folder["empty-link"]));
    }

    [Fact]
    public void Open_file_that_is_not_there_is_refused() => Refused(_folder["none.json"], "the file does not exist");

    [Fact]
    public void Open_folder_is_refused_by_its_kind() => Refused(_folder[""], "this is a folder; a regular file is expected");

    [Fact]
    public void Open_pipe_is_refused_by_its_kind_and_does_not_wait()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Named pipes are made with mkfifo here.");
        using (var process = Process.Start("mkfifo", [_folder["pipe"]]))
            process.WaitForExit();
        File.CreateSymbolicLink(_folder["link"], _folder["pipe"]);
        Refused(_folder["pipe"], "this is a named pipe; a regular file is expected");
        Refused(_folder["link"], "this is a named pipe; a regular file is expected");
    }

    [Theory]
    [InlineData("/dev/null")]
    [InlineData("/dev/zero")]
    public void Open_device_is_refused_by_its_kind_and_not_read(string path)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Its name is that of Linux.");
        Refused(path, "this is a device; a regular file is expected");
    }

    [Fact]
    public void Open_socket_is_refused()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Sockets are files on Linux.");
        using var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        socket.Bind(new UnixDomainSocketEndPoint(_folder["socket"]));
        Assert.Throws<DataFileException>(() => InputFile.Open(_folder["socket"]));
    }

    [Fact]
    public void Reading_stops_when_asked_to()
    {
        using var stop = new CancellationTokenSource();
        using var file = InputFile.Open(_folder.Write("a.json", "123"), stop.Token);
        Assert.Equal('1', file.ReadByte());
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() => file.ReadByte());
        Assert.Throws<OperationCanceledException>(() => InputFile.ReadAllBytes(_folder["a.json"], stop.Token));
        Assert.Throws<OperationCanceledException>(() => LocatedNode.Parse("[1, 2]"u8.ToArray(), "a.json", stop.Token));
        Assert.Throws<OperationCanceledException>(() => NumericTable.Read(_folder.Write("a.csv", "a\n1\n"), ["a"], cancellation: stop.Token));
    }

    private static void Refused(string path, string reason) =>
        Assert.Equal($"{path}: {reason}", Assert.Throws<DataFileException>(() => InputFile.Open(path)).Message);
}
