using System.Diagnostics;
using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public sealed class AtomicFileTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Write_ends_lines_the_same_everywhere_and_has_no_byte_order_mark()
    {
        AtomicFile.Write(_folder["a.txt"], writer => writer.WriteLine("7°"));
        Assert.Equal("7°\n"u8.ToArray(), File.ReadAllBytes(_folder["a.txt"]));
        Assert.Equal(["a.txt"], _folder.Entries);
    }

    [Fact]
    public void Write_replaces_an_older_file()
    {
        var path = _folder.Write("a.txt", "older and longer");
        AtomicFile.Write(path, writer => writer.Write("newer"));
        Assert.Equal("newer", File.ReadAllText(path));
        Assert.Equal(["a.txt"], _folder.Entries);
    }

    [Fact]
    public void Write_that_may_not_replace_leaves_the_older_file_and_no_temporary()
    {
        var path = _folder.Write("there.txt", "old");
        Assert.Throws<IOException>(() => AtomicFile.Write(path, writer => writer.Write("new"), overwrites: false));
        Assert.Equal("old", File.ReadAllText(path));
        Assert.Equal(["there.txt"], _folder.Entries);
    }

    [Fact]
    public void Write_that_fails_leaves_the_older_file_and_no_temporary()
    {
        var path = _folder.Write("a.txt", "older");
        Assert.Throws<OperationCanceledException>(() => AtomicFile.Write(path, writer =>
        {
            writer.Write(new string('x', 100_000));
            throw new OperationCanceledException();
        }));
        Assert.Equal("older", File.ReadAllText(path));
        Assert.Equal(["a.txt"], _folder.Entries);
    }

    [Fact]
    public void Write_over_a_folder_or_into_none_is_an_IOException_and_leaves_nothing()
    {
        Directory.CreateDirectory(_folder["taken"]);
        Assert.ThrowsAny<IOException>(() => AtomicFile.Write(_folder["taken"], writer => writer.Write("1")));
        Assert.ThrowsAny<IOException>(() => AtomicFile.Write(_folder["none/a.txt"], writer => writer.Write("1")));
        Assert.Equal(["taken"], _folder.Entries);
    }

    [Fact]
    public void Write_over_a_named_pipe_is_refused_and_leaves_it()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Named pipes are made with mkfifo here.");
        using (var process = Process.Start("mkfifo", [_folder["pipe"]]))
            process.WaitForExit();
        var e = Assert.Throws<IOException>(() => AtomicFile.Write(_folder["pipe"], writer => writer.Write("1")));
        Assert.Equal($"The file “{_folder["pipe"]}” cannot be written: this is a named pipe; a regular file is expected.", e.Message);
        Assert.Equal(["pipe"], _folder.Entries);
    }

    [Fact]
    public void Write_through_a_link_replaces_what_it_leads_to()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need rights of their own there.");
        var target = _folder.Write("target.txt", "older");
        File.CreateSymbolicLink(_folder["link.txt"], target);
        AtomicFile.Write(_folder["link.txt"], writer => writer.Write("newer"));
        Assert.Equal("newer", File.ReadAllText(target));
        Assert.Equal(target, new FileInfo(_folder["link.txt"]).LinkTarget);
    }
}
