using OxyPlot;

namespace RollRide.Plots;

/// <summary>Thins a long curve to what a picture can show, keeping its shape.</summary>
/// <remarks>
/// Of the points that fall into one column of the picture, the first, the lowest, the highest and the last are kept: the line drawn
/// through them covers the same pixels as the line through all (Jugel et al., "M4: a visualization-oriented time series data
/// aggregation", Proceedings of the VLDB Endowment 7, 2014, from memory). Every extreme of the curve survives with its exact value.
/// </remarks>
public static class MinMaxDecimation
{
    /// <summary>Columns for a panel across a whole picture: one for each pixel.</summary>
    public const int DefaultColumns = 1600;

    /// <summary>The points to draw, in the order of <paramref name="x"/>.</summary>
    /// <param name="x">Horizontal values, never descending.</param>
    /// <param name="y">Vertical values, as many.</param>
    /// <param name="columns">Columns of the picture, at least 1.</param>
    /// <exception cref="ArgumentException">The lengths differ, a value is not finite, or x descends.</exception>
    public static IReadOnlyList<DataPoint> Reduce(IReadOnlyList<double> x, IReadOnlyList<double> y, int columns = DefaultColumns)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 1);
        PlotSeries.CheckPoints(x, y);
        for (var i = 1; i < x.Count; i++)
        {
            if (x[i] < x[i - 1])
                throw new ArgumentException(FormattableString.Invariant($"The horizontal values must not descend, but x[{i}] = {x[i]} follows {x[i - 1]}."), nameof(x));
        }
        const int pointsInColumn = 4;
        var points = new List<DataPoint>(Math.Min(x.Count, pointsInColumn * columns));
        if (x.Count <= pointsInColumn * columns)
        {
            for (var i = 0; i < x.Count; i++)
                points.Add(new DataPoint(x[i], y[i]));
            return points;
        }

        var scale = columns / (x[^1] - x[0]);
        for (var first = 0; first < x.Count;)
        {
            var column = Column(first);
            var (low, high, last) = (first, first, first);
            while (last + 1 < x.Count && Column(last + 1) == column)
            {
                last++;
                low = y[last] < y[low] ? last : low;
                high = y[last] > y[high] ? last : high;
            }
            foreach (var kept in new[] { first, Math.Min(low, high), Math.Max(low, high), last }.Distinct())
                points.Add(new DataPoint(x[kept], y[kept]));
            first = last + 1;
        }
        return points;

        int Column(int i) => Math.Min(columns - 1, (int)((x[i] - x[0]) * scale));
    }
}
