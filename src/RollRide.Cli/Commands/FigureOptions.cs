using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Scenarios;

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
        Description = "resolution in dots per inch, 48 to 768: more give a finer figure or, with --size, larger text and lines",
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

    /// <summary>Names of those of the options that the user gave.</summary>
    public IEnumerable<string> Given(SymbolResult result) =>
        new Option[] { _formats, _size, _dpi }.Where(option => result.GetResult(option) is { Implicit: false }).Select(option => option.Name);

    /// <summary>The size of the figures.</summary>
    public PlotSize Size(ParseResult parsed, OutputFile output)
    {
        var pixels = parsed.GetValue(_size) ?? new PixelSize(output.ImageWidthPx, output.ImageHeightPx);
        if (parsed.GetValue(_dpi) is not { } dpi)
            return new PlotSize(pixels.Width, pixels.Height);
        var scale = dpi / UnitsPerInch;
        if (parsed.GetValue(_size) is null)
        {
            var page = new PlotSize(pixels.Width, pixels.Height);
            pixels = new PixelSize((int)Math.Round(page.Width * scale), (int)Math.Round(page.Height * scale));
        }

        return new PlotSize(pixels.Width, pixels.Height, scale);
    }

    /// <summary>Draws figures in the size asked for and adds their files to a folder.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="folder">The folder.</param>
    /// <param name="title">Title of the document, if one is made.</param>
    /// <param name="output">The scenario's settings; standard ones where there is no scenario.</param>
    /// <param name="figures">The figures, in any size.</param>
    /// <param name="cancellation">Stops the drawing.</param>
    public void AddFiles(ParseResult parsed, OutputFolder folder, string title, OutputFile output, IReadOnlyList<Figure> figures, CancellationToken cancellation)
    {
        var size = Size(parsed, output);
        AddFiles(parsed, folder, title, [.. figures.Select(figure => figure with { Size = size })], cancellation);
    }

    /// <summary>Draws figures and adds their files to a folder: one file each, but for PDF, which is one document.</summary>
    public void AddFiles(ParseResult parsed, OutputFolder folder, string title, IReadOnlyList<Figure> figures, CancellationToken cancellation)
    {
        var formats = parsed.GetValue(_formats)!.Distinct().ToArray();
        foreach (var format in formats.Where(format => format != Pdf))
        {
            var files = new byte[figures.Count][];
            // From the last, often the fullest, such as a sweep's scatter plots: begun last it would be drawn alone.
            Parallel.For(1, figures.Count + 1, new ParallelOptions { CancellationToken = cancellation }, fromEnd =>
            {
                var i = figures.Count - fromEnd;
                files[i] = format == Png ? PngRenderer.Render(figures[i]) : System.Text.Encoding.UTF8.GetBytes(SvgRenderer.Render(figures[i], SvgText.Outlines));
            });
            for (var i = 0; i < figures.Count; i++)
                folder.AddBytes(Path.ChangeExtension(figures[i].FileName, format), files[i]);
        }

        if (formats.Contains(Pdf))
            folder.AddBytes("figures.pdf", PdfRenderer.Render(title, figures));
    }

    private static PixelSize? ParseSize(ArgumentResult result)
    {
        var sides = result.Tokens[0].Value.Split('x');
        if (sides.Length == 2 && Side(sides[0]) is { } width && Side(sides[1]) is { } height)
            return new PixelSize(width, height);
        result.AddError($"--size “{result.Tokens[0].Value}” is not a size in pixels, such as 1920x1080, each side 200 to 10000.");
        return null;

        static int? Side(string text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var pixels) && pixels is >= 200 and <= 10000 ? pixels : null;
    }

    private static double? ParseDpi(ArgumentResult result)
    {
        if (double.TryParse(result.Tokens[0].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var dpi) && dpi is >= 48 and <= 768)
            return dpi;
        result.AddError($"--dpi “{result.Tokens[0].Value}” is not a resolution of 48 to 768.");
        return null;
    }

    private sealed record PixelSize(int Width, int Height);
}
