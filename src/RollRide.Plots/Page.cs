using OxyPlot;
using SkiaSharp;

namespace RollRide.Plots;

/// <summary>Arranges a figure's texts and panels on its page and draws them. Distances in plot units.</summary>
/// <remarks>
/// Sets the margins of the panels' models while it lives and gives them back when disposed of; not thread-safe.
/// </remarks>
internal sealed class Page : IDisposable
{
    private const double Margin = 16;
    private const double TextGap = 4;
    private const double BlockGap = 8;
    private const double RowGap = 12;
    private const double ColumnGap = 18;
    private const double SmallestPlot = 30;
    private const double KeyDistance = 22;
    // Of more layouts than this, long names are shortened so that as many stand in a row: rows of keys take height from the panels.
    private const int KeysInRow = 3;
    private const int MostTitleLines = 3;
    private const int MostFooterLines = 3;
    // Tick labels depend on the room and the room on tick labels; this settles at once unless a step changes.
    private const int Passes = 3;

    // A title that needs another line takes room from the panels, and so may the next one: after this many rounds all have found their place.
    private const int Rounds = 6;
    private static readonly OxyThickness FirstGuess = new(60, 30, 60, 40);

    private readonly Figure _figure;
    private readonly double _width;
    private readonly IReadOnlyList<string> _title;
    private readonly IReadOnlyList<string> _subtitle;
    private readonly IReadOnlyList<string> _footer;
    private readonly OxyThickness[] _ownMargins;
    private readonly DirectLabels[] _labels;
    private readonly OxyRect[] _plotAreas;
    private readonly OxyThickness[] _insets;
    private readonly double[] _rooms;
    private List<(CurveEnd Layout, string Name, ScreenPoint At)> _keys = [];

    public Page(Figure figure)
    {
        _figure = figure;
        _width = figure.Size.Width - 2 * Margin;
        _subtitle = Lines(figure.Subtitle, Theme.SubtitleSize, MostTitleLines, PlotFont.Normal);
        _footer = Lines(figure.Footer, Theme.FooterSize, MostFooterLines, PlotFont.Normal);
        _ownMargins = [.. figure.Panels.Select(panel => panel.Model.PlotMargins)];
        _labels = [.. figure.Panels.SelectMany(panel => panel.Model.Annotations.OfType<DirectLabels>())];
        _title = Lines(TitleThatFits(), figure.TitleSize, MostTitleLines, PlotFont.Bold);
        _plotAreas = new OxyRect[figure.Panels.Count];
        _insets = new OxyThickness[figure.Panels.Count];
        _rooms = new double[figure.Panels.Count];
    }

    private double HeaderBottom => Margin + Height(_title, _figure.TitleSize) + Height(_subtitle, Theme.SubtitleSize)
        + (_title.Count > 0 && _subtitle.Count > 0 ? TextGap : 0) + (_title.Count + _subtitle.Count > 0 ? BlockGap : 0);

    private double FooterTop => _figure.Size.Height - (_footer.Count > 0 ? Margin / 2 + Height(_footer, Theme.FooterSize) : Margin);

    /// <summary>Finds the place of everything.</summary>
    /// <exception cref="InvalidOperationException">A plot cannot be drawn, or the picture is too small for its panels.</exception>
    public void Arrange()
    {
        foreach (var panel in _figure.Panels)
        {
            ((IPlotModel)panel.Model).Update(true);
            ThrowIfFailed(panel.Model);
        }
        PageTitles.Align(_figure);
        foreach (var labels in _labels)
            labels.MovedAbove = false;
        PlacePanels(HeaderBottom);
        var fits = _figure.Panels.Zip(_plotAreas)
            .All(pair => pair.First.Model.Annotations.OfType<DirectLabels>().All(labels => labels.Fits(pair.Second.Height)));
        foreach (var labels in _labels)
            labels.MovedAbove = !fits;
        var top = PlaceKeys(HeaderBottom);
        if (top > HeaderBottom)
            PlacePanels(top);
    }

    /// <summary>Draws the page.</summary>
    public void Draw(IRenderContext rc)
    {
        DrawTexts(rc);
        for (var i = 0; i < _figure.Panels.Count; i++)
            DrawPanel(rc, i);
    }

    /// <summary>Draws one panel.</summary>
    /// <param name="rc">Where.</param>
    /// <param name="index">Its place in the figure's list.</param>
    public void DrawPanel(IRenderContext rc, int index)
    {
        var model = _figure.Panels[index].Model;
        Render(rc, model, Inflate(_plotAreas[index], _insets[index]));
    }

