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
}
