using OxyPlot;
using SkiaSharp;

namespace RollRide.Plots;

/// <summary>Where the lines of a text stand about its anchor, in the units of the paint.</summary>
internal static class TextLines
{
    /// <summary>Each line with the left end of its baseline, counted from the anchor.</summary>
    /// <param name="text">The text; lines are parted by "\n".</param>
    /// <param name="paint">How it is set.</param>
    /// <param name="horizontal">Which part of each line stands at the anchor.</param>
    /// <param name="vertical">Which part of the block stands at the anchor.</param>
    public static IEnumerable<(string Text, float Left, float Baseline)> Of(string text, SKPaint paint, HorizontalAlignment horizontal, VerticalAlignment vertical)
    {
        var lines = text.Split('\n');
        var height = lines.Length * paint.FontSpacing;
        var baseline = -paint.FontMetrics.Ascent - vertical switch
        {
            VerticalAlignment.Top => 0,
            VerticalAlignment.Middle => height / 2,
            _ => height,
        };
        foreach (var line in lines)
        {
            var width = paint.MeasureText(line);
            var left = horizontal switch
            {
                HorizontalAlignment.Left => 0,
                HorizontalAlignment.Center => -width / 2,
                _ => -width,
            };
            yield return (line, left, baseline);
            baseline += paint.FontSpacing;
        }
    }
}
