using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using RollRide.Cli.Terminals;
using RollRide.Dynamics;
using RollRide.Report;
using RollRide.Report.Chapters;
using RollRide.Studies;
using RollRide.Tests.Cli;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Live;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Report;

/// <summary>The report in a real browser: what its script does, and how it prints.</summary>
public class ReportInBrowserTests
{
    private static readonly Lazy<(RecordedComparison Result, string Page)> Pair = new(Write);

    /// <summary>What the tests ask of the page, by name: all in one browser, one after the other; none minds what the one before it leaves.</summary>
    private static readonly Dictionary<string, string> Questions = new()
    {
        ["readout"] =
            """
            const panel = [...document.querySelectorAll(".time-panel")].find(group => group.dataset.quantity === "Body roll angle" && !group.closest(".frames"));
            const svg = panel.ownerSVGElement;
            const [left, top, width, height] = panel.dataset.area.split(" ").map(Number);
            const [from, to] = panel.dataset.time.split(" ").map(Number);
            svg.scrollIntoView();
            const at = new DOMPoint(left + (1.5 - from) / (to - from) * width, top + height / 2).matrixTransform(svg.getScreenCTM());
            svg.dispatchEvent(new PointerEvent("pointermove", { clientX: at.x, clientY: at.y, bubbles: true }));
            const pictures = new Set([...document.querySelectorAll(".cursor")].map(cursor => cursor.ownerSVGElement));
            return { pictures: pictures.size, texts: [...svg.querySelectorAll(".cursor text")].map(text => text.textContent) };
            """,
        ["layouts"] =
            """
            const seen = name => [...document.querySelectorAll("[data-layout]")].filter(element => element.dataset.layout === name && element.style.display !== "none").length;
            const box = document.querySelector("#controls input");
            const before = seen("Outer");
            box.click();
            const [hidden, other] = [seen("Outer"), seen("Inner")];
            box.click();
            return { before, hidden, other, after: seen("Outer"), controls: document.getElementById("controls").hidden };
            """,
        ["slider"] =
            """
            const slider = document.querySelector(".slider input");
            const shown = () => [...document.querySelectorAll(".frame")].filter(frame => !frame.hidden).map(frame => frame.dataset.value);
            const first = shown().join("|");
            const at = [];
            for (const value of [0, 2, 1]) {
              slider.value = value;
              slider.dispatchEvent(new Event("input"));
              at.push([...shown(), document.querySelector(".slider output").textContent].join("|"));
            }
            dispatchEvent(new Event("beforeprint"));
            const printed = shown().join("|");
            dispatchEvent(new Event("afterprint"));
            return { first, at, printed, after: shown().join("|") };
            """,
        ["text"] =
            """
            const text = [...document.querySelectorAll("figure:not([hidden]) text")].find(element => element.textContent === "Time [s]");
            return { loaded: [...document.fonts].filter(font => font.status === "loaded").length, width: text.getComputedTextLength() };
            """,
    };

    private static readonly Lazy<Task<JsonNode>> Answers = new(AskAsync);

    [Fact]
    public async Task Readout_gives_every_curve_at_the_instant_under_the_pointer()
    {
        var answer = await AnswerAsync("readout");

        Assert.True((int)answer["pictures"]! >= 5, "Every picture with a panel over time must show the instant.");
        var texts = answer["texts"]!.AsArray().Select(text => (string)text!).ToArray();
        Assert.Contains(texts, text => text.StartsWith("1.50", StringComparison.Ordinal) && text.EndsWith(" s", StringComparison.Ordinal));
        foreach (var layout in Pair.Value.Result.Layouts)
        {
            // The picture's first panel is the manoeuvre; beside it stands the corner by itself.
            var told = texts.First(text => text.StartsWith(layout.Name, StringComparison.Ordinal));
            var roll = layout.History[Channel.BodyRoll][(int)(1.5 * layout.History.Rate)] * 180 / Math.PI;
            // A picture's coordinates have two decimals of some hundred units for a few degrees, and the pointer meets a time to a millisecond.
            Assert.Equal(roll, double.Parse(told.Split(' ')[1].Replace('−', '-'), CultureInfo.InvariantCulture), 0.05);
        }
    }

