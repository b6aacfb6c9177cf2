using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public sealed class OutputFolderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Commit_puts_all_files_in_place_and_leaves_nothing_else()
    {
        using (var output = new OutputFolder(_folder["deep/results"]))
        {
            output.Add("summary.json", writer => writer.Write("{}"));
            output.AddBytes("roll.png", new byte[] { 1, 2 });
            Assert.Equal(["summary.json", "roll.png"], output.Names);
            Assert.False(File.Exists(_folder["deep/results/summary.json"]));
            output.Commit();
        }

        Assert.Equal(["deep", "deep/results", "deep/results/roll.png", "deep/results/summary.json"], _folder.Entries);
        Assert.Equal("{}", File.ReadAllText(_folder["deep/results/summary.json"]));
    }

    [Fact]
    public void Commit_replaces_older_files_and_keeps_others()
    {
        Directory.CreateDirectory(_folder["results"]);
        _folder.Write("results/summary.json", "older");
        _folder.Write("results/notes.txt", "mine");
        using (var output = new OutputFolder(_folder["results"]))
        {
            output.Add("summary.json", writer => writer.Write("newer"));
            output.Commit();
        }

        Assert.Equal(["results", "results/notes.txt", "results/summary.json"], _folder.Entries);
        Assert.Equal("newer", File.ReadAllText(_folder["results/summary.json"]));
    }

    [Fact]
    public void Dispose_without_commit_removes_files_and_the_folders_created()
    {
        using (var output = new OutputFolder(_folder["deep/results"]))
        {
            output.Add("summary.json", writer => writer.Write("{}"));
            Assert.Throws<OperationCanceledException>(() => output.Add("metrics.csv", _ => throw new OperationCanceledException()));
        }

        Assert.Empty(_folder.Entries);
    }

    [Fact]
    public void Spool_reads_back_what_was_appended_and_is_no_file_of_the_set()
    {
        using (var output = new OutputFolder(_folder["results"]))
        {
            var (one, other) = (output.OpenSpool(), output.OpenSpool());
            one.Append([1, 2, 3]);
            other.Append([9]);
            one.Append([4, 5]);
            var values = new double[3];
            one.Read(1, values);
            Assert.Equal([2, 3, 4], values);
            Assert.Throws<EndOfStreamException>(() => other.Read(0, values));
            output.Add("summary.json", writer => writer.Write("{}"));
            output.Commit();
        }

        Assert.Equal(["results", "results/summary.json"], _folder.Entries);
    }

    [Fact]
    public void Spool_on_a_full_disk_names_the_folder_and_leaves_nothing()
    {
        using var disk = new SmallDisk(kilobytes: 64);
        using (var output = new OutputFolder(disk["results"]))
        {
            var refusal = Assert.Throws<IOException>(() => output.OpenSpool().Append(new double[20_000]));
            Assert.Equal($"The output folder “{disk["results"]}” cannot be written: the disk is full.", refusal.Message);
        }

        Assert.Empty(disk.Content);
    }

    [Fact]
    public void Spool_is_stopped_with_the_rest()
    {
        using var stop = new CancellationTokenSource();
        using var output = new OutputFolder(_folder["results"], stop.Token);
        var spool = output.OpenSpool();
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() => spool.Append([1]));
    }

    [Fact]
    public void Dispose_without_commit_keeps_what_was_there()
    {
        Directory.CreateDirectory(_folder["results"]);
        _folder.Write("results/summary.json", "older");
        using (var output = new OutputFolder(_folder["results"])) output.Add("summary.json", writer => writer.Write("newer"));
        Assert.Equal(["results", "results/summary.json"], _folder.Entries);
        Assert.Equal("older", File.ReadAllText(_folder["results/summary.json"]));
    }

    [Fact]
    public void Commit_that_fails_in_the_middle_puts_everything_back()
    {
        Directory.CreateDirectory(_folder["results/blocked.csv"]);
        _folder.Write("results/a.csv", "older");
        using (var output = new OutputFolder(_folder["results"]))
        {
            output.Add("a.csv", writer => writer.Write("newer"));
            output.Add("b.csv", writer => writer.Write("new"));
            output.Add("blocked.csv", writer => writer.Write("new"));
            Assert.Contains("blocked.csv", Assert.Throws<IOException>(output.Commit).Message, StringComparison.Ordinal);
        }

        Assert.Equal(["results", "results/a.csv", "results/blocked.csv"], _folder.Entries);
        Assert.Equal("older", File.ReadAllText(_folder["results/a.csv"]));
    }

    [Fact]
    public void Constructor_unwritable_folder_is_named_and_nothing_is_left()
    {
        var file = _folder.Write("results", "a file, not a folder");
        var exception = Assert.Throws<IOException>(() => new OutputFolder(Path.Combine(file, "deep")));
        Assert.Contains(Path.Combine(file, "deep"), exception.Message, StringComparison.Ordinal);
        Assert.Throws<IOException>(() => new OutputFolder(file));
        Assert.Equal(["results"], _folder.Entries);
    }

    [Theory]
    [InlineData("../a.csv")]
    [InlineData("sub/a.csv")]
    [InlineData("/a.csv")]
    [InlineData("..")]
    [InlineData("")]
    [InlineData("METRICS.csv")]
    public void Add_refuses_names_that_leave_the_folder_or_were_given_before(string name)
    {
        using var output = new OutputFolder(_folder["results"]);
        output.Add("metrics.csv", writer => writer.Write("a"));
        Assert.Throws<ArgumentException>(() => output.Add(name, writer => writer.Write("b")));
    }

    [Fact]
    public void Commit_twice_is_refused()
    {
        using var output = new OutputFolder(_folder["results"]);
        output.Commit();
        Assert.Throws<InvalidOperationException>(output.Commit);
    }

    [Fact]
    public void AddSummary_names_the_checksums_of_the_other_files_and_is_listed_first()
    {
        using var output = new OutputFolder(_folder["results"]);
        output.Add("a.csv", writer => writer.Write("abc"));
        output.AddBytes("b.png", "abc"u8.ToArray());
        var text = output.AddSummary("summary.json", writer => writer.Write("""{ "ratio": 1.50, "name": "ä" }"""));
        output.Commit();

        // SHA-256 of "abc": FIPS 180-4's example.
        const string Abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        Assert.Equal($"{{\n  \"ratio\": 1.50,\n  \"name\": \"ä\",\n  \"files\": {{\n    \"a.csv\": \"{Abc}\",\n    \"b.png\": \"{Abc}\"\n  }}\n}}\n", text);
        Assert.Equal(text, File.ReadAllText(_folder["results/summary.json"]));
        Assert.Equal(["summary.json", "a.csv", "b.png"], output.Names);
        Assert.Throws<ArgumentException>(() => output.Add("summary.json", writer => writer.Write("b")));
    }

    [Fact]
    public void Add_and_Commit_stop_when_asked_to()
    {
        using var stop = new CancellationTokenSource();
        using (var output = new OutputFolder(_folder["results"], stop.Token))
        {
            output.Add("a.csv", writer => writer.Write("new"));
            Assert.Throws<OperationCanceledException>(() => output.Add("endless.csv", writer =>
            {
                for (var row = 0; ; row++)
                {
                    if (row == 1000)
                        stop.Cancel();
                    writer.Write("1,2,3\n");
                }
            }));
            Assert.Throws<OperationCanceledException>(output.Commit);
        }

        Assert.Empty(_folder.Entries);
    }
}