    /// <summary>Draws title, subtitle, footer, the row of keys and the titles of rows of panels.</summary>
    public void DrawTexts(IRenderContext rc)
    {
        var y = Margin;
        y = Write(rc, _title, y, _figure.TitleSize, PlotFont.Bold, Theme.Ink) + (_title.Count > 0 ? TextGap : 0);
        Write(rc, _subtitle, y, Theme.SubtitleSize, PlotFont.Normal, Theme.SoftInk);
        Write(rc, _footer, FooterTop, Theme.FooterSize, PlotFont.Normal, Theme.SoftInk);
        foreach (var (panel, area) in _figure.Panels.Zip(_plotAreas))
        {
            foreach (var title in panel.Model.Annotations.OfType<PanelTitle>().Where(title => title.RunsOn))
                title.Draw(rc, area);
        }

        foreach (var (layout, name, at) in _keys)
        {
            rc.SetToolTip(layout.Name);
            layout.Style.DrawKey(rc, at, DirectLabels.KeyLength);
            rc.DrawText(new ScreenPoint(at.X + DirectLabels.KeyLength + DirectLabels.KeyGap, at.Y), name, Theme.Ink, null,
                Theme.LabelSize, PlotFont.Normal, 0, HorizontalAlignment.Left, VerticalAlignment.Middle, null);
        }

        rc.SetToolTip("");
    }

    public void Dispose()
    {
        for (var i = 0; i < _ownMargins.Length; i++)
            _figure.Panels[i].Model.PlotMargins = _ownMargins[i];
    }

    private static double Height(IReadOnlyList<string> lines, double size) => lines.Count * PlotFont.LineHeight(size);

    private static OxyRect Inflate(OxyRect area, OxyThickness by) =>
        new(area.Left - by.Left, area.Top - by.Top, area.Width + by.Left + by.Right, area.Height + by.Top + by.Bottom);

    private static void Render(IRenderContext rc, PlotModel model, OxyRect view)
    {
        if (model.PlotType == PlotType.Cartesian)
        {
            // Equal scales widen the axes to the view at hand: without this, a little more each time.
            foreach (var axis in model.Axes)
                axis.Reset();
            ((IPlotModel)model).Update(false);
        }

        ((IPlotModel)model).Render(rc, view);
        ThrowIfFailed(model);
    }

    private static void ThrowIfFailed(PlotModel model)
    {
        // OxyPlot paints an exception into the picture instead of throwing it.
        if (model.GetLastPlotException() is { } exception)
            throw new InvalidOperationException($"A plot cannot be drawn: {exception.Message}", exception);
    }

    private static double Write(IRenderContext rc, IReadOnlyList<string> lines, double top, double size, double weight, OxyColor color)
    {
        rc.DrawText(new ScreenPoint(Margin, top), string.Join('\n', lines), color, null, size, weight,
            0, HorizontalAlignment.Left, VerticalAlignment.Top, null);
        return top + Height(lines, size);
    }

    private IReadOnlyList<string> Lines(string text, double size, int most, double weight) =>
        text.Length == 0 ? [] : PlotFont.Wrap(text, size, _width, most, weight);

    /// <summary>The title, with the layouts' names in it shortened where it would lose its end.</summary>
    private string TitleThatFits()
    {
        double[] shares = [0.6, 0.45, 0.3, 0.2];
        string[] names = [.. _figure.Panels.SelectMany(panel => panel.Model.Annotations.OfType<INamesLayouts>()).SelectMany(named => named.LayoutNames).Distinct().OrderByDescending(name => name.Length)];
        return shares.Select(share => WithNames(text => PlotFont.Width(text, _figure.TitleSize, PlotFont.Bold) <= share * _width))
            .Prepend(_figure.Title).FirstOrDefault(Fits) ?? WithNames(text => PlotFont.Width(text, _figure.TitleSize, PlotFont.Bold) <= shares[^1] * _width);

        bool Fits(string title) => PlotFont.Fits(title, _figure.TitleSize, _width, MostTitleLines, PlotFont.Bold);
        string WithNames(Func<string, bool> fits) => names.Zip(DistinctNames.Shorten(names, fits))
            .Aggregate(_figure.Title, (title, name) => title.Replace(name.First, name.Second, StringComparison.Ordinal));
    }

    /// <summary>Sets the keys of layouts named above the panels in rows; returns where the panels may start.</summary>
    private double PlaceKeys(double top)
    {
        _keys = [];
        var rowHeight = PlotFont.LineHeight(Theme.LabelSize) + TextGap;
        var (x, y) = (Margin, top + rowHeight / 2);
        var layouts = _labels.Where(labels => labels.IsAbove).SelectMany(labels => labels.Ends).DistinctBy(end => (end.Name, end.Style)).ToArray();
        var widest = (layouts.Length <= KeysInRow ? _width : (_width - ((KeysInRow - 1) * KeyDistance)) / KeysInRow) - DirectLabels.KeyLength - DirectLabels.KeyGap;
        var names = DistinctNames.Shorten([.. layouts.Select(layout => layout.Name)], text => PlotFont.Width(text, Theme.LabelSize) <= widest);
        foreach (var (layout, name) in layouts.Zip(names))
        {
            var width = DirectLabels.KeyLength + DirectLabels.KeyGap + PlotFont.Width(name, Theme.LabelSize);
            if (x > Margin && x + width > Margin + _width)
                (x, y) = (Margin, y + rowHeight);
            _keys.Add((layout, name, new ScreenPoint(x, y)));
            x += width + KeyDistance;
        }
        return _keys.Count == 0 ? top : y + rowHeight / 2 + BlockGap;
    }

