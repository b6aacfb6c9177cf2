using System.Security.Cryptography;
using System.Text.Json.Nodes;
using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

/// <summary>What stays of a run that was killed, at every point at which it can be, and what the next one makes of it.</summary>
public sealed class LeftoverRunTests : IDisposable
{
    private static readonly string[] Names = ["metrics.csv", "new.csv", "roll.png", "summary.json"];

    // One of the files did not exist before.
    private static readonly string[] OldNames = ["metrics.csv", "roll.png", "summary.json"];

    // One renaming begins the commit, then one for each file.
    private static readonly int Renamings = 1 + Names.Length;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<int> EveryRenaming => [.. Enumerable.Range(0, 5)];

    [Fact]
    public void Every_renaming_is_tried() => Assert.Equal(Renamings, RunUntil(renaming: null));

    [Theory]
    [MemberData(nameof(EveryRenaming))]
    public void Killed_at_any_renaming_no_file_is_missing_and_a_mix_shows_in_the_summary(int renaming)
    {
        RunUntil(renaming: null, "old");
        RunUntil(renaming, "new");

        var versions = OldNames.ToDictionary(name => name, VersionOf);
        Assert.DoesNotContain("", versions.Values);
        Assert.Equal("old", versions["summary.json"]);
        var isMixed = versions.Values.Distinct().Count() > 1;
        Assert.Equal(renaming > 1, isMixed);
        Assert.Equal(isMixed, !SummaryFits());
    }

    [Theory]
    [MemberData(nameof(EveryRenaming))]
    public void Killed_at_any_renaming_the_next_run_makes_the_folder_whole(int renaming)
    {
        RunUntil(renaming: null, "old");
        RunUntil(renaming, "new");

        var leftover = Assert.Single(LeftoverRun.Repair(_folder["results"]));

        var (fate, version, names) = renaming == 0 ? (LeftoverFate.Removed, "old", OldNames) : (LeftoverFate.Finished, "new", Names);
        Assert.Equal(fate, leftover.Fate);
        Assert.All(names, name => Assert.Equal(version, VersionOf(name)));
        Assert.True(SummaryFits());
        Assert.Equal(names.Select(name => $"results/{name}").Prepend("results"), _folder.Entries);
        Assert.Empty(LeftoverRun.Repair(_folder["results"]));
    }

    [Fact]
    public void Killed_before_the_commit_the_older_run_stays_and_the_rest_is_removed()
    {
        RunUntil(renaming: null, "old");
        using (var killed = new OutputFolder(_folder["results"]))
        {
            killed.Add("metrics.csv", writer => writer.Write("half"));
            killed.Staging.Leave();
            Assert.Equal(LeftoverFate.Removed, Assert.Single(LeftoverRun.Repair(_folder["results"])).Fate);
        }

        Assert.Equal(OldNames.Select(name => $"results/{name}").Prepend("results"), _folder.Entries);
        Assert.All(OldNames, name => Assert.Equal("old", VersionOf(name)));
    }

    [Fact]
    public void Folder_of_a_run_that_still_writes_is_left_alone()
    {
        using var writing = new OutputFolder(_folder["results"]);
        writing.Add("metrics.csv", writer => writer.Write("new"));

        Assert.Equal(LeftoverFate.LeftAlone, Assert.Single(LeftoverRun.Repair(_folder["results"])).Fate);
        writing.Commit();

        Assert.Equal("new", File.ReadAllText(_folder["results/metrics.csv"]));
    }

    [Fact]
    public void Folder_without_a_lock_is_left_alone_and_told_from_one_that_a_run_holds()
    {
        Directory.CreateDirectory(_folder["results/.unfinished-abc"]);
        Assert.Equal(LeftoverFate.WithoutLock, Assert.Single(LeftoverRun.Repair(_folder["results"])).Fate);
        Assert.True(Directory.Exists(_folder["results/.unfinished-abc"]));
        Assert.Empty(LeftoverRun.Repair(_folder["none"]));
    }

    /// <summary>Writes the files and is killed just before a renaming, as far as one process can be: nothing is tidied up and its lock is gone.</summary>
    /// <returns>The number of renamings begun.</returns>
    private int RunUntil(int? renaming, string version = "new")
    {
        var begun = 0;
        var output = new OutputFolder(_folder["results"])
        {
            Renaming = () =>
            {
                if (begun++ == renaming)
                    throw new KilledException();
            },
        };
        foreach (var name in (version == "old" ? OldNames : Names)[..^1])
            output.Add(name, writer => writer.Write(version));
        output.AddSummary(Names[^1], writer => writer.Write($$"""{ "version": "{{version}}" }"""));
        try
        {
            output.Commit();
            output.Dispose();
        }
        catch (KilledException)
        {
            output.Staging.Leave();
        }

        return begun;
    }

    private string VersionOf(string name)
    {
        var path = _folder[$"results/{name}"];
        if (!File.Exists(path))
            return "";
        var text = File.ReadAllText(path);
        return name == Names[^1] ? JsonNode.Parse(text)!["version"]!.GetValue<string>() : text;
    }

    private bool SummaryFits() => JsonNode.Parse(File.ReadAllText(_folder["results/summary.json"]))!["files"]!.AsObject()
        .All(file => Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(_folder[$"results/{file.Key}"]))) == file.Value!.GetValue<string>());

    private sealed class KilledException : Exception;
}