    [Fact]
    public async Task Layouts_can_be_hidden_and_shown()
    {
        var answer = await AnswerAsync("layouts");

        Assert.Equal(0, (int)answer["hidden"]!);
        Assert.True((int)answer["other"]! > 10);
        Assert.Equal((int)answer["before"]!, (int)answer["after"]!);
        Assert.False((bool)answer["controls"]!);
    }

    [Fact]
    public async Task Slider_shows_one_position_at_a_time()
    {
        var answer = await AnswerAsync("slider");

        Assert.Equal(["0 mm|0 mm", "348 mm|348 mm", "240 mm, where “Inner” sits|240 mm, where “Inner” sits"], answer["at"]!.AsArray().Select(value => (string)value!));
        Assert.Equal("640 mm, as given", (string)answer["first"]!);
        Assert.Equal("640 mm, as given", (string)answer["printed"]!);
        Assert.Equal("240 mm, where “Inner” sits", (string)answer["after"]!);
    }

    [Fact]
    public async Task Text_of_figures_is_set_in_the_typeface_that_the_page_carries()
    {
        var answer = await AnswerAsync("text");

        Assert.Equal(2, (int)answer["loaded"]!);
        // As wide as the figure was laid out for; the browser may round each of the eight letters a little.
        Assert.Equal(RollRide.Plots.PlotFont.Width("Time [s]", RollRide.Plots.Theme.AxisTitleSize), (double)answer["width"]!, 0.5);
    }

    [Theory]
    [InlineData("bump-then-corner.json", 9)]
    [InlineData("placement.json", 14)] // the one with most figures
    [InlineData("sweep-load-states.json", 14)]
    public async Task Print_is_short_and_page_one_fits_one_sheet_of_A4_and_of_Letter(string scenario, int most)
    {
        Assert.SkipWhen(Chromium.Path is null, Chromium.IsMissing);
        using var folder = new TemporaryFolder();
        var made = await Invocation.Of("report", Shipped.Scenario(scenario), "--out", folder["report"]);
        Assert.True(made.ExitCode == ExitCode.Done, made.Error);
        var page = await File.ReadAllTextAsync(folder["report/report.html"], TestContext.Current.CancellationToken);
        var end = page.IndexOf("</section>", StringComparison.Ordinal) + "</section>".Length;
        var first = page[..end] + "</main></body></html>";

        Assert.InRange((await PagesAsync(folder, page, "A4")).Length, 4, most);
        Assert.Single(await PagesAsync(folder, first, "A4"));
        Assert.Single(await PagesAsync(folder, first, "Letter"));
    }

