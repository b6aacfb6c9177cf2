namespace RollRide.Tests.Live;

/// <summary>The vehicle's numbers in fields of the live page, in a real browser.</summary>
[Collection(nameof(LiveBrowser))]
public sealed class FieldsTests(LiveBrowser browser)
{
    private const string Spring = "vehicle.springs.rate_N_per_mm";

    [Fact]
    public Task Stiffer_springs_raise_the_heave_frequency_by_their_root() => browser.Show("bump-then-corner.json", async page =>
    {
        var before = await page.NumberAsync("Outboard", "heaveNaturalFrequency_Hz");
        await page.WriteAsync(Spring, "68.2");
        // The tyres are in series with the springs: the body stands on k·c/(k + c) at each side.
        static double InSeries(double spring) => spring * 290 / (spring + 290);
        // The axle's mass and the dampers take a little of the 4 %.
        Assert.Equal(Math.Sqrt(InSeries(68.2) / InSeries(62)), await page.NumberAsync("Outboard", "heaveNaturalFrequency_Hz") / before, 0.004);
    });

    [Fact]
    public Task Field_tells_unit_limits_and_meaning() => browser.Show("bump-then-corner.json", async page =>
    {
        await page.Browser.ClickAsync(LivePage.Field("vehicle.body.mass_kg"));
        await page.Browser.FrameAsync();
        var about = await page.TextAsync("#about");
        Assert.Contains("1350 kg", about, StringComparison.Ordinal);
        Assert.Contains("t least", about, StringComparison.Ordinal);
    });

    [Theory]
    [InlineData("-5", "a number from 0.01 to 100000 is expected")]
    [InlineData("6,2", "decimal point")]
    [InlineData("stiff", "number")]
    public Task What_a_field_cannot_take_is_said_beside_it_and_the_last_figures_stay(string text, string said) => browser.Show("bump-then-corner.json", async page =>
    {
        var before = await page.NumbersAsync();
        await page.WriteAsync(Spring, text);
        var field = LivePage.Field(Spring);
        Assert.Equal("true", (string)(await page.Browser.EvaluateAsync($"document.querySelector(\"{field}\").getAttribute('aria-invalid')"))!);
        Assert.Contains(said, await page.TextAsync($".field:has({field}) .fault"), StringComparison.Ordinal);
        Assert.Equal(before.Values, (await page.NumbersAsync()).Where(number => number.Key.Layout != "given").Select(number => number.Value));

        await page.WriteAsync(Spring, "62");
        Assert.Equal("false", (string)(await page.Browser.EvaluateAsync($"document.querySelector(\"{field}\").getAttribute('aria-invalid')"))!);
        Assert.Equal("Up to date", await page.TextAsync("#status"));
    });

    [Fact]
    public Task Number_with_a_decimal_comma_is_not_taken_up_to_the_comma() => browser.Show("bump-then-corner.json", async page =>
    {
        var field = LivePage.Field(Spring);
        await page.WriteAsync(Spring, "70");
        await page.Browser.TypeAsync(",5");
        await page.Browser.KeyAsync("Tab");
        await page.SettleAsync();
        Assert.Contains("decimal point", await page.TextAsync($".field:has({field}) .fault"), StringComparison.Ordinal);
        Assert.Equal("70,5", (string)(await page.Browser.EvaluateAsync($"document.querySelector(\"{field}\").value"))!);
        Assert.Empty((await page.StateAsync())["edits"]!.AsArray());
    });

    [Fact]
    public Task Every_number_of_the_scenario_is_found_by_search() => browser.Show("bump-then-corner.json", async page =>
    {
        await page.Browser.ClickAsync("#search");
        await page.Browser.TypeAsync("bump stop clearance");
        await page.Browser.WaitForAsync("document.querySelector(\"input[data-path='vehicle.bumpStops.clearance_mm']\")");
    });

    [Fact]
    public Task Road_class_is_chosen_by_its_name_and_a_rougher_road_shakes_more() => browser.Show("smooth-motorway.json", async page =>
    {
        const string Choice = "select[data-path='manoeuvre.road.random.class']";
        const string Rms = "bodyAccelerationRms_m_per_s2";
        Assert.Equal("a", await ValueAsync());
        var before = await AccelerationAsync();
        await page.Browser.ClickAsync("#search");
        await page.Browser.TypeAsync("road class");
        await page.Browser.EvaluateAsync($"document.querySelector(\"{Choice}\").focus()");
        await page.Browser.EvaluateAsync($"(() => {{ const list = document.querySelector(\"{Choice}\"); list.value = 'c'; list.dispatchEvent(new Event('input', {{ bubbles: true }})); }})()");
        await page.SettleAsync();
        Assert.Equal("c", (string)(await page.StateAsync())["edits"]![0]!["value"]!);

        // Each class of ISO 8608 has four times the displacement PSD of the one before: 16 times from a to c, and a linear car would be shaken by 4 times as much.
        Assert.InRange(await AccelerationAsync() / before, 2, 8);

        async Task<string> ValueAsync() => (string)(await page.Browser.EvaluateAsync($"document.querySelector(\"{Choice}\").value"))!;
        async Task<double> AccelerationAsync() => (await page.NumbersAsync()).First(number => number.Key.Layout != "given" && number.Key.Key.EndsWith(Rms, StringComparison.Ordinal)).Value.Value!.Value;
    });

    [Fact]
    public Task Everything_that_makes_a_dampers_force_has_a_field_or_a_handle() => browser.Show("valving.json", async page =>
    {
        foreach (var key in (string[])["interpolation", "forceScale", "friction_N", "gasForce_N"])
            Assert.True((bool)(await page.Browser.EvaluateAsync($"!!document.querySelector('[data-path$=\".{key}\"]')"))!, key);
        Assert.InRange((int)(await page.Browser.EvaluateAsync("document.querySelectorAll('#curve [data-handle]').length"))!, 2, 100);
    });
}
