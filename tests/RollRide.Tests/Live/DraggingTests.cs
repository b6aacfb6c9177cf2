using System.Globalization;
using System.Text.Json.Nodes;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Tests.Live;

/// <summary>Dampers and their curves in the hand, on the live page in a real browser.</summary>
[Collection(nameof(LiveBrowser))]
public sealed class DraggingTests(LiveBrowser browser)
{
    private const string AxleEnd = "layouts[0].placement.mounts.axleEnd_mm1";
    private const string BodyEnd = "layouts[0].placement.mounts.bodyEnd_mm1";
    private const string FromTheLeft = "layouts[0].placement.mounts.axleEnd_mm0";

    [Fact]
    public Task Motion_ratios_shown_are_those_of_the_mounts_shown() => browser.Show("bump-then-corner.json", async page =>
    {
        await page.DragAcrossAsync(AxleEnd, 560);
        await page.DragUpAsync(BodyEnd, 705);

        var (axle, body) = (await page.NumbersOfAsync(AxleEnd), await page.NumbersOfAsync(BodyEnd));
        // Virtual work: the damper's share of a displacement is the component along its own line. In heave the body end rises; in roll it turns
        // about the roll centre, 500 mm above the road, and the wheel's share is half the track of 1660 mm.
        var (across, up) = (body[0] - axle[0], body[1] - axle[1]);
        var length = Math.Sqrt((across * across) + (up * up));
        var heave = up / length;
        var roll = ((body[0] * up) - ((body[1] - 500) * across)) / length / 830;
        var numbers = await page.NumbersAsync();
        foreach (var (key, expected) in new[] { ("heaveRatio", heave), ("rollRatio", roll) })
        {
            var (text, value) = numbers[("Outboard", key)];
            Assert.Equal(expected, value!.Value, 1e-12);
            Assert.Equal(expected.ToString("F3", CultureInfo.InvariantCulture), text);
        }
    });

    [Fact]
    public Task Roll_damping_falls_with_the_square_of_the_motion_ratio() => browser.Show("bump-then-corner.json", async page =>
    {
        async Task<(double Ratio, double Damping)> LookAsync() => (await page.NumberAsync("Outboard", "rollRatio"), await page.NumberAsync("Outboard", "rollDampingRatioAtTargets"));
        var before = await LookAsync();
        foreach (var end in (string[])[AxleEnd, BodyEnd])
            await page.DragAcrossAsync(end, 450);

        var after = await LookAsync();
        var share = after.Ratio / before.Ratio;
        Assert.InRange(share, 0.65, 0.75);
        // The tyres damp a little of their own.
        Assert.Equal(share * share, after.Damping / before.Damping, 0.02);
    });

    [Fact]
    public Task Damper_in_the_rail_is_said_to_be_impossible_with_what_is_in_the_way() => browser.Show("placement.json", async page =>
    {
        Assert.Contains("fits", await page.TextAsync("#place"), StringComparison.Ordinal);
        await page.DragAcrossAsync(BodyEnd, 440);

        var said = await page.TextAsync("#place");
        Assert.StartsWith("Does not fit: ", said, StringComparison.Ordinal);
        Assert.Contains("frame rail", said, StringComparison.Ordinal);
        Assert.NotEqual(0, (int)(await page.Browser.EvaluateAsync("[...document.querySelectorAll('#drawing .tube')].filter(tube => getComputedStyle(tube).fill.includes('hatch')).length"))!);

        // As the library has it of the mounts that the page shows.
        var document = JsonNode.Parse(await File.ReadAllTextAsync(page.Served.File, TestContext.Current.CancellationToken), documentOptions: new() { CommentHandling = System.Text.Json.JsonCommentHandling.Skip, AllowTrailingCommas = true })!;
        document["layouts"]![0]!["placement"] = (await page.Browser.EvaluateAsync("rollride.app.document.layouts[0].placement"))!.DeepClone();
        var study = ScenarioReader.Read(page.Folder.Write("dragged.json", document.ToJsonString())).Study;
        var place = PlaceCheck.Of(study.InEachLoad[0], study.Layouts[0], TestContext.Current.CancellationToken)!;
        Assert.All(place.InTheWay, contact => Assert.Contains(contact.Words, said, StringComparison.Ordinal));

        await page.DragAcrossAsync(BodyEnd, 629.2);
        Assert.Contains("fits", await page.TextAsync("#place"), StringComparison.Ordinal);
    });

