namespace RollRide.Numerics;

/// <summary>Thins a long curve to what a picture can show, keeping its shape.</summary>
/// <remarks>
/// Of the points that fall into one column of the picture, the first, the lowest, the highest and the last are kept: the line drawn
/// through them covers the same pixels as the line through all (Jugel et al., "M4: a visualization-oriented time series data
/// aggregation", Proceedings of the VLDB Endowment 7, 2014, from memory). Every extreme of the curve survives with its exact value, and
/// a curve thinned once is not thinned further.
/// </remarks>
public static class Thinning
{
    /// <summary>Columns for a panel across a whole picture: one for each pixel.</summary>
    public const int DefaultColumns = 1600;

    private const int PointsInColumn = 4;

    /// <summary>The points to draw, in their order; all of them where they are few.</summary>
    /// <param name="count">How many points there are.</param>
    /// <param name="x">Horizontal value of a point, by its number; never descending.</param>
    /// <param name="y">The vertical values in their order, gone through once.</param>
    /// <param name="columns">Columns of the picture, at least 1.</param>
    public static (double[] X, double[] Y) Reduce(int count, Func<int, double> x, IEnumerable<double> y, int columns = DefaultColumns)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 1);
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        if (count <= PointsInColumn * columns)
            return ([.. Enumerable.Range(0, count).Select(x)], [.. y]);

        var (start, scale) = (x(0), columns / (x(count - 1) - x(0)));
        var (keptX, keptY) = (new List<double>(PointsInColumn * columns), new List<double>(PointsInColumn * columns));
        Point first = default, low = default, high = default, last = default;
        var (i, column) = (0, -1);
        foreach (var value in y)
        {
            var point = new Point(i++, x(i - 1), value);
            if (Math.Min(columns - 1, (int)((point.X - start) * scale)) is var here && here != column)
            {
                Keep();
                first = low = high = point;
                column = here;
            }

            last = point;
            low = point.Y < low.Y ? point : low;
            high = point.Y > high.Y ? point : high;
        }

        Keep();
        return ([.. keptX], [.. keptY]);

        void Keep()
        {
            if (column < 0)
                return;
            var (one, other) = low.Number < high.Number ? (low, high) : (high, low);
            foreach (var kept in new[] { first, one, other, last }.DistinctBy(point => point.Number))
            {
                keptX.Add(kept.X);
                keptY.Add(kept.Y);
            }
        }
    }

    private readonly record struct Point(int Number, double X, double Y);
}
