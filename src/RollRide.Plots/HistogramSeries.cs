namespace RollRide.Plots;

/// <summary>How often the values of one layout fall into each of a row of classes.</summary>
public sealed record HistogramSeries
{
    /// <summary>Makes a histogram.</summary>
    /// <param name="name">Name of the layout.</param>
    /// <param name="style">Its style, see <see cref="LayoutStyles"/>.</param>
    /// <param name="edges">Edges of the classes, ascending, one more than there are classes.</param>
    /// <param name="heights">Height of each class, in the unit of the panel's vertical axis.</param>
    /// <exception cref="ArgumentException">The lengths do not match, or the edges do not ascend.</exception>
    public HistogramSeries(string name, SeriesStyle style, IReadOnlyList<double> edges, IReadOnlyList<double> heights)
    {
        if (heights.Count == 0 || edges.Count != heights.Count + 1)
            throw new ArgumentException($"The histogram “{name}” has {edges.Count} edges for {heights.Count} classes: there must be one more edge than classes.", nameof(edges));
        for (var i = 1; i < edges.Count; i++)
        {
            if (!(edges[i] > edges[i - 1]))
                throw new ArgumentException(FormattableString.Invariant($"The edges of the histogram “{name}” must ascend, but {edges[i]} follows {edges[i - 1]}."), nameof(edges));
        }
        var x = edges.SelectMany(edge => new[] { edge, edge }).ToArray();
        var y = new double[x.Length]; // starts and ends on the axis
        for (var i = 0; i < heights.Count; i++)
            y[2 * i + 1] = y[2 * i + 2] = heights[i];
        Outline = new PlotSeries(name, style, x, y) { HasCorners = true };
    }

    /// <summary>The outline of the histogram, from the axis back to the axis.</summary>
    internal PlotSeries Outline { get; }
}
