using System.Text;
using SkiaSharp;

namespace RollRide.Plots;

/// <summary>
/// The one typeface of every figure (Inter, SIL Open Font License 1.1), carried in this assembly, so that a figure looks the same
/// on a machine with other fonts or with none.
/// </summary>
/// <remarks>
/// Sizes and widths are in plot units of 1/96 inch. Text is set without hinting, so that a width scales with the size and a label
/// measured while the page is laid out is exactly as wide when drawn. Thread-safe.
/// </remarks>
public static class PlotFont
{
    private const double BoldFrom = 600;

    /// <summary>Weight of normal text, as OxyPlot counts it.</summary>
    public const double Normal = 400;

    /// <summary>Weight of bold text, as OxyPlot counts it.</summary>
    public const double Bold = 700;

    /// <summary>Name of the font file for normal text.</summary>
    internal const string RegularFile = "Inter-Regular.otf";

    /// <summary>Name of the font file for bold text.</summary>
    internal const string BoldFile = "Inter-Bold.otf";

    private static readonly SKTypeface RegularFace = Load(RegularFile);
    private static readonly SKTypeface BoldFace = Load(BoldFile);

    /// <summary>Width of one line of text, plot units.</summary>
    /// <param name="text">The text, without line breaks.</param>
    /// <param name="size">Type size, plot units.</param>
    /// <param name="weight">Weight; 600 and above is set bold.</param>
    public static double Width(string text, double size, double weight = Normal)
    {
        using var paint = Paint(size, weight);
        return paint.MeasureText(text);
    }

    /// <summary>Distance from one line of text to the next, plot units.</summary>
    /// <param name="size">Type size, plot units.</param>
    public static double LineHeight(double size)
    {
        using var paint = Paint(size, Normal);
        return paint.FontSpacing;
    }

    /// <summary>Whether both weights have a glyph for every character of a text.</summary>
    /// <param name="text">The text.</param>
    public static bool Covers(string text) => RegularFace.ContainsGlyphs(text) && BoldFace.ContainsGlyphs(text);

    /// <summary>Shortens a line with an ellipsis until it is no wider than a limit.</summary>
    /// <param name="text">The text, without line breaks.</param>
    /// <param name="size">Type size, plot units.</param>
    /// <param name="maxWidth">The limit, plot units.</param>
    /// <param name="weight">Weight; 600 and above is set bold.</param>
    public static string Ellipsize(string text, double size, double maxWidth, double weight = Normal) =>
        DistinctNames.CutAtEnd(text, shortened => Width(shortened, size, weight) <= maxWidth);

    /// <summary>Whether a text can be broken at its spaces into so few lines, none wider than a limit.</summary>
    /// <param name="text">The text.</param>
    /// <param name="size">Type size, plot units.</param>
    /// <param name="maxWidth">The limit, plot units.</param>
    /// <param name="maxLines">The largest number of lines.</param>
    /// <param name="weight">Weight; 600 and above is set bold.</param>
    public static bool Fits(string text, double size, double maxWidth, int maxLines, double weight = Normal)
    {
        var lines = Break(text, size, maxWidth, weight);
        return lines.Count <= maxLines && lines.All(line => Width(line, size, weight) <= maxWidth);
    }

    /// <summary>
    /// Breaks a text at its spaces into as few lines no wider than a limit as it takes, and these as even as they can be; the last line
    /// allowed is shortened if it must be.
    /// </summary>
    /// <param name="text">The text; line breaks in it are kept.</param>
    /// <param name="size">Type size, plot units.</param>
    /// <param name="maxWidth">The limit, plot units.</param>
    /// <param name="maxLines">The largest number of lines.</param>
    /// <param name="weight">Weight; 600 and above is set bold.</param>
    public static IReadOnlyList<string> Wrap(string text, double size, double maxWidth, int maxLines, double weight = Normal)
    {
        const double narrower = 0.95;
        var lines = Break(text, size, maxWidth, weight);
        if (lines.Count > maxLines)
        {
            lines[maxLines - 1] = string.Join(' ', lines.Skip(maxLines - 1));
            lines.RemoveRange(maxLines, lines.Count - maxLines);
        }
        else
        {
            for (var width = maxWidth * narrower; width > maxWidth / 2; width *= narrower)
            {
                var evener = Break(text, size, width, weight);
                if (evener.Count > lines.Count || evener.Any(line => Width(line, size, weight) > width))
                    break;
                lines = evener;
            }
        }
        return [.. lines.Select(line => Ellipsize(line, size, maxWidth, weight))];
    }

    private static List<string> Break(string text, double size, double maxWidth, double weight)
    {
        var lines = new List<string>();
        foreach (var paragraph in text.Split('\n'))
        {
            var line = new StringBuilder();
            foreach (var word in PlotText.WithUnits(paragraph).Split(' ').Select(word => word.Replace(PlotText.NoBreak, ' ')))
            {
                if (line.Length > 0 && Width($"{line} {word}", size, weight) > maxWidth)
                {
                    lines.Add(line.ToString());
                    line.Clear();
                }
                if (line.Length > 0)
                    line.Append(' ');
                line.Append(word);
            }
            lines.Add(line.ToString());
        }
        return lines;
    }

    /// <summary>A paint that sets text in the embedded typeface; the caller disposes of it.</summary>
    internal static SKPaint Paint(double size, double weight) => new()
    {
        Typeface = weight >= BoldFrom ? BoldFace : RegularFace,
        TextSize = (float)size,
        IsAntialias = true,
        SubpixelText = true,
        HintingLevel = SKPaintHinting.NoHinting,
    };

    /// <summary>The bytes of a font file.</summary>
    internal static byte[] FileBytes(string file)
    {
        using var stream = typeof(PlotFont).Assembly.GetManifestResourceStream(file)
            ?? throw new InvalidOperationException($"The assembly lacks its typeface {file}.");
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }

    private static SKTypeface Load(string file)
    {
        using var data = SKData.CreateCopy(FileBytes(file));
        return SKTypeface.FromData(data)
            ?? throw new InvalidOperationException($"The typeface {file} cannot be read.");
    }
}