    private void PlacePanels(double top)
    {
        var panels = _figure.Panels;
        var bottom = FooterTop - (_footer.Count > 0 ? BlockGap : 0);
        Array.Clear(_insets);
        Array.Clear(_plotAreas);
        Array.Clear(_rooms);
        for (var pass = 0; pass < Rounds; pass++)
        {
            var columns = Tracks(_figure.ColumnWidths, Margin, Margin + _width, ColumnGap,
                column => Largest(i => panels[i].Column == column, inset => inset.Left),
                column => Largest(i => panels[i].LastColumn == column, inset => inset.Right));
            var rows = Tracks(_figure.RowHeights, top, bottom, RowGap,
                row => Largest(i => panels[i].Row == row, inset => inset.Top),
                row => Largest(i => panels[i].LastRow == row, inset => inset.Bottom));
            for (var i = 0; i < panels.Count; i++)
            {
                var (left, up) = (columns[panels[i].Column].From, rows[panels[i].Row].From);
                var area = new OxyRect(left, up, columns[panels[i].LastColumn].To - left, rows[panels[i].LastRow].To - up);
                if (area.Equals(_plotAreas[i]) && TopRoom(panels[i].Model) == _rooms[i])
                    continue; // measured before; it takes drawing the panel
                _plotAreas[i] = area;
                PageTitles.FitAxes(panels[i].Model, area);
                _insets[i] = Measure(panels[i].Model, area, pass == 0 ? FirstGuess : _insets[i]);
                _rooms[i] = TopRoom(panels[i].Model);
            }
        }

        double Largest(Func<int, bool> isThere, Func<OxyThickness, double> side) =>
            Enumerable.Range(0, panels.Count).Where(isThere).Select(i => side(_insets[i])).DefaultIfEmpty().Max();
    }

    /// <summary>Height of what stands above a plot area; that of a title depends on the other panels of its row.</summary>
    private static double TopRoom(PlotModel model) => model.Annotations.OfType<MarginAnnotation>().Select(annotation => annotation.Room.Top).DefaultIfEmpty().Max();

    /// <summary>Divides a length among the plot areas of rows or columns, after what their margins need.</summary>
    private static (double From, double To)[] Tracks(
        IReadOnlyList<double> weights, double from, double to, double gap, Func<int, double> before, Func<int, double> after)
    {
        var tracks = Enumerable.Range(0, weights.Count).ToArray();
        var free = to - from - gap * (weights.Count - 1) - tracks.Sum(track => before(track) + after(track));
        if (free < SmallestPlot * weights.Count)
            throw new PictureTooSmallException();
        var unit = free / weights.Sum();
        var result = new (double From, double To)[weights.Count];
        var at = from;
        foreach (var track in tracks)
        {
            at += before(track);
            result[track] = (at, at + weights[track] * unit);
            at = result[track].To + after(track) + gap;
        }
        return result;
    }

    /// <summary>What a plot needs around a plot area of a given size, from a guess on; leaves its margins set to just that.</summary>
    private OxyThickness Measure(PlotModel model, OxyRect plotArea, OxyThickness needed)
    {
        using var canvas = new SKNoDrawCanvas(_figure.Size.WidthPx, _figure.Size.HeightPx);
        using var context = new EmbeddedFontRenderContext { SkCanvas = canvas, DpiScale = (float)_figure.Size.Scale };
        for (var pass = 0; pass < Passes; pass++)
        {
            var view = Inflate(plotArea, needed);
            model.PlotMargins = new OxyThickness(double.NaN);
            Render(context, model, view);
            var axes = model.ActualPlotMargins;
            var rooms = model.Annotations.OfType<MarginAnnotation>().Select(annotation => annotation.Room)
                .Aggregate(axes, (a, b) => new OxyThickness(Math.Max(a.Left, b.Left), Math.Max(a.Top, b.Top), Math.Max(a.Right, b.Right), Math.Max(a.Bottom, b.Bottom)));
            // Around the margins lie the padding and the title of a model that has them.
            var before = needed;
            needed = new OxyThickness(
                model.PlotArea.Left - view.Left - axes.Left + rooms.Left,
                model.PlotArea.Top - view.Top - axes.Top + rooms.Top,
                view.Right - model.PlotArea.Right - axes.Right + rooms.Right,
                view.Bottom - model.PlotArea.Bottom - axes.Bottom + rooms.Bottom);
            model.PlotMargins = rooms;
            if (needed.Equals(before))
                break;
        }
        return needed;
    }
}
