using OxyPlot;
using RollRide.Numerics;

namespace RollRide.Plots;

/// <summary>Thins a long curve to what a picture can show (<see cref="Thinning"/>).</summary>
public static class MinMaxDecimation
{
    /// <summary>The points to draw, in the order of <paramref name="x"/>.</summary>
    /// <param name="x">Horizontal values, never descending.</param>
    /// <param name="y">Vertical values, as many.</param>
    /// <param name="columns">Columns of the picture, at least 1.</param>
    /// <exception cref="ArgumentException">The lengths differ, a value is not finite, or x descends.</exception>
    public static IReadOnlyList<DataPoint> Reduce(IReadOnlyList<double> x, IReadOnlyList<double> y, int columns = Thinning.DefaultColumns)
    {
        PlotSeries.CheckPoints(x, y);
        for (var i = 1; i < x.Count; i++)
        {
            if (x[i] < x[i - 1])
                throw new ArgumentException(FormattableString.Invariant($"The horizontal values must not descend, but x[{i}] = {x[i]} follows {x[i - 1]}."), nameof(x));
        }

        var (keptX, keptY) = Thinning.Reduce(x.Count, i => x[i], y, columns);
        return [.. keptX.Zip(keptY, (at, value) => new DataPoint(at, value))];
    }
}
