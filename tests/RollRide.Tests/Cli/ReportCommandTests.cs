using RollRide.Cli.Terminals;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;
using SkiaSharp;

namespace RollRide.Tests.Cli;

public class ReportCommandTests
{
    [Fact]
    public async Task Report_writes_page_numbers_and_figures_in_the_formats_asked_for()
    {
        using var folder = new TemporaryFolder();

        var invocation = await Invocation.Of("report", ShortScenario.Pair().WriteTo(folder), "--out", folder["out"], "-f", "svg", "--format", "pdf");

        Assert.Equal(ExitCode.Done, invocation.ExitCode);
        string[] figures = ["body-acceleration", "damper-curves", "damper-velocity", "damping-over-velocity", "damping-ratios", "inputs", "mounts", "roll-angle", "tyre-loads"];
        string[] files = ["figures.pdf", "history-Inner.csv", "history-Outer.csv", "metrics.csv", "report.html", "sheet-plain.csv", "summary.json", .. figures.Select(name => $"{name}.svg")];
        Assert.Equal(files.Order(StringComparer.Ordinal), Directory.EnumerateFiles(folder["out"]).Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Report_replaces_its_own_older_files_and_leaves_others()
    {
        using var folder = new TemporaryFolder();
        var scenario = ShortScenario.Pair().WriteTo(folder);
        Directory.CreateDirectory(folder["out"]);
        folder.Write("out/report.html", "old");
        folder.Write("out/minutes.txt", "mine");

        await Invocation.Of("report", scenario, "--out", folder["out"]);

        Assert.StartsWith("<!DOCTYPE html>", File.ReadAllText(folder["out/report.html"]), StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(folder["out/minutes.txt"]));
    }

    [Fact]
    public async Task Report_into_a_file_is_refused()
    {
        using var folder = new TemporaryFolder();
        folder.Write("taken", "");

        (await Invocation.Of("report", ShortScenario.Pair().WriteTo(folder), "--out", folder["taken"])).Refused(ExitCode.BadInput, "taken");
    }

    [Fact]
    public async Task Report_unknown_baseline_is_refused_with_the_known_names()
    {
        using var folder = new TemporaryFolder();

        (await Invocation.Of("report", ShortScenario.Pair().WriteTo(folder), "--baseline", "Middle", "--out", folder["out"]))
            .Refused(ExitCode.BadInput, "Middle", "Outer, Inner");
        Assert.Equal(["short.json"], folder.Entries);
    }

    [Theory] // The second layout has more roll damping, and is chosen.
    [InlineData("Outer")]
    [InlineData("Inner", "--baseline", "Inner")]
    public async Task Report_moves_the_dampers_of_the_layout_chosen_or_of_the_baseline_named(string moved, params string[] baseline)
    {
        using var folder = new TemporaryFolder();

        var made = await Invocation.Of(["report", ShortScenario.Of(("Inner", 0.3), ("Outer", 0.8)).WriteTo(folder), .. baseline, "--out", folder["out"]]);

        Assert.True(made.ExitCode == ExitCode.Done, made.Error);
        Assert.Contains($"The dampers of “{moved}” are moved sideways", await File.ReadAllTextAsync(folder["out/report.html"], TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(new string[] { }, 640, 360)]
    [InlineData(new[] { "--size", "900x500" }, 900, 500)]
    [InlineData(new[] { "--dpi", "384" }, 3200, 1800)] // of the same page of 800 × 450 units of 1/96 inch
    [InlineData(new[] { "--dpi", "96", "--size", "900x500" }, 900, 500)]
    public async Task Compare_figures_have_the_size_asked_for(string[] options, int width, int height)
    {
        using var folder = new TemporaryFolder();

        var invocation = await Invocation.Of(["compare", ShortScenario.Pair().WriteTo(folder), "--out", folder["out"], .. options]);

        Assert.Equal((ExitCode.Done, ""), (invocation.ExitCode, invocation.Error));
        using var picture = SKBitmap.Decode(folder["out/roll-angle.png"]);
        Assert.Equal((width, height), (picture.Width, picture.Height));
    }

    [Theory]
    [InlineData("--size", "900")]
    [InlineData("--size", "900x")]
    [InlineData("--size", "100x900")]
    [InlineData("--size", "9e2x500")]
    [InlineData("--dpi", "47")]
    [InlineData("--dpi", "NaN")]
    [InlineData("--dpi", "1,92")]
    [InlineData("--format", "gif")]
    public async Task Compare_bad_figure_option_is_refused_with_what_is_accepted(string option, string value) =>
        (await Invocation.Of("compare", "any.json", option, value)).Refused(ExitCode.BadInput, value);

    [Fact]
    public async Task Compare_figure_too_small_for_its_text_is_refused()
    {
        using var folder = new TemporaryFolder();

        (await Invocation.Of("compare", ShortScenario.Pair().WriteTo(folder), "--size", "300x200", "--dpi", "192", "--out", folder["out"]))
            .Refused(ExitCode.BadInput, "too small", "--size");
        Assert.Equal(["short.json"], folder.Entries);
    }

    [Fact]
    public async Task Quiet_prints_nothing_and_writes_the_same_files()
    {
        using var folder = new TemporaryFolder();

        var invocation = await Invocation.Of("compare", ShortScenario.Pair().WriteTo(folder), "--no-plots", "--quiet", "--out", folder["out"]);

        Assert.Equal(new Invocation(ExitCode.Done, "", ""), invocation);
        Assert.Contains("out/summary.json", folder.Entries.Select(entry => entry.Replace('\\', '/')));
    }

    [Theory]
    [InlineData("compare")]
    [InlineData("simulate")]
    public async Task Json_prints_the_summary_alone(string command)
    {
        using var folder = new TemporaryFolder();

        var invocation = await Invocation.Of(command, ShortScenario.Pair().WriteTo(folder), "--no-plots", "--json", "--out", folder["out"]);

        Assert.Equal(File.ReadAllText(folder["out/summary.json"]), invocation.Output.ReplaceLineEndings("\n"));
    }

    [Fact]
    public async Task No_command_writes_colour()
    {
        using var folder = new TemporaryFolder();
        var scenario = ShortScenario.Pair().WriteTo(folder);

        foreach (string[] args in new string[][] { ["--help"], ["check", scenario], ["compare", scenario, "--no-plots", "--out", folder["out"]] })
        {
            var invocation = await Invocation.Of(args);
            Assert.DoesNotContain('\u001b', invocation.Output + invocation.Error);
        }
    }
}
