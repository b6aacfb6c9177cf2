using System.Text.Json.Nodes;

namespace RollRide.Tests.Live;

/// <summary>The live page for those who hear it, or see little: roles, names, headings and contrast, in a real browser.</summary>
[Collection(nameof(LiveBrowser))]
public sealed class ReadableTests(LiveBrowser browser)
{
    /// <summary>Contrast of each text against what lies under it (WCAG 2.1, success criterion 1.4.3), for those that miss 4.5 to 1.</summary>
    private const string FaintTexts =
        """
        (() => {
          const parse = text => { const p = text.match(/[\d.]+/g)?.map(Number); return p ? { rgb: p.slice(0, 3), a: p[3] ?? 1 } : null; };
          const over = (top, a, under) => top.map((part, i) => part * a + under[i] * (1 - a));
          const luminance = rgb => rgb.map(v => v / 255).map(v => v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4).reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
          const contrast = (a, b) => { const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p); return (x + 0.05) / (y + 0.05); };
          const opacity = e => { let all = 1; for (let at = e; at; at = at.parentElement) all *= parseFloat(getComputedStyle(at).opacity); return all; };
          // From the top down to the first that lets nothing through.
          const ground = (x, y) => {
            const layers = [];
            for (const e of document.elementsFromPoint(x, y)) {
              if (e.tagName === 'text') continue;
              const style = getComputedStyle(e);
              const isShape = e instanceof SVGGeometryElement;
              const colour = parse(isShape ? style.fill : style.backgroundColor);
              if (!colour || (isShape && style.fill === 'none')) continue;
              const a = colour.a * (isShape ? parseFloat(style.fillOpacity) : 1) * opacity(e);
              layers.push([colour.rgb, a]);
              if (a > 0.999) break;
            }
            return layers.reverse().reduce((under, [rgb, a]) => over(rgb, a, under), [255, 255, 255]);
          };
          // What a list has scrolled out of sight is not there to be read.
          const isSeen = (e, x, y) => document.elementsFromPoint(x, y).some(other => other === e || e.contains(other) || other.contains(e) && other.tagName === 'LABEL');
          const faint = [];
          // A dialog keeps the rest of the page out of reach.
          const reached = document.querySelector('dialog[open]') ?? document.body;
          const walker = document.createTreeWalker(reached, NodeFilter.SHOW_TEXT);
          let count = 0;
          while (walker.nextNode()) {
            const node = walker.currentNode;
            const e = node.parentElement;
            if (!node.textContent.trim() || !e.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true }) || e.closest('.unseen, option')) continue;
            const range = document.createRange();
            range.selectNodeContents(node);
            const box = range.getBoundingClientRect();
            const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
            if (box.width === 0 || !(e instanceof SVGElement || isSeen(e, x, y))) continue;
            const style = getComputedStyle(e);
            const isSvg = e instanceof SVGElement;
            const colour = parse(isSvg ? style.fill : style.color);
            // A halo in the colour of the paper lies under the letters of some labels.
            const halo = isSvg && style.paintOrder.startsWith('stroke') && style.stroke !== 'none' ? parse(style.stroke).rgb : null;
            const under = halo ?? ground(x, y);
            const seen = contrast(over(colour.rgb, colour.a * opacity(e), under), under);
            count++;
            if (seen < 4.5) faint.push(`${node.textContent.trim().slice(0, 40)} (${e.closest('[id]')?.id}): ${seen.toFixed(2)}`);
          }
          for (const e of reached.querySelectorAll('input:not([type=radio]):not([type=checkbox]):not([type=range]), select')) {
            const box = e.getBoundingClientRect();
            if (!isSeen(e, box.x + 3, box.y + box.height / 2)) continue;
            const under = ground(box.x + 3, box.y + box.height / 2);
            const seen = contrast(parse(getComputedStyle(e).color).rgb, under);
            count++;
            if (seen < 4.5) faint.push(`${e.id}: ${seen.toFixed(2)}`);
          }
          return { count, faint };
        })()
        """;

