using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class DataFileFaultTests
{
    [Theory]
    [InlineData(7, "track_mm", "-3", "a.json:7: track_mm = -3: too small")]
    [InlineData(7, "track_mm", "", "a.json:7: track_mm = \"\": too small")]
    [InlineData(7, "track_mm", null, "a.json:7: track_mm: too small")]
    [InlineData(7, null, "-3", "a.json:7: -3: too small")]
    [InlineData(7, null, null, "a.json:7: too small")]
    [InlineData(null, null, null, "a.json: too small")]
    public void Text_leaves_out_what_is_null(int? line, string? key, string? value, string expected) =>
        Assert.Equal(expected, new DataFileFault("a.json", line, key, value, "too small").ToString());

    [Fact]
    public void Text_shortens_a_long_value()
    {
        var text = new DataFileFault("a.json", 1, "name", new string('x', 500), "too long").ToString();
        Assert.Equal($"a.json:1: name = {new string('x', 59)}…: too long", text);
    }

    [Fact]
    public void Text_cuts_a_long_key_and_a_long_reason_in_the_middle()
    {
        var text = new DataFileFault("a.json", 1, $"dampers[\"{new string('x', 5000)}\"].curve", null, $"unknown: {new string('y', 50_000)} last").ToString();
        Assert.StartsWith("a.json:1: dampers[\"xxx", text, StringComparison.Ordinal);
        Assert.Contains("x…x", text, StringComparison.Ordinal);
        Assert.Contains("x\"].curve: unknown: y", text, StringComparison.Ordinal);
        Assert.EndsWith("y last", text, StringComparison.Ordinal);
        Assert.InRange(text.Length, 6000, 6200);
    }

    [Fact]
    public void Text_stays_on_one_line_and_passes_no_control_characters_on()
    {
        var text = new DataFileFault("a.json", 1, "na\nme", "\u001b[31m", "wrong").ToString();
        Assert.DoesNotContain(text, char.IsControl);
    }
}
