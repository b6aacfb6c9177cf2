namespace RollRide.Plots;

/// <summary>One page: a finding, what was tested, the plots that show it, and where they come from.</summary>
/// <remarks>
/// Plot areas in a column have the same left and right edge, those in a row the same top and bottom, whatever their labels need.
/// </remarks>
public sealed record Figure
{
    /// <summary>Makes a figure.</summary>
    /// <param name="fileName">Name of its file, ending in .png, without a folder.</param>
    /// <param name="title">The finding, as a sentence.</param>
    /// <param name="subtitle">What was tested or is drawn; "" for none.</param>
    /// <param name="footer">Scenario and version, and a caution in a line of its own where one is due; "" for none.</param>
    /// <param name="panels">The plots, at least one, no two in the same place.</param>
    /// <exception cref="ArgumentException">A value breaks these limits.</exception>
    public Figure(string fileName, string title, string subtitle, string footer, IReadOnlyList<Panel> panels)
    {
        if (panels.Count == 0)
            throw new ArgumentException("A figure must have at least one panel.", nameof(panels));
        var cells = panels.SelectMany(Cells).ToArray();
        if (cells.Distinct().Count() != cells.Length)
            throw new ArgumentException("Two panels cover the same place in the grid.", nameof(panels));
        (FileName, Title, Subtitle, Footer, Panels) = (fileName, title, subtitle, footer, panels);
        RowHeights = Equal(panels.Max(panel => panel.LastRow) + 1);
        ColumnWidths = Equal(panels.Max(panel => panel.LastColumn) + 1);
    }

    /// <summary>Name of its file.</summary>
    /// <exception cref="ArgumentException">It does not end in .png, or names a folder.</exception>
    public string FileName
    {
        get;
        init => field = Path.GetFileName(value) == value && value.EndsWith(".png", StringComparison.Ordinal)
            ? value
            : throw new ArgumentException($"The file name “{value}” must end in .png and name no folder.", nameof(value));
    }

    /// <summary>The finding.</summary>
    public string Title { get; init; }

    /// <summary>What was tested or is drawn.</summary>
    public string Subtitle { get; }

    /// <summary>Scenario, version and caution.</summary>
    public string Footer { get; init; }

    /// <summary>The plots.</summary>
    public IReadOnlyList<Panel> Panels { get; }

    /// <summary>Type size of the title.</summary>
    public double TitleSize { get; init; } = Theme.TitleSize;

    /// <summary>Size of the picture.</summary>
    public PlotSize Size { get; init; } = PlotSize.Slide;

    /// <summary>Whether it is drawn for the height of a slide: lower, its dimensions and names would lie on each other.</summary>
    public bool NeedsHeight { get; init; }

    /// <summary>Whether it is drawn as wide as a page that it stands on: long signals, or many panels in a row.</summary>
    public bool NeedsWidth { get; init; }

    /// <summary>Heights of the plot areas of the rows, relative to each other; equal unless given.</summary>
    /// <exception cref="ArgumentException">There is not one for every row, or one is not greater than 0.</exception>
    public IReadOnlyList<double> RowHeights
    {
        get;
        init => field = Checked(value, field, nameof(RowHeights));
    }

    /// <summary>Widths of the plot areas of the columns, relative to each other; equal unless given.</summary>
    /// <exception cref="ArgumentException">There is not one for every column, or one is not greater than 0.</exception>
    public IReadOnlyList<double> ColumnWidths
    {
        get;
        init => field = Checked(value, field, nameof(ColumnWidths));
    }

    private static IEnumerable<(int Row, int Column)> Cells(Panel panel) =>
        from row in Enumerable.Range(panel.Row, panel.RowSpan)
        from column in Enumerable.Range(panel.Column, panel.ColumnSpan)
        select (row, column);

    private static double[] Equal(int count) => [.. Enumerable.Repeat(1.0, count)];

    private static IReadOnlyList<double> Checked(IReadOnlyList<double> weights, IReadOnlyList<double>? present, string name)
    {
        if (present is not null && weights.Count != present.Count)
            throw new ArgumentException($"{name} must have {present.Count} values, not {weights.Count}.", name);
        if (weights.Any(weight => !(weight > 0 && double.IsFinite(weight))))
            throw new ArgumentException($"{name} must be finite and greater than 0.", name);
        return weights;
    }
}