    [Fact]
    public Task Damper_stands_where_it_is_said_to_fit_or_not_while_the_hand_is_ahead() => browser.Show("placement.json", async page =>
    {
        const string Seen = "(() => { const at = name => document.querySelector(name); return JSON.stringify([at('#drawing .line.selected').getAttribute('d'), at('#place').textContent, at('#drawing .tube').getAttribute('class')]); })()";
        async Task<string> SeenAsync() => (string)(await page.Browser.EvaluateAsync(Seen))!;
        var fits = await SeenAsync();
        Assert.Contains("fits", fits, StringComparison.Ordinal);
        await page.Browser.EvaluateAsync("(() => { const send = WebSocket.prototype.send; const held = new Promise(go => { window.letGo = go; }); WebSocket.prototype.send = async function (question) { await held; send.call(this, question); }; })()");
        var (x, y) = await page.Browser.MiddleOfAsync(LivePage.Selector(BodyEnd));
        await page.Browser.PressAsync(x, y);
        const double Step = 20, Rail = 440;
        async Task<double> InHandAsync(double pixels)
        {
            await page.Browser.MoveAsync(x + pixels, y);
            await page.Browser.FrameAsync();
            return (await page.NumbersOfAsync(BodyEnd))[0];
        }

        var before = (await page.NumbersOfAsync(BodyEnd))[0];
        var pixels = Step * (Rail - before) / (await InHandAsync(Step) - before);

        // The ring is in the hand; damper, words and hatching are still those of the last answer.
        Assert.Equal(Rail, await InHandAsync(pixels), 10.0);
        Assert.Equal(fits, await SeenAsync());

        await page.Browser.EvaluateAsync("letGo()");
        await page.SettleAsync();
        var moved = await SeenAsync();
        Assert.Contains("Does not fit", moved, StringComparison.Ordinal);
        Assert.Contains("inTheWay", moved, StringComparison.Ordinal);
        Assert.NotEqual(fits, moved);
        await page.Browser.ReleaseAsync(x + pixels, y);
    });

    [Fact]
    public Task Column_of_the_file_stays_while_a_drag_passes_its_place() => browser.Show("bump-then-corner.json", async page =>
    {
        async Task<int> ColumnsAsync() => (int)(await page.Browser.EvaluateAsync("document.querySelectorAll('#columns .asGiven').length"))!;
        var (x, y) = await page.Browser.MiddleOfAsync(LivePage.Selector(AxleEnd));
        await page.Browser.PressAsync(x, y);
        await page.Browser.MoveAsync(x + 20, y);
        await page.SettleAsync();
        Assert.NotEmpty((await page.StateAsync())["edits"]!.AsArray());
        Assert.Equal(1, await ColumnsAsync());

        await page.Browser.MoveAsync(x, y);
        await page.SettleAsync();
        Assert.Empty((await page.StateAsync())["edits"]!.AsArray());
        Assert.Equal(1, await ColumnsAsync());

        await page.Browser.ReleaseAsync(x, y);
        await page.SettleAsync();
        Assert.Equal(0, await ColumnsAsync());
    });

    [Fact]
    public Task Side_view_moves_an_end_forward_and_leaves_the_rear_view_as_it_is() => browser.Show("bump-then-corner.json", async page =>
    {
        var before = await page.NumbersOfAsync(AxleEnd);
        await page.DragAcrossAsync(FromTheLeft, -60);
        Assert.Equal(before, await page.NumbersOfAsync(AxleEnd));
        // Leaning fore and aft takes from heave.
        Assert.InRange(await page.NumberAsync("Outboard", "heaveRatio"), 0.98, 0.9999);
    });

    [Fact]
    public Task Point_of_a_curve_is_dragged_and_saved_as_a_new_file() => browser.Show("bump-then-corner.json", async page =>
    {
        const string Dyno = "valley-damper-dyno.csv";
        var old = await File.ReadAllTextAsync(page.Folder[Dyno], TestContext.Current.CancellationToken);
        var damping = await page.NumberAsync("Outboard", "heaveDampingRatioAtTargets");
        var handle = (string)(await page.Browser.EvaluateAsync("[...document.querySelectorAll('#curve .handle')].at(-1).dataset.handle"))!;
        var force = (await page.NumbersOfAsync(handle))[0];
        await page.DragForceAsync(handle, force * 0.6);
        var now = (await page.NumbersOfAsync(handle))[0];

        Assert.StartsWith("Saved: softer.json, valley-damper-dyno-edited.csv", await page.SaveAsync("softer.json"), StringComparison.Ordinal);
        Assert.Equal(old, await File.ReadAllTextAsync(page.Folder[Dyno], TestContext.Current.CancellationToken));
        Assert.Contains("\"dyno\": \"valley-damper-dyno-edited.csv\"", await File.ReadAllTextAsync(page.Folder["softer.json"], TestContext.Current.CancellationToken), StringComparison.Ordinal);
        var saved = ScenarioReader.Read(page.Folder["softer.json"]).Study;
        var velocity = (double)(await page.Browser.EvaluateAsync("rollride.app.session.state.files[0].rows.at(-1)[0]"))!;

        // The new file is the old one, comments and all, with one force changed.
        var (before, after) = (old.Split('\n'), (await File.ReadAllTextAsync(page.Folder["valley-damper-dyno-edited.csv"], TestContext.Current.CancellationToken)).Split('\n'));
        Assert.Equal(before.Length, after.Length);
        var (written, changed) = Assert.Single(before.Zip(after), line => line.First != line.Second);
        Assert.Equal((written.Split(',')[0], now), (changed.Split(',')[0], double.Parse(changed.Split(',')[1], CultureInfo.InvariantCulture)));
        Assert.Equal(now, saved.Layouts[0].Damper.Curve.Force(velocity), 1e-6 * now);
        Assert.Equal(damping, await page.NumberAsync("Outboard", "heaveDampingRatioAtTargets"), 1e-12); // far above the reference velocity
    });
}
