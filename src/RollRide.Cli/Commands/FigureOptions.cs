using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>How a command's figures are written: file formats, size and resolution.</summary>
internal sealed class FigureOptions
{
    private const double UnitsPerInch = 96;
    private const string Png = "png";
    private const string Svg = "svg";
    private const string Pdf = "pdf";

    private readonly Option<string[]> _formats = new("--format", "-f")
    {
        Description = "file formats of the figures: png, svg, pdf; repeat the option for several",
        DefaultValueFactory = _ => [Png],
        HelpName = "format",
    };

    private readonly Option<PixelSize?> _size = new("--size")
    {
        Description = "size of a figure in pixels, such as 1920x1080; the scenario's if left out",
        HelpName = "WIDTHxHEIGHT",
        CustomParser = ParseSize,
    };

    private readonly Option<double?> _dpi = new("--dpi")
    {
        Description = "resolution, 48 to 768: at a given size, a higher one makes text and lines larger; without --size, it makes the whole figure larger. 192 if left out",
        HelpName = "number",
        CustomParser = ParseDpi,
    };

    /// <summary>Makes the options.</summary>
    public FigureOptions() => _formats.AcceptOnlyFromAmong(Png, Svg, Pdf);

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        command.Add(_formats);
        command.Add(_size);
        command.Add(_dpi);
    }

    /// <summary>The size of the figures.</summary>
    /// <exception cref="DataFileException">The figure would be too large or too small.</exception>
    public PlotSize Size(ParseResult parsed, OutputFile output)
    {
        var scale = PlotSize.Slide.Scale;
        var enlarged = 1.0;
        if (parsed.GetValue(_dpi) is { } dpi)
        {
            enlarged = dpi / UnitsPerInch / scale;
            scale = dpi / UnitsPerInch;
        }

        var pixels = parsed.GetValue(_size)
            ?? new PixelSize((int)Math.Round(output.ImageWidthPx * enlarged), (int)Math.Round(output.ImageHeightPx * enlarged));
        try
        {
            return new PlotSize(pixels.Width, pixels.Height, scale);
        }
        catch (ArgumentOutOfRangeException e)
        {
            throw new DataFileException(new DataFileFault("figures", null, null, null, $"{pixels.Width}x{pixels.Height} pixels: {e.Message}"));
        }
    }

    /// <summary>Draws figures and adds their files to a folder: one file each, but for PDF, which is one document.</summary>
    public void AddFiles(ParseResult parsed, OutputFolder folder, StudyCase study, IReadOnlyList<Figure> figures, CancellationToken cancellation)
    {
        var formats = parsed.GetValue(_formats)!.Distinct().ToArray();
        foreach (var format in formats.Where(format => format != Pdf))
        {
            var files = new byte[figures.Count][];
            Parallel.For(0, figures.Count, new ParallelOptions { CancellationToken = cancellation }, i =>
                files[i] = format == Png ? PngRenderer.Render(figures[i]) : System.Text.Encoding.UTF8.GetBytes(SvgRenderer.Render(figures[i], SvgText.Outlines)));
            for (var i = 0; i < figures.Count; i++)
                folder.AddBytes(Path.ChangeExtension(figures[i].FileName, format), files[i]);
        }

        if (formats.Contains(Pdf))
            folder.AddBytes("figures.pdf", PdfRenderer.Render(study.Provenance.Scenario, figures));
    }

    private static PixelSize? ParseSize(ArgumentResult result)
    {
        var sides = result.Tokens[0].Value.Split('x');
        if (sides.Length == 2 && Side(sides[0]) is { } width && Side(sides[1]) is { } height)
            return new PixelSize(width, height);
        result.AddError($"--size '{result.Tokens[0].Value}' is not a size in pixels, such as 1920x1080, each side 200 to 10000.");
        return null;

        static int? Side(string text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var pixels) && pixels is >= 200 and <= 10000 ? pixels : null;
    }

    private static double? ParseDpi(ArgumentResult result)
    {
        if (double.TryParse(result.Tokens[0].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var dpi) && dpi is >= 48 and <= 768)
            return dpi;
        result.AddError($"--dpi '{result.Tokens[0].Value}' is not a resolution of 48 to 768.");
        return null;
    }

    private sealed record PixelSize(int Width, int Height);
}
