using OxyPlot;

namespace RollRide.Plots;

/// <summary>Names of layouts and reference lines, each with its key, written beside the right ends of their curves.</summary>
/// <remarks>
/// The names stand in a column right of the plot area, so never over a curve; those that would overlap are pushed apart, and a thin
/// line leads from each curve's end to its name.
/// </remarks>
internal sealed class DirectLabels : MarginAnnotation, INamesLayouts
{
    /// <summary>More names than this are written above the panels.</summary>
    public const int MostLabels = 8;

    /// <summary>Length of a key: a piece of the layout's line with its marker.</summary>
    public const double KeyLength = 30;

    /// <summary>Distance of a name from its key.</summary>
    public const double KeyGap = 6;

    private const double Gap = 3;
    private const double LeaderLength = 14;
    private const double WidestName = 150;
    private const int MostLines = 2;
    private const double Leading = 2;
    private const double Overhang = 8;

    private readonly LabelPlacement _placement;
    private readonly CurveEnd[] _references;
    private readonly Dictionary<string, IReadOnlyList<string>> _lines;

    /// <summary>Makes the labels of a panel.</summary>
    /// <param name="ends">The layouts and where their curves end.</param>
    /// <param name="placement">Where the layouts' names go.</param>
    /// <param name="references">Reference lines; those across the panel are always named at their right ends.</param>
    public DirectLabels(IReadOnlyList<CurveEnd> ends, LabelPlacement placement, IReadOnlyList<ReferenceLine> references)
    {
        Ends = ends;
        _placement = placement;
        _references = [.. references.Where(line => !line.Vertical && line.Label.Length > 0)
            .Select(line => new CurveEnd(line.Label, OtherStyles.Reference, double.NaN, line.Value))];
        string[] names = [.. ends.Concat(_references).Select(end => end.Name).Distinct()];
        _lines = names.Zip(DistinctNames.Shorten(names, text => PlotFont.Fits(text, Theme.LabelSize, WidestName, MostLines)))
            .ToDictionary(pair => pair.First, pair => PlotFont.Wrap(pair.Second, Theme.LabelSize, WidestName, MostLines));
    }

    /// <summary>The layouts and where their curves end.</summary>
    public IReadOnlyList<CurveEnd> Ends { get; }

    /// <inheritdoc/>
    public IEnumerable<string> LayoutNames => Ends.Select(end => end.Name);

    /// <summary>Set by the page when the names of any of its panels do not fit beside the curves: then all go above.</summary>
    public bool MovedAbove { get; set; }

    /// <summary>Whether the names belong in the row of keys above the panels.</summary>
    public bool IsAbove => _placement == LabelPlacement.AbovePanels || (_placement == LabelPlacement.AtCurveEnds && MovedAbove);

    /// <inheritdoc/>
    public override OxyThickness Room
    {
        get
        {
            var widest = Beside.SelectMany(Lines).Select(line => PlotFont.Width(line, Theme.LabelSize)).DefaultIfEmpty(double.NaN).Max();
            return new OxyThickness(0, 0, double.IsNaN(widest) ? 0 : Gap + LeaderLength + KeyLength + KeyGap + widest, 0);
        }
    }

    /// <summary>What is named beside the plot area.</summary>
    private CurveEnd[] Beside => _placement == LabelPlacement.AtCurveEnds && !MovedAbove ? [.. Ends, .. _references] : _references;

    /// <summary>Whether the names can stand beside the curves, if that is where they belong.</summary>
    /// <param name="plotHeight">Height of the plot area.</param>
    public bool Fits(double plotHeight) => _placement != LabelPlacement.AtCurveEnds
        || (Ends.Count <= MostLabels && Beside.Sum(Height) <= plotHeight + 2 * Overhang);

    /// <inheritdoc/>
    public override void Render(IRenderContext rc)
    {
        var area = PlotModel.PlotArea;
        var ends = Beside;
        var tips = ends.Select(end => Transform(new DataPoint(end.X, end.Y)))
            .Select(tip => new ScreenPoint(double.IsNaN(tip.X) ? area.Right : Math.Min(area.Right, tip.X), Math.Clamp(tip.Y, area.Top, area.Bottom)))
            .ToArray();
        var centres = LabelSpreader.Spread([.. tips.Select(tip => tip.Y)], [.. ends.Select(Height)], area.Top - Overhang, area.Bottom + Overhang);
        for (var i = 0; i < tips.Length; i++)
        {
            var style = ends[i].Style;
            rc.SetToolTip(style == OtherStyles.Reference ? "" : ends[i].Name);
            var key = new ScreenPoint(area.Right + Gap + LeaderLength, centres[i]);
            rc.DrawLine([new(tips[i].X + 1, tips[i].Y), new(area.Right + Gap, tips[i].Y), new(key.X - 1, key.Y), key],
                style.Color, 1, EdgeRenderingMode.PreferGeometricAccuracy, null, LineJoin.Round);
            style.DrawKey(rc, key, KeyLength);
            rc.DrawText(new ScreenPoint(key.X + KeyLength + KeyGap, key.Y), string.Join('\n', Lines(ends[i])), Theme.Ink, null,
                Theme.LabelSize, PlotFont.Normal, 0, HorizontalAlignment.Left, VerticalAlignment.Middle, null);
        }

        rc.SetToolTip("");
    }

    private IReadOnlyList<string> Lines(CurveEnd end) => _lines[end.Name];

    private double Height(CurveEnd end) => Lines(end).Count * PlotFont.LineHeight(Theme.LabelSize) + Leading;
}