    [Theory]
    [InlineData("bump-then-corner.json")]
    [InlineData("placement.json")]
    [InlineData("valving.json")]
    public Task Everything_that_can_have_the_focus_says_what_it_is(string scenario) => browser.Show(scenario, async page =>
    {
        var focusable = (await page.Browser.FocusableAsync()).Where(element => element.Role is not ("RootWebArea" or "dialog")).ToArray();
        Assert.InRange(focusable.Length, 15, int.MaxValue);
        Assert.All(focusable, element => Assert.True(element.Name.Length > 0 && element.Role is not ("" or "generic" or "none"), $"{element.Role} “{element.Name}”"));
        // Two handles or fields of one name could not be told apart.
        Assert.Empty(focusable.Where(element => element.Role == "slider").GroupBy(element => element.Name).Where(group => group.Count() > 1).Select(group => group.Key));
    });

    [Fact]
    public Task Page_says_its_language_and_is_told_in_headings_and_regions() => browser.Show("bump-then-corner.json", async page =>
    {
        Assert.Equal("en", (string)(await page.Browser.EvaluateAsync("document.documentElement.lang"))!);
        Assert.NotEqual("", (string)(await page.Browser.EvaluateAsync("document.title"))!);
        var levels = ((JsonArray)(await page.Browser.EvaluateAsync("[...document.querySelectorAll('h1, h2, h3, h4')].filter(e => e.checkVisibility()).map(e => Number(e.tagName[1]))"))!).Select(level => (int)level!).ToArray();
        Assert.Equal(1, levels[0]);
        Assert.Single(levels, level => level == 1);
        Assert.All(levels.Zip(levels.Skip(1)), pair => Assert.True(pair.Second <= pair.First + 1, $"A heading of level {pair.Second} follows one of level {pair.First}."));
        Assert.Equal(0, (int)(await page.Browser.EvaluateAsync("[...document.querySelectorAll('main > section, figure, section')].filter(e => e.checkVisibility() && !e.getAttribute('aria-label') && !e.getAttribute('aria-labelledby')).length"))!);
        // Every cell of the table stands under a column's and beside a row's heading.
        Assert.Equal(0, (int)(await page.Browser.EvaluateAsync("[...document.querySelectorAll('.numbers th')].filter(th => !th.scope).length"))!);
        Assert.Equal("polite", (string)(await page.Browser.EvaluateAsync("document.getElementById('spoken').getAttribute('aria-live')"))!);
    });

    [Fact]
    public Task Verdict_is_spoken_once_the_hand_rests() => browser.Show("bump-then-corner.json", async page =>
    {
        var decision = await page.DecisionAsync();
        await page.Browser.WaitForAsync($"document.getElementById('spoken').textContent.includes({BrowserPage.Quoted(decision)})");
    });

    [Theory]
    [InlineData("bump-then-corner.json", false)]
    [InlineData("bump-then-corner.json", true)]
    [InlineData("placement.json", false)]
    [InlineData("placement.json", true)]
    public Task Every_text_stands_out_from_its_ground(string scenario, bool isDark) => browser.Show(scenario, async page =>
    {
        await page.Browser.SetMediaAsync("screen", isDark);
        await page.WriteAsync("vehicle.springs.rate_N_per_mm", "66.5");
        await page.DecisionAsync();
        await AssertReadableAsync(page);
        foreach (var button in (string[])["#undo", "#save"])
        {
            await page.Browser.HoverAsync(button);
            await AssertReadableAsync(page);
        }

        await page.Browser.ClickAsync("#save");
        await AssertReadableAsync(page);
        await page.Browser.KeyAsync("Escape");

        // With a fault the figures are those of before, and fainter; what is said of it is not.
        await page.WriteAsync("vehicle.springs.rate_N_per_mm", "-1");
        Assert.DoesNotContain((await FaintAsync(page)).Select(text => (string)text!), text => text.Contains("(faults)", StringComparison.Ordinal) || text.Contains("(status)", StringComparison.Ordinal));
    });

    private static async Task AssertReadableAsync(LivePage page) => Assert.Empty((await FaintAsync(page)).Select(text => (string)text!));

    private static async Task<JsonArray> FaintAsync(LivePage page)
    {
        await page.Browser.FrameAsync();
        var found = await page.Browser.EvaluateAsync(FaintTexts);
        Assert.InRange((int)found!["count"]!, 5, int.MaxValue);
        return found["faint"]!.AsArray();
    }
}
