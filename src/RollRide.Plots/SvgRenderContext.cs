using System.Globalization;
using System.Security;
using System.Text;
using OxyPlot;

namespace RollRide.Plots;

/// <summary>Writes what OxyPlot draws as SVG elements, with all text measured and set in <see cref="PlotFont"/>.</summary>
/// <remarks>
/// Elements drawn while a tool tip is set stand in a group whose <c>data-layout</c> is that text: the panels set it to the name of
/// the layout that they draw. A page can thereby show and hide a layout, and read its curves. Not thread-safe.
/// </remarks>
internal sealed class SvgRenderContext : ClippingRenderContext
{
    private readonly StringBuilder _elements = new();
    private readonly List<OxyRect> _clips = [];
    private readonly SvgText _text;
    private readonly string _prefix;
    private string _layout = "";
    private OxyRect? _clip;
    private (string Layout, OxyRect? Clip) _open = ("", null);

    /// <summary>Makes a context.</summary>
    /// <param name="text">How text is written.</param>
    /// <param name="prefix">Begins every id, so that several pictures can stand in one page.</param>
    public SvgRenderContext(SvgText text, string prefix) => (_text, _prefix) = (text, prefix);

    /// <summary>Everything drawn so far, with what it refers to.</summary>
    public string Finish()
    {
        Close();
        var definitions = _clips.Count == 0 ? "" : $"<defs>{string.Concat(_clips.Select((clip, i) => $"<clipPath id=\"{_prefix}-{i}\"><rect {Place(clip)}/></clipPath>"))}</defs>\n";
        return definitions + _elements;
    }

    /// <summary>Begins a group of elements.</summary>
    /// <returns>The group, for <see cref="End"/>.</returns>
    public int Begin()
    {
        Close();
        return _elements.Length;
    }

    /// <summary>Ends a group.</summary>
    /// <param name="group">The group.</param>
    /// <param name="attributes">Its attributes, escaped: known only once it has been drawn.</param>
    public void End(int group, string attributes)
    {
        Close();
        _elements.Insert(group, $"<g {attributes}>\n").Append("</g>\n");
    }

    /// <summary>A text as it may stand between elements and in attributes. Characters that XML does not allow are replaced.</summary>
    public static string Escape(string text) =>
        SecurityElement.Escape(string.Concat(text.EnumerateRunes().Select(rune => IsAllowed(rune.Value) ? rune.ToString() : "\uFFFD")));

    /// <inheritdoc/>
    public override void SetToolTip(string? text) => _layout = text ?? "";

    /// <inheritdoc/>
    protected override void SetClip(OxyRect clippingRectangle) => _clip = clippingRectangle;

    /// <inheritdoc/>
    protected override void ResetClip() => _clip = null;

    /// <inheritdoc/>
    public override void DrawLine(IList<ScreenPoint> points, OxyColor stroke, double thickness, EdgeRenderingMode edgeRenderingMode, double[]? dashArray, LineJoin lineJoin)
    {
        if (points.Count > 1 && stroke.IsVisible() && thickness > 0)
            Add($"<polyline points=\"{Points(points)}\" fill=\"none\"{Stroke(stroke, thickness, dashArray, lineJoin)}/>");
    }

    /// <inheritdoc/>
    public override void DrawPolygon(IList<ScreenPoint> points, OxyColor fill, OxyColor stroke, double thickness, EdgeRenderingMode edgeRenderingMode, double[]? dashArray, LineJoin lineJoin)
    {
        if (points.Count > 1)
            Add($"<polygon points=\"{Points(points)}\"{Fill(fill)}{Stroke(stroke, thickness, dashArray, lineJoin)}/>");
    }

    /// <inheritdoc/>
    public override void DrawRectangle(OxyRect rectangle, OxyColor fill, OxyColor stroke, double thickness, EdgeRenderingMode edgeRenderingMode) =>
        Add($"<rect {Place(rectangle)}{Fill(fill)}{Stroke(stroke, thickness, null, LineJoin.Miter)}/>");

    /// <inheritdoc/>
    public override void DrawEllipse(OxyRect extents, OxyColor fill, OxyColor stroke, double thickness, EdgeRenderingMode edgeRenderingMode) =>
        Add($"<ellipse cx=\"{Number(extents.Center.X)}\" cy=\"{Number(extents.Center.Y)}\" rx=\"{Number(extents.Width / 2)}\" ry=\"{Number(extents.Height / 2)}\"{Fill(fill)}{Stroke(stroke, thickness, null, LineJoin.Miter)}/>");

    /// <inheritdoc/>
    public override OxySize MeasureText(string text, string? fontFamily = null, double fontSize = 10, double fontWeight = 500)
    {
        if (string.IsNullOrEmpty(text))
            return OxySize.Empty;
        var lines = text.Split('\n');
        return new OxySize(lines.Max(line => PlotFont.Width(line, fontSize, fontWeight)), lines.Length * PlotFont.LineHeight(fontSize));
    }

    /// <inheritdoc/>
    public override void DrawText(ScreenPoint p, string text, OxyColor fill, string? fontFamily = null, double fontSize = 10, double fontWeight = 500,
        double rotation = 0, HorizontalAlignment horizontalAlignment = HorizontalAlignment.Left, VerticalAlignment verticalAlignment = VerticalAlignment.Top, OxySize? maxSize = null)
    {
        if (string.IsNullOrEmpty(text) || !fill.IsVisible())
            return;
        using var paint = PlotFont.Paint(fontSize, fontWeight);
        foreach (var line in TextLines.Of(text, paint, horizontalAlignment, verticalAlignment))
        {
            var turned = rotation == 0;
            var (x, y) = turned ? (p.X + line.Left, p.Y + line.Baseline) : (line.Left, line.Baseline);
            var transform = turned ? "" : $" transform=\"translate({Number(p.X)} {Number(p.Y)}) rotate({Number(rotation)})\"";
            if (_text == SvgText.Letters)
            {
                var weight = fontWeight >= PlotFont.Bold ? " font-weight=\"700\"" : "";
                Add($"<text x=\"{Number(x)}\" y=\"{Number(y)}\" font-size=\"{Number(fontSize)}\"{weight}{Fill(fill)}{transform}>{Escape(line.Text)}</text>");
                continue;
            }

            using var outline = paint.GetTextPath(line.Text, (float)x, (float)y);
            Add($"<path d=\"{Shorten(outline.ToSvgPathData())}\"{Fill(fill)}{transform}/>");
        }
    }

    private static bool IsAllowed(int character) =>
        character is '\t' or '\n' or '\r' or (>= 0x20 and <= 0xD7FF) or (>= 0xE000 and <= 0xFFFD) or >= 0x10000;

    private static string Number(double value) => Math.Round(value, 2).ToString("0.##", CultureInfo.InvariantCulture);

    private static string Place(OxyRect area) => $"x=\"{Number(area.Left)}\" y=\"{Number(area.Top)}\" width=\"{Number(area.Width)}\" height=\"{Number(area.Height)}\"";

    private static string Points(IEnumerable<ScreenPoint> points) => string.Join(' ', points.Select(point => $"{Number(point.X)},{Number(point.Y)}"));

    private static string Hex(OxyColor color) => string.Create(CultureInfo.InvariantCulture, $"#{color.R:X2}{color.G:X2}{color.B:X2}");

    private static string Fill(OxyColor color) =>
        !color.IsVisible() ? " fill=\"none\"" : $" fill=\"{Hex(color)}\"{(color.A < 255 ? $" fill-opacity=\"{Number(color.A / 255.0)}\"" : "")}";

    private static string Stroke(OxyColor color, double thickness, double[]? dashes, LineJoin join)
    {
        if (!color.IsVisible() || thickness <= 0)
            return "";
        var opacity = color.A < 255 ? $" stroke-opacity=\"{Number(color.A / 255.0)}\"" : "";
        var dash = dashes is { Length: > 0 } ? $" stroke-dasharray=\"{string.Join(' ', dashes.Select(length => Number(length * thickness)))}\"" : "";
        var corner = join == LineJoin.Round ? " stroke-linejoin=\"round\"" : "";
        return $" stroke=\"{Hex(color)}\" stroke-width=\"{Number(thickness)}\"{opacity}{dash}{corner}";
    }

    /// <summary>Rounds every number of a path to two decimals.</summary>
    private static string Shorten(string path)
    {
        var result = new StringBuilder(path.Length);
        for (var i = 0; i < path.Length;)
        {
            var start = i;
            while (i < path.Length && (char.IsAsciiDigit(path[i]) || path[i] is '.' or '-' or 'e'))
                i++;
            if (i == start)
                result.Append(path[i++]);
            else
                result.Append(Number(double.Parse(path.AsSpan(start, i - start), CultureInfo.InvariantCulture)));
        }

        return result.ToString();
    }

    private void Add(string element)
    {
        if (!_open.Equals((_layout, _clip)))
        {
            Close();
            if (_clip is { } clip)
            {
                if (!_clips.Contains(clip))
                    _clips.Add(clip);
                _elements.Append(CultureInfo.InvariantCulture, $"<g clip-path=\"url(#{_prefix}-{_clips.IndexOf(clip)})\">\n");
            }

            if (_layout.Length > 0)
                _elements.Append(CultureInfo.InvariantCulture, $"<g data-layout=\"{Escape(_layout)}\">\n");
            _open = (_layout, _clip);
        }

        _elements.Append(element).Append('\n');
    }

    private void Close()
    {
        _elements.Append(_open.Layout.Length == 0 ? "" : "</g>\n").Append(_open.Clip is null ? "" : "</g>\n");
        _open = ("", null);
    }
}
