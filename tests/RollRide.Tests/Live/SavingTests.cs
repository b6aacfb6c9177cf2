using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using RollRide.Cli.Terminals;
using RollRide.Tests.Cli;

namespace RollRide.Tests.Live;

/// <summary>What the live page saves, and what the commands make of it.</summary>
[Collection(nameof(OtherLiveBrowser))]
public sealed class SavingTests(LiveBrowser browser)
{
    private const string AxleEnd = "layouts[0].placement.mounts.axleEnd_mm1";
    private const string BodyEnd = "layouts[0].placement.mounts.bodyEnd_mm1";

    [Fact]
    public Task Numbers_on_the_page_are_those_of_compare_on_the_saved_scenario() => browser.Show("bump-then-corner.json", async page =>
    {
        await page.DragAcrossAsync(AxleEnd, 571);
        await page.DragAcrossAsync(BodyEnd, 543);
        await page.WriteAsync("vehicle.springs.rate_N_per_mm", "66.5");
        var (numbers, decision) = (await page.NumbersAsync(), await page.DecisionAsync());
        Assert.StartsWith("Saved: mine.json", await page.SaveAsync("mine.json"), StringComparison.Ordinal);

        var compare = await Invocation.Of("compare", page.Folder["mine.json"], "--no-plots", "--out", page.Folder["results"]);
        Assert.True(compare.ExitCode == ExitCode.Done, compare.Error);
        var written = Written(page.Folder["results"]);
        var (full, printed) = (0, 0);
        foreach (var ((layout, key), (text, value)) in numbers.Where(number => number.Key.Layout != "given"))
        {
            if (written.TryGetValue((layout, key), out var expected))
            {
                Assert.True(expected == value, $"{layout}, {key}: {value} on the page, {expected} from compare");
                full++;
            }

            var label = (string)(await page.Browser.EvaluateAsync($"rollride.app.answers.get({BrowserPage.Quoted(layout)}).rows.find(row => row.key === '{key}').label"))!;
            if (Printed(compare.Output, label) is { } cells)
            {
                Assert.Equal(cells[layout], text.TrimStart('✗', ' '));
                printed++;
            }
        }

        // All but the stroke left, which compare does not write, and what it tells of each phase alone.
        Assert.InRange(full, 3 * 20, int.MaxValue);
        Assert.InRange(printed, 3 * 15, int.MaxValue);
        Assert.Contains(decision, compare.Output, StringComparison.Ordinal);
        Assert.NotEqual("", decision);

        // Opened again it shows the same.
        await using var server = await ServedScenario.ServeAsync(page.Folder["mine.json"]);
        await using var reopened = await LivePage.OpenAsync(await browser.StartedAsync(), page.Served, server.Address);
        Assert.Equal(numbers.Where(number => number.Key.Layout != "given").OrderBy(number => number.Key), (await reopened.NumbersAsync()).OrderBy(number => number.Key));
    });

    [Fact]
    public Task Saved_text_differs_from_the_file_in_just_the_places_changed() => browser.Show("bump-then-corner.json", async page =>
    {
        var text = await File.ReadAllTextAsync(page.Served.File, TestContext.Current.CancellationToken);
        await page.DragAcrossAsync(AxleEnd, 571);
        await page.WriteAsync("vehicle.springs.rate_N_per_mm", "66.5");
        await page.WriteAsync("manoeuvre.speed_km_per_h", "72");
        var shown = await page.NumbersOfAsync(AxleEnd);
        await page.SaveAsync("mine.json");

        var axleEnd = string.Create(CultureInfo.InvariantCulture, $"[-120, {shown[0]}, 300]");
        var expected = text
            .Replace("\"axleEnd_mm\": [-120, 639, 300]", $"\"axleEnd_mm\": {axleEnd}", StringComparison.Ordinal)
            .Replace("\"rate_N_per_mm\": 62,", "\"rate_N_per_mm\": 66.5,", StringComparison.Ordinal)
            .Replace("\"speed_km_per_h\": 60,", "\"speed_km_per_h\": 72,", StringComparison.Ordinal);
        Assert.Equal(expected, await File.ReadAllTextAsync(page.Folder["mine.json"], TestContext.Current.CancellationToken));
        Assert.Equal(text, await File.ReadAllTextAsync(page.Served.File, TestContext.Current.CancellationToken));
    });

    [Fact]
    public Task Original_is_not_replaced_without_asking() => browser.Show("bump-then-corner.json", async page =>
    {
        var text = await File.ReadAllTextAsync(page.Served.File, TestContext.Current.CancellationToken);
        await page.DragAcrossAsync(AxleEnd, 571);
        Assert.Contains("already", await page.SaveAsync("bump-then-corner.json"), StringComparison.Ordinal);
        Assert.Equal("Replace bump-then-corner.json", await page.TextAsync("#saveButton"));
        Assert.Equal(text, await File.ReadAllTextAsync(page.Served.File, TestContext.Current.CancellationToken));
        await page.Browser.KeyAsync("Escape");

        foreach (var name in (string[])["../mine.json", ".mine.json", "mine.csv", "/mine.json"])
        {
            Assert.DoesNotContain("Saved", await page.SaveAsync(name), StringComparison.Ordinal);
            await page.Browser.KeyAsync("Escape");
        }

        Assert.Equal(Directory.EnumerateFiles(Scenarios.Shipped.PathOf("scenarios")).Count(), page.Folder.Entries.Length);
    });

    /// <summary>Every number that compare writes of the whole run, by layout and key.</summary>
    private static Dictionary<(string, string), double?> Written(string folder)
    {
        var written = new Dictionary<(string, string), double?>();
        var table = File.ReadAllLines(Path.Combine(folder, "metrics.csv")).Select(line => line.Split(',')).ToArray();
        foreach (var row in table.Where(row => row[1] == "run"))
        {
            for (var column = 2; column < row.Length; column++)
                written[(row[0], table[0][column])] = row[column].Length == 0 ? null : double.Parse(row[column], CultureInfo.InvariantCulture);
        }

        foreach (var layout in JsonNode.Parse(File.ReadAllText(Path.Combine(folder, "summary.json")))!["layouts"]!.AsArray())
        {
            var name = (string)layout!["name"]!;
            foreach (var mode in layout["modes"]!.AsArray())
                written[(name, $"{mode!["name"]}NaturalFrequency_Hz")] = (double)mode["naturalFrequency_Hz"]!;

            // Of those that have a target the page tells the damping ratio at the targets' velocity.
            foreach (var mode in layout["modesByDamperVelocity"]!.AsArray().Single(at => (double)at!["damperVelocity_m_per_s"]! == 0.13)!["modes"]!.AsArray())
            {
                foreach (var key in (string[])["DampingRatio", "DampingRatioAtTargets"])
                    written[(name, $"{mode!["name"]}{key}")] = (double)mode["dampingRatio"]!;
            }
        }

        return written;
    }

    /// <summary>The first row of compare's table with a label, by layout; null where it prints none, or one for a phase alone.</summary>
    private static Dictionary<string, string>? Printed(string output, string label)
    {
        string[] layouts = ["Outboard", "Inboard of the rail", "At the centre"];
        var whole = output.Split("[bump]")[0];
        var row = Regex.Match(whole, $"^{Regex.Escape(label)} {{2,}}(.*)$", RegexOptions.Multiline);
        if (!row.Success)
            return null;
        var cells = Regex.Split(row.Groups[1].Value.Trim(), " {2,}")[^layouts.Length..];
        return layouts.Zip(cells).ToDictionary(pair => pair.First, pair => pair.Second);
    }
}
