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
    public void Leftovers_are_the_hidden_folders_of_runs_that_were_killed()
    {
        Assert.Empty(OutputFolder.Leftovers(_folder["results"]));
        var killed = new OutputFolder(_folder["results"]);
        killed.Add("a.txt", writer => writer.Write("half"));
        Assert.StartsWith(".unfinished-", Path.GetFileName(Assert.Single(OutputFolder.Leftovers(_folder["results"]))), StringComparison.Ordinal);
        killed.Dispose();
        Assert.Empty(OutputFolder.Leftovers(_folder["results"]));
    }
}