    [Theory]
    [InlineData("dual-tyre.json")] // remedies in many words
    [InlineData("rescue-van-whole.json")]
    public async Task Nothing_is_wider_than_the_paper_which_would_make_every_letter_of_the_print_smaller(string scenario)
    {
        Assert.SkipWhen(Chromium.Path is null, Chromium.IsMissing);
        using var folder = new TemporaryFolder();
        var made = await Invocation.Of("report", Shipped.Scenario(scenario), "--out", folder["report"]);
        Assert.True(made.ExitCode == ExitCode.Done, made.Error);

        // As it prints, on a page as wide as A4 in landscape between its margins of 11 mm, at 96 px to the inch; the test's copy allows its script.
        var page = Regex.Replace(await File.ReadAllTextAsync(folder["report/report.html"], TestContext.Current.CancellationToken), "<meta http-equiv=\"Content-Security-Policy\"[^>]*>", "");
        const string asking =
            """
            <script>
            addEventListener("load", () => {
              const width = (297 - 2 * 11) / 25.4 * 96;
              document.body.style.width = `${width}px`;
              const result = document.createElement("pre");
              result.textContent = JSON.stringify([...document.querySelectorAll("body *")].filter(element => !element.closest("svg") && element.getBoundingClientRect().right > width + 1).map(element => `${element.tagName}: ${element.textContent.slice(0, 60)}`));
              result.id = "test-result";
              document.body.append(result);
            });
            </script></body>
            """;
        var path = folder.Write("wide.html", page.Replace("@media print", "@media all", StringComparison.Ordinal).Replace("@media screen", "@media speech", StringComparison.Ordinal).Replace("</body>", asking, StringComparison.Ordinal));

        Assert.Equal("[]", await Browser.ResultAsync(path, folder["profile"], TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Print_is_in_landscape()
    {
        Assert.SkipWhen(Chromium.Path is null, Chromium.IsMissing);
        using var folder = new TemporaryFolder();

        Assert.All(await PagesAsync(folder, Pair.Value.Page, null), page => Assert.True(page.Width > page.Height, "A page stands upright."));
    }

    /// <summary>The pages of a printed document on sheets of a size, or of the browser's own.</summary>
    private static async Task<(double Width, double Height)[]> PagesAsync(TemporaryFolder folder, string page, string? sheet)
    {
        const string AnySize = "size: landscape;";
        Assert.Contains(AnySize, page, StringComparison.Ordinal);
        var path = folder.Write("print.html", sheet is null ? page : page.Replace(AnySize, $"size: {sheet} landscape;", StringComparison.Ordinal));
        await Browser.PrintAsync(path, folder["profile"], folder["print.pdf"], TestContext.Current.CancellationToken);
        var pdf = Encoding.Latin1.GetString(await File.ReadAllBytesAsync(folder["print.pdf"], TestContext.Current.CancellationToken));
        return [.. Regex.Matches(pdf, @"/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]")
            .Select(box => (double.Parse(box.Groups[1].Value, CultureInfo.InvariantCulture), double.Parse(box.Groups[2].Value, CultureInfo.InvariantCulture)))];
    }

    private static async Task<JsonNode> AnswerAsync(string question)
    {
        Assert.SkipWhen(Chromium.Path is null, Chromium.IsMissing);
        var answer = (await Answers.Value)[question]!;
        Assert.Null((string?)(answer as JsonObject)?["fault"]);
        return answer;
    }

    private static async Task<JsonNode> AskAsync()
    {
        using var folder = new TemporaryFolder();
        // The page allows no script but its own; the test's copy does.
        var page = Regex.Replace(Pair.Value.Page, "<meta http-equiv=\"Content-Security-Policy\"[^>]*>", "");
        var asked = string.Join(",\n", Questions.Select(question => $"{question.Key}: () => {{ {question.Value} }}"));
        var asking =
            $$"""
            <script>
            addEventListener("load", () => setTimeout(() => document.fonts.ready.then(() => {
              const result = document.createElement("pre");
              result.id = "test-result";
              const answer = ask => { try { return ask(); } catch (fault) { return { fault: String(fault) }; } };
              result.textContent = JSON.stringify(Object.fromEntries(Object.entries({ {{asked}} }).map(([name, ask]) => [name, answer(ask)])));
              document.body.append(result);
            }), 100));
            </script></body>
            """;
        var path = folder.Write("report.html", page.Replace("</body>", asking, StringComparison.Ordinal));
        return JsonNode.Parse(await Browser.ResultAsync(path, folder["profile"], TestContext.Current.CancellationToken))!;
    }

    private static (RecordedComparison Result, string Page) Write()
    {
        var read = ShortScenario.Pair().Read();
        var result = Comparison.Record(read.Study, cancellation: TestContext.Current.CancellationToken);
        var input = new ReportInput
        {
            Scenario = read,
            Comparison = result,
            Studies = ReportStudies.Run(result.Study, cancellation: TestContext.Current.CancellationToken),
            Verdict = Verdict.Of([new ComparisonFindings(result.Result)], TestContext.Current.CancellationToken),
            Changes = Verdict.Of([new ComparisonFindings(result.Result)], TestContext.Current.CancellationToken).AllChanges(TestContext.Current.CancellationToken),
            Positions = PositionSweep.Run(read.Study, read.Study.Layouts[0], 3, cancellation: TestContext.Current.CancellationToken),
        };
        return (result, ReportPage.Write(input, ChapterList.FirstPage, ChapterList.InOrderOfArgument).Page);
    }
}
